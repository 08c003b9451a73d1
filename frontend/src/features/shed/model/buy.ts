/** What was bought of a product, as an entry of the log. */
import { createEntryForm, type EntryParts } from "../../../forms/entry-form";
import type { Row } from "../../../platform/store/types";
import { given } from "../../../records/entries";
import { groupOf } from "../../../records/groups";
import { createWriting } from "../../../records/log/writing";
import { bought } from "../entries/bought";

/**
 * A purchase of one product, on its own page. The weight of a bag is kept with it: what a label says later changes
 * nothing of what came into the shed. Where the label says none, the weight is asked for. `bags` is how many are wanted:
 * the form then starts with them, and with the price that stands on the product's page.
 */
export function buyForm(parts: EntryParts, product: Row, bags?: number) {
  const { form: words } = bought;
  if (!words) throw new Error("a purchase has a form");
  const { net_kg, net_typed } = groupOf("product", product, "label");
  const { price } = groupOf("product", product, "price");
  const { bags: _, ...others } = words.fields;
  const weighed = { ...others, bought_kg: { label: "Weight", missing: "Enter the weight." } };
  const add = createWriting(parts).add;
  return createEntryForm(parts, {
    kind: "bought",
    words: net_kg === undefined ? { ...words, fields: weighed } : words,
    given: { product_id: product.id },
    ...(bags ? { from: () => ({ bags, ...(price === undefined ? {} : { price, price_for: "each" }) }) } : {}),
    add: (entry) => {
      const ofBags = entry.facts?.["bags"] === undefined ? {} : given({ net_kg, net_typed });
      return add({ ...entry, facts: { ...entry.facts, ...ofBags } });
    },
  });
}
