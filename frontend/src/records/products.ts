/** Products and spreaders as screens and models read them from their records. */

import { dial, type Typed } from "../format";
import type { Args } from "../platform/engine/types";
import type { Row } from "../platform/store/types";
import type { DialScale } from "../ui/drawing/dial-shape";
import { given } from "./entries";
import { fieldsOf } from "./kinds";

export type SignalWord = "none" | "caution" | "warning" | "danger";
export type Watering = "unsaid" | "water_in" | "keep_dry";
export type Granules = "fine" | "medium" | "coarse";

export interface Product {
  id: string;
  name: string;
  sort: string;
  net_kg: number;
  net_typed?: Typed;
  coverage_m2?: number;
  coverage_typed?: Typed;
  n_percent?: number;
  p2o5_percent?: number;
  k2o_percent?: number;
  slow_n_share?: number;
  signal_word?: SignalWord;
  water_in?: Watering;
  keep_off_hours?: number;
  interval_days?: number;
  remarks?: string;
  price?: number;
  granules?: Granules;
  bulk_density_kg_m3?: number;
  pending: boolean;
  row: Row;
}

export interface Hopper {
  top_length_m: number;
  top_width_m: number;
  bottom_length_m: number;
  bottom_width_m: number;
  height_m: number;
}

export interface Spreader {
  id: string;
  name: string;
  sort: "rotary" | "drop";
  dial: DialScale;
  swath_m?: number;
  swath_typed?: Typed;
  speed_m_s?: number;
  speed_typed?: Typed;
  /** Whether its fan can be shut on one side, where entered. */
  deflector?: boolean;
  /** All five outline measures, or nothing. */
  hopper?: Hopper;
  holds_kg?: number;
  pending: boolean;
  row: Row;
}

function group(row: Row, name: string): Record<string, any> {
  return row.groups[name]?.value ?? {};
}

/** The fields that a group is read for here; what a later build keeps beside them is not laid over other groups'. */
function facts(row: Row, name: string): Record<string, any> {
  const known = fieldsOf(row.t, name);
  return Object.fromEntries(Object.entries(group(row, name)).filter(([field]) => field in known));
}

export function productOf(row: Row): Product {
  const all = ["label", "analysis", "caution", "price", "granules"].map((name) => facts(row, name));
  const { name, sort } = group(row, "name");
  const { net_kg, ...label } = Object.assign({}, ...all);
  return {
    ...label,
    id: row.id,
    name: String(name ?? "Unnamed product"),
    sort: String(sort ?? "other"),
    net_kg: Number(net_kg),
    pending: row.pending,
    row,
  };
}

const MEASURES = ["top_length_m", "top_width_m", "bottom_length_m", "bottom_width_m", "height_m"] as const;

function hopperOf(row: Row): Hopper | undefined {
  const value = group(row, "hopper");
  if (!MEASURES.every((name) => typeof value[name] === "number")) return undefined;
  return Object.fromEntries(MEASURES.map((name) => [name, value[name]])) as unknown as Hopper;
}

export function spreaderOf(row: Row): Spreader {
  const { name, sort } = group(row, "name");
  const { lowest, highest, step } = group(row, "dial");
  const { holds_kg } = group(row, "hopper");
  const hopper = hopperOf(row);
  return {
    ...facts(row, "walking"),
    ...(holds_kg === undefined ? {} : { holds_kg }),
    ...(hopper ? { hopper } : {}),
    id: row.id,
    name: String(name ?? "Unnamed spreader"),
    sort: sort === "drop" ? "drop" : "rotary",
    dial: { lowest, highest, step },
    pending: row.pending,
    row,
  };
}

/** A product as the dial's calls take it. */
export function productArgs({
  id,
  sort,
  bulk_density_kg_m3,
  granules,
}: Pick<Product, "id"> & {
  sort?: string;
  bulk_density_kg_m3?: number;
  granules?: string;
}): Args<"spreading.start">["product"] {
  return { id, ...given({ sort, bulk_density_kg_m3, granules }) };
}

const SORTS: Record<string, string> = {
  fertilizer: "Fertilizer",
  pre_emergent: "Pre-emergent",
  post_emergent: "Post-emergent",
  lime: "Lime",
  seed: "Seed",
  other: "Other",
};

export const PRODUCT_SORTS = Object.entries(SORTS).map(([value, label]) => ({ value, label }));

/** "Fertilizer" and "23-0-9": the sort, and the analysis where the label states one. */
export function sortAndAnalysis(product: Product): [sort: string, analysis: string] {
  const { n_percent, p2o5_percent, k2o_percent } = product;
  const numbers = [n_percent, p2o5_percent, k2o_percent];
  const stated = numbers.some((one) => one !== undefined);
  return [SORTS[product.sort] ?? "Other", stated ? numbers.map((one) => one ?? 0).join("-") : ""];
}

/** The same in one: "Fertilizer 23-0-9". */
export function saySort(product: Product): string {
  return sortAndAnalysis(product).filter(Boolean).join(" ");
}

/** A setting as it stands on a dial: 6, 6.5; whole numbers carry no decimals. */
export function writeDial(setting: number, step: number): string {
  return dial(setting, Number.isInteger(setting) ? 1 : step).text;
}
