/** The shopping list: what the steps still to be done take, out of the shed first; ticked off by a purchase in the log. */
import { computed, type ReadonlySignal } from "@preact/signals";
import type { Recorded } from "../../../forms/recorded";
import { ask, type Engine } from "../../../platform/engine/ask";
import type { Args, Value } from "../../../platform/engine/types";
import type { Row } from "../../../platform/store/types";
import { given } from "../../../records/entries";
import { groupOf } from "../../../records/groups";
import { createWriting, type WritingParts } from "../../../records/log/writing";
import type { TotalsSignal } from "../../../records/totals";

export type Listed = Value<"season.shopping">["products"][number];
type Asked = Args<"season.shopping">;

interface Parts extends WritingParts {
  engine: Engine;
  totals: TotalsSignal;
  day: () => string;
}

/** Planned, with a product, and not over: what was missed is not bought for. */
function stepOf(row: Row, today: string): Asked["steps"] {
  const { from_on, to_on } = groupOf("step", row, "window");
  const { product_id, rate_kg_m2 } = groupOf("step", row, "product");
  const planned = (groupOf("step", row, "state").state ?? "planned") === "planned";
  if (!planned || !product_id || !from_on || !to_on || to_on < today) return [];
  const zones = groupOf("step", row, "ground").zone_ids;
  return [{ id: row.id, date: from_on, product: product_id, ...given({ zones, rate_kg_m2 }) }];
}

export function createShopping({ store, engine, totals, day, now, memberId }: Parts) {
  const [steps, zones, products] = [store.rows("step"), store.rows("zone"), store.rows("product")];
  const leftKg = (id: string) => totals.value?.value?.products[id]?.left_kg ?? undefined;
  const wanted = computed(() => steps.value.flatMap((row) => stepOf(row, day())));
  const { add } = createWriting({ store, now, memberId });

  const args = (): Asked | null => {
    // Without the log all of the shed would be bought once more.
    if (!totals.value?.value) return null;
    return {
      steps: wanted.value,
      zones: zones.value.map((row) => ({
        id: row.id,
        ...given({ area_m2: groupOf("zone", row, "ground").area_m2 }),
      })),
      products: products.value.map((row) => ({
        id: row.id,
        ...given({
          net_kg: groupOf("product", row, "label").net_kg,
          price: groupOf("product", row, "price").price,
          n_percent: groupOf("product", row, "analysis").n_percent,
          left_kg: leftKg(row.id),
        }),
      })),
    };
  };
  const after = ["step", "zone", "product"].map((t) => store.loaded(t as "step"));

  return {
    list: ask(engine, "season.shopping", args, { after }),
    /** Whether there is anything to make a list from. */
    wanted: computed(() => wanted.value.length > 0) as ReadonlySignal<boolean>,
    loaded: computed(() => after.every((one) => one.value)),
    counted: (id: string): boolean => leftKg(id) !== undefined,
    product: (id: string): Row | undefined => products.value.find((row) => row.id === id),
    /** At one tap: as many bags as are missing, at the price on the label's page. */
    bought({ id, bags }: Pick<Listed, "id" | "bags">): Promise<Recorded> {
      const row = store.row("product", id).peek();
      const { net_kg, net_typed } = groupOf("product", row, "label");
      const { price } = groupOf("product", row, "price");
      const paid = price === undefined ? {} : { price, price_for: "each" };
      return add({
        kind: "bought",
        facts: { product_id: id, bags, ...given({ net_kg, net_typed }), ...paid },
      });
    },
  };
}

export type Shopping = ReturnType<typeof createShopping>;
