/** A step, its days and what speaks against them, as they are said on the sheet and in the list. */
import {
  area,
  count,
  date,
  dayMonth,
  grouped,
  length,
  nitrogen,
  percent,
  rain,
  rate,
  type System,
  temperature,
} from "../../../../format";
import { saySource } from "../../../../records/grasses";
import type { Flag } from "../../drawing/sheet-shape";
import type { Breach } from "../../model/sheet/moving";

/** As much as a flag's cloth takes. */
const CLOTH_LETTERS = 12;

export const shortened = (text: string, letters: number): string =>
  text.length > letters ? `${text.slice(0, letters - 1)}…` : text;

export const onCloth = (text: string): string => shortened(text, CLOTH_LETTERS);

export function sayBags(bags: number, system: System): string {
  const number = grouped(bags, 1, system);
  return `${number} ${number === "1" ? "bag" : "bags"}`;
}

/** What matters most of a flag besides its job. */
export function sayFlag(flag: Pick<Flag, "state" | "late" | "bags">, system: System): string {
  if (flag.state === "done") return "Done";
  if (flag.state === "put_off") return "Put off";
  if (flag.late) return "Late";
  return flag.bags === null ? "" : sayBags(flag.bags, system);
}

/** "4 May to 10 May"; the year where it is another than today's. */
export function sayDays(from: string, to: string, today: string): string {
  const say = to.slice(0, 4) === today.slice(0, 4) ? dayMonth : date;
  return from === to ? say(from) : `${dayMonth(from)} to ${say(to)}`;
}

export function sayWeeks(weeks: number): string {
  if (!weeks) return "Where it was";
  return `${count(Math.abs(weeks), "week").text} ${weeks < 0 ? "earlier" : "later"}`;
}

/** A figure of a rule, in the person's own unit. */
function figure(value: number, unit: string, system: System): string {
  if (unit === "kg N/m2") return nitrogen(value, system).text;
  if (unit === "kg/m2") return rate(value, system).text;
  if (unit === "days") return count(value, "day").text;
  if (unit === "uses") return count(value, "use").text;
  if (unit === "share") return percent(value).text;
  if (unit === "C") return temperature(value, system).text;
  if (unit === "mm") return rain(value, system).text;
  if (unit === "m") return length(value, system).text;
  return unit === "m2" ? area(value, system).text : grouped(value, 2, system);
}

const SOURCES: Record<string, string> = {
  label: "the label",
  "common practice": "common practice",
  "entered by you": "entered by you",
};

/** What was found, what is allowed, from when it is right, and who says so. */
export function sayBreach(breach: Breach, system: System): string {
  const { figure: found, ceiling, unit, right_from, source } = breach;
  const figures = [
    found === null || !unit ? "" : `Now ${figure(found, unit, system)}.`,
    ceiling === null || !unit ? "" : `The rule: ${figure(ceiling, unit, system)}.`,
    right_from ? `Right from ${date(right_from)}.` : "",
    `Source: ${SOURCES[source] ?? saySource(source)}.`,
  ];
  return figures.filter(Boolean).join(" ");
}
