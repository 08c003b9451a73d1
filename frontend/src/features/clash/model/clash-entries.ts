/** Entries as the engine looks for what does not go together: those that can matter, in the shape it takes. */
import { daysBetween } from "../../../format";
import { type Entry, given, isAhead } from "../../../records/entries";

/** A mow noted twice is asked about for two weeks; a day more for clocks that stand apart. */
const MOW_DAYS = 15;
/** Grass counts as new for 90 days or three mows: mows after a seeding of the last half year are handed on. */
const NEW_DAYS = 185;

/** Since when each zone's mows tell whether its new grass is grown. */
function seeded(entries: readonly Entry[], day: string): Map<string, string> {
  const found = new Map<string, string>();
  for (const { kind, body, struck, at, zoneIds } of entries) {
    if (kind !== "spread" || struck || body["sort"] !== "seed" || daysBetween(at, day) > NEW_DAYS) continue;
    for (const id of zoneIds) if (!(at.slice(0, 10) > (found.get(id) ?? "9"))) found.set(id, at.slice(0, 10));
  }
  return found;
}

/** Walks of this year and the last, mows of two weeks, and mows of new grass; nothing struck out. */
export function mayClash(entries: readonly Entry[], day: string): Entry[] {
  const since = seeded(entries, day);
  const ofNewGrass = ({ at, zoneIds }: Entry) =>
    zoneIds.some((id) => at.slice(0, 10) >= (since.get(id) ?? "9"));
  return entries.filter((entry) => {
    const { kind, at, struck, sick, zoneIds } = entry;
    if (struck || sick.length || !zoneIds.length || isAhead(entry, day)) return false;
    if (kind === "mow") return !(daysBetween(at, day) > MOW_DAYS) || ofNewGrass(entry);
    return kind === "spread" && !(Number(at.slice(0, 4)) < Number(day.slice(0, 4)) - 1);
  });
}

/** Answers by which phosphate was allowed. */
const NEEDED = ["soil_test", "seeding"];

function phosphateNeeded(answered: unknown): true | undefined {
  const rows = Array.isArray(answered) ? (answered as { kind?: unknown; answer?: unknown }[]) : [];
  const found = rows.some(
    ({ kind, answer }) => String(kind).startsWith("phosphate") && NEEDED.includes(String(answer)),
  );
  return found || undefined;
}

/** An entry as the engine takes it; one that does not yet say whose it is was made on this phone. */
export function clashEntry({ id, kind, at, by, zoneIds, body }: Entry, me: string | undefined): object {
  const { product_id, sort, slow_n_share, zones, answered } = body;
  const phosphate_needed = phosphateNeeded(answered);
  return {
    id,
    kind,
    occurred_at: at,
    zone_ids: zoneIds,
    ...given({ by: by ?? me, product_id, sort, slow_n_share, zones, phosphate_needed }),
  };
}
