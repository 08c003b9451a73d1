/** The phone reads what people write as the server does: fixtures/units_vectors.json. */

import { describe, expect, test } from "vitest";
import vectors from "../../../fixtures/units_vectors.json";
import { amountIn, readBare, readNumber, showTyped } from "./index";

interface NumberRow {
  text: string;
  comma?: boolean;
}

describe("numbers as written", () => {
  test.each(vectors.numbers as (NumberRow & { value: number })[])("reads $text", ({ text, comma, value }) => {
    expect(readNumber(text, comma)).toEqual({ ok: true, value });
  });

  test.each(vectors.not_numbers as (NumberRow & { code: string })[])(
    "refuses $text",
    ({ text, comma, code }) => {
      const read = readNumber(text, comma);
      expect(read).toMatchObject({ ok: false, code });
      expect(read.ok ? "" : read.message).toContain("Enter");
    },
  );
});

describe("amounts in a unit", () => {
  test.each(vectors.amounts)("$amount $unit becomes SI and is kept as typed", ({ amount, unit, si }) => {
    const read = readBare(amount, unit);
    if (!read.ok) throw new Error(read.message);
    expect(Math.abs(read.si / si - 1)).toBeLessThan(1e-14);
    expect(read.typed).toEqual({ amount, unit });
  });

  test.each(vectors.amounts)("$amount $unit comes back from SI", ({ amount, unit, si }) => {
    const again = readBare(amountIn(si, unit), unit);
    const first = readBare(amount, unit);
    if (!again.ok || !first.ok) throw new Error("not read");
    expect(Math.abs(again.si / first.si - 1)).toBeLessThan(1e-5);
  });
});

describe("amounts as kept", () => {
  test("an unknown unit is refused, not guessed", () => {
    expect(readBare("5", "stone")).toMatchObject({ ok: false, code: "unit" });
  });

  test("what was typed is shown as typed", () => {
    expect(showTyped({ amount: "48", unit: "lb" })).toBe("48 lb");
    expect(showTyped({ amount: "1 1/2", unit: "height_in" })).toBe("1 1/2 in");
    expect(showTyped({ amount: "2 lbs 4 oz", unit: "lb" })).toBe("2 lbs 4 oz");
    expect(showTyped({ amount: "7", unit: "from a later version" })).toBe("7");
  });
});
