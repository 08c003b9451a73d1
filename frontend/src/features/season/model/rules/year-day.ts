/** A day of every year, as a rule has it (11-16) and as it is chosen: a month and a number. */
import { dayMonth, readNumber } from "../../../../format";

export interface DayTyped {
  /** "01" to "12"; blank while none is chosen. */
  month: string;
  day: string;
}

const NAMES = ["January", "February", "March", "April", "May", "June"].concat(
  ["July", "August", "September", "October", "November", "December"], // biome-ignore format: two halves
);

/** As the engine takes them (lawn/engine/limits/rows.py): 29 February is the end of that month in any year. */
const LENGTHS = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const two = (n: number): string => String(n).padStart(2, "0");

export const MONTH_CHOICES = NAMES.map((label, at) => ({ value: two(at + 1), label }));

export function dayOf(written: string | null | undefined): DayTyped {
  const [month = "", day = ""] = (written ?? "").split("-");
  return { month, day: day && String(Number(day)) };
}

/** "16 Nov". */
export const sayDay = (written: string): string => dayMonth(`2024-${written}`);

export type DayRead = { ok: true; day: string } | { ok: false; message: string };

export function readDay({ month, day }: DayTyped, label: string): DayRead {
  const most = LENGTHS[Number(month) - 1];
  if (!most) return { ok: false, message: `${label}: choose a month.` };
  const read = readNumber(day);
  const name = NAMES[Number(month) - 1];
  const allowed = `Allowed is 1 to ${most} in ${name}.`;
  if (!read.ok) return { ok: false, message: `${label}: enter the day of the month. ${allowed}` };
  if (!Number.isInteger(read.value) || read.value < 1 || read.value > most)
    return { ok: false, message: `${label} is not a day of ${name}. ${allowed}` };
  return { ok: true, day: `${month}-${two(read.value)}` };
}
