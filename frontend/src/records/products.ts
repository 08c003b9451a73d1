/** Products and spreaders as screens and models read them from their records. */

import { dial } from "../format";
import type { Args } from "../platform/engine/types";
import type { Row } from "../platform/store/types";
import type { DialScale } from "../ui/drawing/dial-shape";
import { given } from "./entries";
import { groupOf } from "./groups";
import { fieldsOf } from "./kinds";
import type {
  Groups,
  ProductAnalysis,
  ProductCaution,
  ProductGranules,
  ProductLabel,
  ProductName,
  ProductPrice,
  SpreaderHopper,
  SpreaderName,
  SpreaderWalking,
} from "./kinds.gen";

/** A product: its record's groups together, as the contract has them, and what the list shows besides. */
export interface Product
  extends ProductName,
    ProductLabel,
    ProductAnalysis,
    ProductCaution,
    ProductPrice,
    ProductGranules {
  id: string;
  pending: boolean;
  row: Row;
}

const MEASURES = ["top_length_m", "top_width_m", "bottom_length_m", "bottom_width_m", "height_m"] as const;

export type Hopper = Required<Pick<SpreaderHopper, (typeof MEASURES)[number]>>;

export interface Spreader extends SpreaderName, Partial<SpreaderWalking>, Pick<SpreaderHopper, "holds_kg"> {
  id: string;
  dial: DialScale;
  /** All five outline measures, or nothing. */
  hopper?: Hopper;
  pending: boolean;
  row: Row;
}

type Kinds = Pick<Groups, "product" | "spreader">;

/** The fields that a group is read for here; what a later build keeps beside them is not laid over other groups'. */
function facts<K extends keyof Kinds, G extends keyof Kinds[K] & string>(kind: K, row: Row, name: G) {
  const known = fieldsOf(kind, name);
  const all = Object.entries(groupOf(kind, row, name)).filter(([field]) => field in known);
  return Object.fromEntries(all) as Partial<Groups[K][G]>;
}

export function productOf(row: Row): Product {
  const { name, sort } = groupOf("product", row, "name");
  const { net_kg, ...label } = facts("product", row, "label");
  return {
    ...label,
    ...facts("product", row, "analysis"),
    ...facts("product", row, "caution"),
    ...facts("product", row, "price"),
    ...facts("product", row, "granules"),
    id: row.id,
    name: name ?? "Unnamed product",
    sort: sort ?? "other",
    net_kg: Number(net_kg),
    pending: row.pending,
    row,
  };
}

function hopperOf(row: Row): Hopper | undefined {
  const value = groupOf("spreader", row, "hopper");
  if (!MEASURES.every((name) => typeof value[name] === "number")) return undefined;
  return Object.fromEntries(MEASURES.map((name) => [name, value[name]])) as Hopper;
}

export function spreaderOf(row: Row): Spreader {
  const { name, sort } = groupOf("spreader", row, "name");
  const { lowest, highest, step } = groupOf("spreader", row, "dial");
  const { holds_kg } = groupOf("spreader", row, "hopper");
  const hopper = hopperOf(row);
  return {
    ...facts("spreader", row, "walking"),
    ...(holds_kg === undefined ? {} : { holds_kg }),
    ...(hopper ? { hopper } : {}),
    id: row.id,
    name: name ?? "Unnamed spreader",
    sort: sort === "drop" ? "drop" : "rotary",
    // The contract needs all three; a record without them is named as sick, and read as it is.
    dial: { lowest, highest, step } as DialScale,
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

const SORTS: Record<Product["sort"], string> = {
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
  return [SORTS[product.sort], stated ? numbers.map((one) => one ?? 0).join("-") : ""];
}

/** The same in one: "Fertilizer 23-0-9". */
export function saySort(product: Product): string {
  return sortAndAnalysis(product).filter(Boolean).join(" ");
}

/** A setting as it stands on a dial: 6, 6.5; whole numbers carry no decimals. */
export function writeDial(setting: number, step: number): string {
  return dial(setting, Number.isInteger(setting) ? 1 : step).text;
}
