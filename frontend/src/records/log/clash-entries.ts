/** Entries as the engine looks for what does not go together: those that can matter, in the shape it takes. */
import { daysBetween } from "../../format";
import type { Args } from "../../platform/engine/types";
import { type Entry, given, isAhead } from "../entries";
import { kindOf } from "./registry";

/** Grass counts as new for 90 days or three mows: mows after a seeding of the last half year are handed on. */
const NEW_DAYS = 185;

/** Since when each zone's mows tell whether its new grass is grown. */
function seeded(entries: readonly Entry[], day: string): Map<string, string> {
  const found = new Map<string, string>();
  for (const { kind, body, struck, at, zoneIds } of entries) {
    if (!kindOf(kind)?.sows?.(body) || struck || daysBetween(at, day) > NEW_DAYS) continue;
    for (const id of zoneIds) if (!(at.slice(0, 10) > (found.get(id) ?? "9"))) found.set(id, at.slice(0, 10));
  }
  return found;
}

/** Those whose kind says that they may clash still; nothing struck out. */
export function mayClash(all: readonly Entry[], day: string): Entry[] {
  // By the signs alone for nearly all of a long log: no kind looks farther back.
  const first = String(Number(day.slice(0, 4)) - 1);
  const entries = all.filter(({ at }) => !(at < first));
  const since = seeded(entries, day);
  const ofNewGrass = ({ at, zoneIds }: Entry) =>
    zoneIds.some((id) => at.slice(0, 10) >= (since.get(id) ?? "9"));
  return entries.filter((entry) => {
    const { kind, struck, sick, zoneIds, body } = entry;
    if (struck || sick.length || isAhead(entry, day)) return false;
    if (body["step_id"]) return true; // whatever it is: another entry may say that it did the same step
    if (!zoneIds.length) return false;
    return kindOf(kind)?.mayClash?.(entry, { day, onNewGrass: ofNewGrass(entry) }) ?? false;
  });
}

/** Answers by which phosphate was allowed. */
const NEEDED = ["soil_test", "seeding"];

export function phosphateNeeded(answered: unknown): true | undefined {
  const rows = Array.isArray(answered) ? (answered as { kind?: unknown; answer?: unknown }[]) : [];
  const found = rows.some(
    ({ kind, answer }) => String(kind).startsWith("phosphate") && NEEDED.includes(String(answer)),
  );
  return found || undefined;
}

export type ClashEntry = Args<"record.clashes">["entries"][number];

/** An entry as the engine takes it; one that does not yet say whose it is was made on this phone. */
export function clashEntry({ id, kind, at, by, zoneIds, body }: Entry, me: string | undefined): ClashEntry {
  const { product_id, sort, slow_n_share, zones, answered, step_id } = body;
  const phosphate_needed = phosphateNeeded(answered);
  return {
    id,
    kind,
    occurred_at: at,
    zone_ids: zoneIds,
    ...given({ by: by ?? me, product_id, sort, slow_n_share, zones, phosphate_needed, step_id }),
  };
}
