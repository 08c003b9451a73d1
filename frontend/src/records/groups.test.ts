import { describe, expect, it } from "vitest";
import { fakeRow, groups } from "./fake-book";
import { groupOf } from "./groups";
import type { Groups } from "./kinds.gen";
import { type Product, productOf, type Spreader } from "./products";

type FieldsOf<K extends keyof Groups, G extends keyof Groups[K]> = G extends unknown
  ? keyof Groups[K][G]
  : never;
/** Fields of the contract that a type does not have; nothing fits it where none is missing. */
type Missing<K extends keyof Groups, G extends keyof Groups[K], T> = Exclude<FieldsOf<K, G>, keyof T>;

/** True where nothing is missing, and no other value fits. */
type Whole<M> = [M] extends [never] ? true : never;

describe("a group of a record", () => {
  const row = fakeRow({
    t: "product",
    id: "p",
    groups: groups({
      name: { name: "Slow", sort: "lime" },
      label: { net_kg: 20 },
      caution: { interval_days: 42 },
    }),
  });

  it("is read as the contract has it, and empty where it was never written", () => {
    expect(groupOf("product", row, "label").net_kg).toBe(20);
    expect(groupOf("product", row, "price")).toEqual({});
    expect(groupOf("zone", undefined, "cut").cut_height_mm).toBeUndefined();
    // @ts-expect-error: no such field
    expect(groupOf("product", row, "label").net_lb).toBeUndefined();
    // @ts-expect-error: no such group
    expect(groupOf("product", row, "cut")).toEqual({});
  });

  it("brings every field of the contract to products and spreaders by itself", () => {
    expect(productOf(row)).toMatchObject({ name: "Slow", sort: "lime", net_kg: 20, interval_days: 42 });
    const product: Whole<Missing<"product", Exclude<keyof Groups["product"], "deleted">, Product>> = true;
    const spreader: Whole<Missing<"spreader", "name" | "walking", Spreader>> = true;
    expect([product, spreader]).toEqual([true, true]);
  });
});
