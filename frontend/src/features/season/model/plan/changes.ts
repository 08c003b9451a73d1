/** A plan that was found beside the one that is kept: what stays, what moves, what is new and what goes. */
import { dayAfter } from "../../../../format";
import type { Value } from "../../../../platform/engine";
import type { Kept } from "./book";

export type Found = Value<"season.read">["steps"][number];

export type Change =
  | { what: "same"; step: Found; was: Kept }
  | { what: "moved"; step: Found; was: Kept }
  | { what: "new"; step: Found; was?: undefined }
  | { what: "gone"; step?: undefined; was: Kept };

const SUNDAY = 6;

/** The Monday of a day's week. */
export function mondayOf(day: string): string {
  const since = (new Date(`${day}T00:00:00Z`).getUTCDay() + SUNDAY) % 7;
  return dayAfter(day, -since);
}

export const sundayOf = (day: string): string => dayAfter(mondayOf(day), SUNDAY);

const productOf = ({ product }: Found): string | undefined => product ?? undefined;

/** Still to be done, this week or later. */
const stands = (kept: Kept, today: string): boolean => kept.state === "planned" && kept.to_on >= today;

/** In its week, with its product, on ground that is its own. */
function isOf(step: Found, kept: Kept, today: string): boolean {
  const from = kept.from_on > today ? kept.from_on : today;
  return (
    step.sort === kept.job &&
    productOf(step) === kept.product &&
    mondayOf(step.date) === mondayOf(from) &&
    step.zones.every((id) => kept.zones.includes(id))
  );
}

/** The same job elsewhere in the year: rather with the same product, rather near. */
function movedFrom(step: Found, left: readonly Kept[]): Kept | undefined {
  const fits = left.filter(
    ({ job, zones }) => job === step.sort && step.zones.some((id) => zones.includes(id)),
  );
  const far = (kept: Kept) =>
    Math.abs(Date.parse(kept.from_on) - Date.parse(step.date)) +
    (kept.product === productOf(step) ? 0 : 1e12);
  return fits.sort((one, other) => far(one) - far(other))[0];
}

/** `planned`: the zones a plan reaches; on others nothing was to be done again. */
export function changesBetween(
  steps: readonly Found[],
  kept: readonly Kept[],
  planned: ReadonlySet<string>,
  today: string,
): Change[] {
  const standing = kept.filter((one) => stands(one, today));
  const open = new Set(steps);
  const changes: Change[] = [];
  const left: Kept[] = [];
  for (const was of standing) {
    const of = steps.filter((step) => open.has(step) && isOf(step, was, today));
    const reached = new Set(of.flatMap(({ zones }) => zones));
    const wanted = was.zones.filter((id) => planned.has(id));
    const whole = wanted.length > 0 && wanted.every((id) => reached.has(id));
    if (!whole) left.push(was);
    for (const step of whole ? of : []) {
      open.delete(step);
      changes.push({ what: "same", step, was });
    }
  }
  // What was put off, or whose week went by undone, takes a new place; where it finds none it is left as it is.
  const late = kept.filter((one) => !stands(one, today) && one.state !== "done");
  for (const step of steps.filter((one) => open.has(one))) {
    const was = movedFrom(step, left) ?? movedFrom(step, late);
    changes.push(was ? { what: "moved", step, was } : { what: "new", step });
    for (const among of [left, late]) if (was && among.includes(was)) among.splice(among.indexOf(was), 1);
  }
  return [...changes, ...left.map((was) => ({ what: "gone", was }) as const)].sort((one, other) =>
    dayOf(one).localeCompare(dayOf(other)),
  );
}

const dayOf = ({ step, was }: Change): string => step?.date ?? was?.from_on ?? "";
