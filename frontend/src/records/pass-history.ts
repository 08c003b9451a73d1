/**
 * What a spreader has done, as `spreading.*` takes it: the book's pass entries, oldest first. A pass on which the dial
 * was changed on the way is one row for each setting. Every row knows its entry, so that an answer that names a place in
 * the history leads back to the log.
 */
import type { Args } from "../platform/engine/types";
import type { DialScale } from "../ui/drawing/dial-shape";
import { type Entry, given } from "./entries";

/** A pass of history as `spreading.*` takes it. */
export type PastPass = Args<"spreading.start">["history"][number];
/** How a rest was measured. */
export type MeasuredBy = PastPass["measured"];

export interface HistoryRow {
  entryId: string;
  spreadId: string | undefined;
  at: string;
  /** Which setting of the pass, from 0; null where one setting served for all of it. */
  part: number | null;
  past: PastPass;
}

/** A stretch of a pass walked at one setting, as the body of a pass keeps it. */
export interface PassPart {
  dial: number;
  area_m2: number;
  used_kg: number;
  measured: MeasuredBy;
  left_kg: number;
}

/** A reading as the next stretch begins with it. */
export interface ReadBefore {
  left_kg?: number;
  measured?: MeasuredBy;
}

/** The engine takes no more rows than this; the newest are kept. */
const MOST_ROWS = 400;
/** Less ground than this says nothing, and the engine refuses it. */
const LEAST_AREA_M2 = 0.5;

function sameDial(then: unknown, now: DialScale): boolean {
  if (!then || typeof then !== "object") return true;
  const was = then as DialScale;
  return was.lowest === now.lowest && was.highest === now.highest && was.step === now.step;
}

/** Whether a pass is left out of learning: what was decided afterwards wins over what was noted on the job. */
export function leftOut({ body, row }: Entry): boolean {
  const later: unknown = row.groups["learning"]?.value?.bad;
  return typeof later === "boolean" ? later : body["bad"] === true;
}

/** The settings of a pass with what each put down; a pass of one setting is its own only part. */
function partsOf(body: Entry["body"]): { part: number | null; said: PassPart }[] {
  const parts: unknown = body["parts"];
  if (Array.isArray(parts) && parts.length)
    return parts
      .map((said: PassPart, part) => ({ part, said }))
      .filter(({ said }) => said.area_m2 >= LEAST_AREA_M2);
  const { dial, area_m2, used_kg, measured, left_kg } = body;
  return [{ part: null, said: { dial, area_m2, used_kg, measured, left_kg } }];
}

/** What each stretch began with: the reading at the end of the one before it; of the first, that before the pass. */
export function readBefore(parts: readonly ReadBefore[], first: ReadBefore | undefined): object[] {
  return parts.map((_, k) => {
    const { left_kg: before_left_kg, measured: before_measured } = (k ? parts[k - 1] : first) ?? {};
    return given({ before_left_kg, before_measured });
  });
}

/** The pass of the same walk before this one: what it left is what this one began with. */
function passBefore({ id, body }: Entry, all: readonly Entry[]): ReadBefore | undefined {
  const of = body["spread_id"];
  const earlier = all.filter((one) => one.id !== id && one.body["spread_id"] === of);
  const before = earlier.filter((one) => one.body["number"] < body["number"]);
  const last = before.sort((a, b) => a.body["number"] - b.body["number"]).at(-1);
  return last && { left_kg: last.body["left_kg"], measured: last.body["measured"] };
}

/** The sort of product of each job: passes of earlier builds do not say it themselves. */
function sortsOf(entries: readonly Entry[]): Map<string, unknown> {
  return new Map(entries.filter(({ kind }) => kind === "spread").map(({ id, body }) => [id, body["sort"]]));
}

function rowsOf(entry: Entry, all: readonly Entry[], sorts: Map<string, unknown>): HistoryRow[] {
  const { id, at, body } = entry;
  const sort = given({ sort: body["sort"] ?? sorts.get(body["spread_id"]) });
  const found = partsOf(body);
  const before = readBefore(
    found.map(({ said }) => said),
    passBefore(entry, all),
  );
  return found.map(({ part, said }, k) => ({
    entryId: id,
    spreadId: body["spread_id"],
    at,
    part,
    past: { ...pastPass(entry, said, k === found.length - 1), ...before[k], ...sort },
  }));
}

/** Running out, or nothing coming, is said of the last setting: the walker was past the others by then. */
function pastPass(entry: Entry, { dial, area_m2, used_kg, measured, left_kg }: PassPart, last: boolean) {
  const { product_id: product, ran_out, nothing_came, damp, ...body } = entry.body;
  const { bulk_density_kg_m3, granules, swath_m, speed_m_s } = body;
  const flags = {
    ran_out: last && ran_out === true,
    // A last stretch too short to stand alone is part of the one before it, and that one flowed.
    nothing_came: last && nothing_came === true && !(used_kg > 0),
    bad: leftOut(entry),
    damp: damp === true,
  };
  const raised = Object.fromEntries(Object.entries(flags).filter(([, up]) => up));
  const facts = given({ bulk_density_kg_m3, granules, left_kg, swath_m, speed_m_s });
  return { product, dial, area_m2, used_kg, measured, ...raised, ...facts } as PastPass;
}

/**
 * Past passes of a spreader, oldest first. Struck-out ones are left out, and those walked while the dial was entered
 * with other numbers: their settings mean something else.
 */
export function historyRows(spreaderId: string, dial: DialScale, entries: readonly Entry[]): HistoryRow[] {
  const mine = entries.filter(
    ({ kind, body, struck, sick }) =>
      kind === "pass" && body["spreader_id"] === spreaderId && !struck && !sick.length,
  );
  const sorts = sortsOf(entries);
  return mine
    .filter(({ body }) => sameDial(body["dial_scale"], dial))
    .sort((a, b) => Date.parse(a.at) - Date.parse(b.at) || (a.id < b.id ? -1 : 1))
    .flatMap((entry) => rowsOf(entry, mine, sorts))
    .slice(-MOST_ROWS);
}

/** The same as the engine takes it: index by index the `past` of `historyRows`. */
export function historyOf(spreaderId: string, dial: DialScale, entries: readonly Entry[]): PastPass[] {
  return historyRows(spreaderId, dial, entries).map(({ past }) => past);
}
