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
  it("hashes as printed in draft-eastlake-fnv-16, appendix C (32-bit FNV-1a)", () => {
    const hash = (text: string) => fnv1a(new TextEncoder().encode(text), FNV_OFFSET);
    expect(hash("")).toBe(0x811c9dc5);
    expect(hash("a")).toBe(0xe40c292c);
    expect(hash("foobar")).toBe(0xbf9cf968);
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
