import vectors from "@fixtures/sync/digest.json";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addSums, digestText, fnv1a, NO_SUMS, recordSums, subtractSums, sumAll } from "./digest";

const FNV_OFFSET = 2166136261;
const record = fc.record({
  t: fc.constantFrom("zone", "entry", "product"),
  id: fc.uuid(),
  seq: fc.integer({ min: 1, max: 1e9 }),
});

describe("P4 digest", () => {
  it.each(vectors.fnv1a_32)(
    "hashes $text as published (32-bit FNV-1a, draft-eastlake-fnv, appendix C)",
    (vector) => {
      const hash = fnv1a(new TextEncoder().encode(vector.text), FNV_OFFSET);
      expect(hash.toString(16).padStart(8, "0")).toBe(vector.hex);
    },
  );

  it.each(vectors.cases)("of a book with $name is the one the server computes", ({ rows, digest }) => {
    const records = rows as { t: string; id: string; seq: number }[];
    expect(digestText(sumAll(records))).toBe(digest);
  });

  it("does not depend on the order of the records", () => {
    fc.assert(
      fc.property(fc.array(record), (records) => {
        expect(sumAll([...records].reverse())).toEqual(sumAll(records));
      }),
    );
  });

  it("kept up to date record by record equals one computed afresh", () => {
    fc.assert(
      fc.property(record, record, fc.array(record), (before, after, others) => {
        const all = sumAll([before, ...others]);
        const moved = addSums(
          subtractSums(all, recordSums(before.t, before.id, before.seq)),
          recordSums(after.t, after.id, after.seq),
        );
        expect(moved).toEqual(sumAll([after, ...others]));
      }),
    );
  });

  it("notices one record that is missing (F52)", () => {
    fc.assert(
      fc.property(fc.array(record, { minLength: 1 }), (records) => {
        expect(sumAll(records.slice(1))).not.toEqual(sumAll(records));
      }),
    );
  });

  it("is written as 16 hex digits", () => {
    expect(digestText(NO_SUMS)).toBe("0000000000000000");
    expect(digestText([1, 0xdeadbeef])).toBe("00000001deadbeef");
  });
});
