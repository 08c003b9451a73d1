/** The outline of a zone: the one on record, and the one a measurement just gave. */
import type { Args, Value } from "../../../platform/engine/types";
import {
  type AtWater,
  atMost,
  type Corner,
  edgesAtWater,
  isOutline,
  outlineRecord,
  type ZoneOutline,
} from "./outline";
import type { Measures } from "./zone-form";

export type { ZoneOutline } from "./outline";

/** The calls that measure a zone. */
export type AreaCallName =
  | "area.shapes"
  | "area.offsets"
  | "area.radii"
  | "area.gps"
  | "area.trace"
  | "area.outline";
/** One of them with what it is asked. */
export type AreaCall = { [N in AreaCallName]: { name: N; args: Args<N> } }[AreaCallName];

type KeysOf<U> = U extends unknown ? keyof U : never;
type Field<U, K extends PropertyKey> = U extends { [F in K]: infer V } ? V : never;
type Answers = Value<AreaCallName>;
/** What the ways of measuring answer; only some of them know where the edge lies. */
export type AreaResult = { area_m2: number } & { [K in KeysOf<Answers>]?: Field<Answers, K> };

/** The outline on record; undefined where there is none that can be drawn. */
export function zoneOutline({ outline }: { outline?: unknown }): ZoneOutline | undefined {
  if (!isOutline(outline)) return undefined;
  const { points_m, holes_m = [], circles_m = [], north_deg = null } = outline;
  return { points_m, holes_m, circles_m, north_deg };
}

/**
 * The outline a measurement gives; undefined where it gives none, or one that only follows from lengths while the
 * zone has an outline drawn by hand.
 */
export function outlineFound(
  measures: Measures,
  found: AreaResult,
  standing?: Partial<ZoneOutline>,
): ZoneOutline | undefined {
  if (measures.method === "outline") return outlineRecord(measures.outline);
  const placed = measures.method === "gps" || measures.method === "trace";
  if (!placed && standing?.drawn) return undefined;
  const points_m = placed ? found.points_m : found.outline_m;
  if (!points_m) return undefined;
  const { holes_m = [], north_deg = null } = found;
  // The area goes by every fix of a walk; the plan needs no more corners than the book takes. Its own plane has north up.
  if (measures.method === "gps") return { points_m: atMost(points_m), holes_m, circles_m: [], north_deg: 0 };
  return { points_m, holes_m, circles_m: [], north_deg };
}

/** The corners of the outline the zone would have if it were saved now; none where only an area is known. */
export function cornersNow(measures: Measures, found: AreaResult | undefined): Corner[] {
  const { points, drawn } = measures.outline;
  const fresh = found && outlineFound(measures, found, drawn ? { drawn } : {});
  return measures.method === "outline" ? points : (fresh?.points_m ?? points);
}

/** The edges at the water as the record keeps them; none marked is no field. */
export function waterOf({ outline }: Measures, corners: number): { water_edges?: number[] } {
  const edges = edgesAtWater(outline.water, corners);
  return edges.length ? { water_edges: edges } : {};
}

/** The marks on record, which hold for the outline beside them. */
export function waterOn(ground: { outline?: unknown; water_edges?: unknown }): { water?: AtWater } {
  const corners = zoneOutline(ground)?.points_m.length ?? 0;
  const edges = Array.isArray(ground.water_edges) ? ground.water_edges.filter((edge) => edge < corners) : [];
  return edges.length ? { water: { corners, edges } } : {};
}

/** The likely error; an outline mended by hand keeps that of the walk or plan it came from. */
export function sdFound(measures: Measures, found: AreaResult): number | undefined {
  return found.sd_m2 ?? (measures.method === "outline" ? measures.outline.sd_m2 : undefined) ?? undefined;
}
