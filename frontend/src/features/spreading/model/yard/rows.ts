/** The rows of a pass: how they lie, where the walker stands among them, what `swath.tour` is asked. */
import type { Args } from "../../../../platform/engine/types";
import { given } from "../../../../records/entries";
import type { Crossing, OutRow, PassOnFoot, Pattern, Plan, SpreadZone, TourRow } from "../types";

/**
 * How the tracks of a pass lie. The second between the first ones, half a swath over (spreading.md: it evens a lopsided
 * spreader best); at right angles only where chosen, and of three or more passes only the third.
 */
export function patternOf(number: number, passes: number, crossing: Crossing): Pattern {
  const across = passes > 2 ? 3 : 2;
  if (crossing === "crossed" && number === across) return "crossed";
  return number % 2 === 0 ? "offset" : "plain";
}

/** What a pass knows before its first step. */
export function unwalked(there_kg: number) {
  return {
    rows: [] as TourRow[],
    done: 0,
    added_kg: 0,
    in_bag_kg: null as number | null,
    damp: false,
    part: { there_kg, rows: 0, area_m2: 0 },
    base: { kg: there_kg, area_m2: 0 },
    parts: [],
    checks: [],
  };
}

/** Ground covered once that many rows are walked, m2. */
export function coveredBy(rows: readonly TourRow[], done: number): number {
  return done > 0 ? (rows[done - 1]?.done_area_m2 ?? 0) : 0;
}

export interface Standing {
  /** The row being walked; undefined once all are. */
  row: TourRow | undefined;
  done: number;
  of: number;
  zone: SpreadZone | undefined;
  /** Of this zone: which row, of how many. */
  in_zone: number;
  of_zone: number;
  /** Whether the row just begun is the first of another zone. */
  new_zone: boolean;
  /** What should be there now, hopper and bag together; null where not known. */
  expected_kg: number | null;
}

/** Where the walker stands in a pass. */
export function standing(plan: Plan, { rows, done, base, part }: PassOnFoot): Standing {
  const row = rows[done];
  const here = row ? rows.filter(({ zone_id }) => zone_id === row.zone_id) : [];
  const before = rows[done - 1];
  const nothingSince = done === part.rows && base.area_m2 === part.area_m2;
  return {
    row,
    done,
    of: rows.length,
    zone: plan.zones.find(({ id }) => id === row?.zone_id),
    in_zone: row ? here.indexOf(row) + 1 : 0,
    of_zone: here.length,
    new_zone: row !== undefined && before !== undefined && before.zone_id !== row.zone_id,
    expected_kg: nothingSince ? base.kg : (before?.left_kg ?? null),
  };
}

export interface Laying {
  pattern: Pattern;
  /** Strips that zones without outline take, by zone. */
  strips: Record<string, number>;
  base: PassOnFoot["base"];
  rate_kg_m2: number | null;
  /** Holes of each zone with round obstacles made polygons; by zone. */
  holes: Record<string, [number, number][][]>;
  /** Rows of earlier passes that get no more. */
  out?: readonly OutRow[];
}

function tourZone(zone: SpreadZone, { strips, holes }: Laying): Args<"swath.tour">["zones"][number] {
  const { id, area_m2, outline, heading_deg, water_edges, clear_m } = zone;
  if (!outline) return { id, area_m2, ...given({ strips: strips[id] }) };
  const holes_m = holes[id] ?? outline.holes_m ?? [];
  return {
    id,
    area_m2,
    outline_m: outline.points_m,
    ...(holes_m.length ? { holes_m } : {}),
    ...given({ heading_deg }),
    ...(clear_m && water_edges ? { water_edges, setback_m: clear_m } : {}),
  };
}

/** `swath.tour` for a pass; null where the spreader's swath is not in the shed. */
export function tourArgs(plan: Plan, laying: Laying): Args<"swath.tour"> | null {
  const { swath_m, speed_m_s, zones } = plan;
  if (!swath_m) return null;
  const { pattern, base, rate_kg_m2 } = laying;
  const load = rate_kg_m2 ? { load_kg: base.kg, rate_kg_m2, ...given({ covered_m2: base.area_m2 }) } : {};
  return {
    zones: zones.map((zone) => tourZone(zone, laying)),
    swath_m,
    pattern,
    ...given({ speed_m_s }),
    ...load,
    ...(laying.out?.length ? { out: laying.out.map(outRow) } : {}),
  };
}

function outRow({
  zone_id,
  points_m,
  from_m2,
  to_m2,
}: OutRow): NonNullable<Args<"swath.tour">["out"]>[number] {
  return { zone_id, ...given({ points_m }), from_m2, to_m2 };
}

/** The ground this pass has to cover: all of it, but for what its rows leave out. */
export function groundOf(plan: Plan, { rows }: PassOnFoot): number {
  return rows.some(({ out_m2 }) => out_m2) ? coveredBy(rows, rows.length) : plan.area_m2;
}

/** The same ground with its outlines left out: one row a zone, where no strips can be laid out. */
export function withoutOutlines(plan: Plan): Plan {
  return { ...plan, zones: plan.zones.map(({ outline: _, heading_deg: __, ...zone }) => zone) };
}

/** "60", "60 %", "9 of 14": part of the ground as whole numbers, for `swath.tour` to make an area of. */
export interface Part {
  walked: number;
  of: number;
}

/** `swath.tour` over one ground without outline cut into equal strips; its row `walked` ends where the part does. */
export function partArgs(area_m2: number, of: number, swath_m: number): Args<"swath.tour"> {
  return { zones: [{ id: "ground", area_m2, strips: of }], swath_m };
}
