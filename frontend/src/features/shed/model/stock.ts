/** Counts of what is in the shed, as entries of the log. */
import { createWriting, type WritingParts } from "../../../records/log/writing";

export function createStock(parts: WritingParts) {
  const { add } = createWriting(parts);
  return {
    count: (product_id: string, left_kg: number, left_typed: object, at?: string) =>
      add({ kind: "stock_count", facts: { product_id, left_kg, left_typed }, at }),
  };
}
