import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatHlc, type Hlc, parseHlc, receive, tick, ZERO_HLC } from "./hlc";

const NODE = "0badc0de";
const moment = fc.integer({ min: 0, max: 9_999_999_999_999 });
const stamp = fc.record({ ms: moment, count: fc.integer({ min: 0, max: 0xffff }) });

const isBefore = (a: Hlc, b: Hlc): boolean => a.ms < b.ms || (a.ms === b.ms && a.count < b.count);

describe("S6 hybrid clock", () => {
  it("never steps back, whatever the phone's clock does (F25, F26, F27)", () => {
    fc.assert(
      fc.property(fc.array(moment, { minLength: 2 }), (clock) => {
        let last = ZERO_HLC;
        for (const now of clock) {
          const next = tick(last, now);
          expect(isBefore(last, next)).toBe(true);
          last = next;
        }
      }),
    );
  });

  it("sorts as text as it compares", () => {
    fc.assert(
      fc.property(stamp, stamp, (a, b) => {
        expect(formatHlc(a, NODE) < formatHlc(b, NODE)).toBe(isBefore(a, b));
      }),
    );
  });

  it("stamps a write made after seeing another's later than that one, with the clock 3 years back (F25)", () => {
    const seen: Hlc = { ms: 1_800_000_000_000, count: 3 };
    const mine = tick(receive(ZERO_HLC, formatHlc(seen, "ffffffff")), 1_705_000_000_000);
    expect(isBefore(seen, mine)).toBe(true);
  });

  it("reads back what it wrote, and ignores what is no stamp", () => {
    fc.assert(
      fc.property(stamp, (hlc) => {
        expect(parseHlc(formatHlc(hlc, NODE))).toEqual(hlc);
      }),
    );
    expect(receive({ ms: 5, count: 1 }, "yesterday")).toEqual({ ms: 5, count: 1 });
  });

  it("goes on to the next millisecond when the counter is full", () => {
    expect(tick({ ms: 7, count: 0xffff }, 7)).toEqual({ ms: 8, count: 0 });
  });
});
