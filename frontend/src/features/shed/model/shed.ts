/** The shed: products with what is left of them, spreaders, and what a label comes to on this ground. */

import { computed } from "@preact/signals";
import type { Typed } from "../../../format";
import { parse } from "../../../forms/amount";
import {
  createRecordForm,
  type Groups,
  type RecordParts,
  type RecordShape,
} from "../../../forms/record-form";
import { recordRemoval } from "../../../forms/recorded";
import type { Engine } from "../../../platform/engine/ask";
import type { Args } from "../../../platform/engine/types";
import type { Row } from "../../../platform/store/types";
import { given } from "../../../records/entries";
import type { ProductAnalysis, ProductLabel, ProductPrice } from "../../../records/kinds.gen";
import { productOf, spreaderOf } from "../../../records/products";
import { createTotals, type TotalsSignal } from "../../../records/totals";
import {
  blankProduct,
  blankSpreader,
  type ProductForm,
  productFormOf,
  productGroups,
  type SpreaderForm,
  spreaderFormOf,
  spreaderGroups,
} from "./shed-forms";

export interface ShedParts extends RecordParts {
  engine: Engine;
  /** The local day; followed where read inside a computed. */
  day: () => string;
  /** What the log adds up to, shared by the places; its own where none is given. */
  totals?: TotalsSignal;
}

const PRODUCT: RecordShape<ProductForm> = {
  t: "product",
  blank: blankProduct,
  formOf: productFormOf,
  groupsOf: productGroups,
  needed: ["name", "label"],
};

const SPREADER: RecordShape<SpreaderForm> = {
  t: "spreader",
  blank: blankSpreader,
  formOf: spreaderFormOf,
  groupsOf: spreaderGroups,
  needed: ["name", "dial"],
};

export interface ZoneArea {
  id: string;
  name: string;
  area_m2: number;
}

function zoneArea(row: Row): ZoneArea {
  const name = String(row.groups["name"]?.value?.name ?? "Unnamed zone");
  const { area_m2 = 0 } = row.groups["ground"]?.value ?? {};
  return { id: row.id, name, area_m2 };
}

const byName = (a: { name: string; id: string }, b: { name: string; id: string }) =>
  a.name.localeCompare(b.name) || (a.id < b.id ? -1 : 1);

export function createShed({
  store,
  engine,
  day,
  system,
  ready,
  check,
  totals = createTotals({ store, engine, day }),
}: ShedParts) {
  const parts = { store, system, check, ready };
  const zones = computed(() =>
    store
      .rows("zone")
      .value.map(zoneArea)
      .filter((zone) => zone.area_m2 > 0)
      .sort(byName),
  );
  return {
    products: computed(() => store.rows("product").value.map(productOf).sort(byName)),
    spreaders: computed(() => store.rows("spreader").value.map(spreaderOf).sort(byName)),
    loaded: computed(() => store.loaded("product").value && store.loaded("spreader").value),
    zones,
    totals,
    /** Kilograms left by the last count and what was put down since; null where never counted, undefined while not known. */
    leftKg: (id: string) => {
      const known = totals.value?.value;
      return known && (known.products[id]?.left_kg ?? null);
    },
    row: (t: "product" | "spreader", id: string) => store.row(t, id),
    productEditor: (id: string | null) => createRecordForm(parts, PRODUCT, id),
    spreaderEditor: (id: string | null) => createRecordForm(parts, SPREADER, id),
    /** Takes a record out of the shed; entries that name it stay. */
    takeOut: (t: "product" | "spreader", id: string) => recordRemoval(store, t, id),
  };
}

/** The figures of a label, as far as they are filled in. */
function labelOf(groups: Groups): Partial<ProductLabel & ProductAnalysis & ProductPrice> {
  return { ...groups["label"], ...groups["analysis"], ...groups["price"] };
}

/** What the engine is asked about a label as far as it is filled in; null where something is missing. */
export function labelCalls(groups: Groups): {
  rate: Args<"label.rate"> | null;
  price: Args<"label.nitrogen_price"> | null;
} {
  const { net_kg, coverage_m2, n_percent, price } = labelOf(groups);
  return {
    rate: net_kg && coverage_m2 ? { net_kg, coverage_m2 } : null,
    price: net_kg && n_percent && price !== undefined ? { price, net_kg, n_percent } : null,
  };
}

export function nutrientCall(groups: Groups, rate_kg_m2: number | undefined): Args<"label.nutrients"> | null {
  const { n_percent, p2o5_percent, k2o_percent, slow_n_share } = labelOf(groups);
  if (!rate_kg_m2 || n_percent === undefined) return null;
  return { rate_kg_m2, n_percent, ...given({ p2o5_percent, k2o_percent, slow_n_share }) };
}

/** The density of a weighed sample; null until both are read. What cannot be read is said by field. */
export function densityCall(
  volume: Typed,
  weight: Typed,
): { args: Args<"hopper.density"> | null; errors: { volume?: string; weight?: string } } {
  const read = (typed: Typed) => (typed.amount.trim() === "" ? undefined : parse(typed.amount, typed.unit));
  const [filled, weighed] = [read(volume), read(weight)];
  const errors = {
    ...(filled && !filled.ok ? { volume: filled.message } : {}),
    ...(weighed && !weighed.ok ? { weight: weighed.message } : {}),
  };
  const args = filled?.ok && weighed?.ok ? { sample_kg: weighed.si, sample_m3: filled.si } : null;
  return { args, errors };
}

export function neededCall(
  groups: Groups,
  rate_kg_m2: number | undefined,
  area_m2: number,
): Args<"label.needed"> | null {
  const { net_kg, price } = labelOf(groups);
  if (!rate_kg_m2 || !net_kg) return null;
  return { area_m2, rate_kg_m2, net_kg, ...given({ price }) };
}

export type ShedModel = ReturnType<typeof createShed>;
export type ProductEditor = ReturnType<ShedModel["productEditor"]>;
export type SpreaderEditor = ReturnType<ShedModel["spreaderEditor"]>;
