/** Counts of what is in the shed, as entries of the log. */
import { createEntryForm, type EntryParts } from "../../../forms/entry-form";
import { stockCount } from "../entries/stock-count";

/** The count of one product, on its own page. */
export function countForm(parts: EntryParts, product_id: string) {
  const { form: words } = stockCount;
  if (!words) throw new Error("a count has a form");
  return createEntryForm(parts, { kind: "stock_count", words, given: { product_id } });
}
