import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatHlc, type Hlc, isAfter, LAST_MS, parseHlc, receive, tick, ZERO_HLC } from "./hlc";

const NODE = "0badc0de";
const moment = fc.integer({ min: 0, max: 9_999_999_999_999 });
// A phone's clock may show anything; a stamp is never past the last moment there can be.
const stamp = fc.record({
  ms: fc.integer({ min: 0, max: LAST_MS }),
  count: fc.integer({ min: 0, max: 0xffff }),
});

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

  const BAD = ["\u3000\u30009999999999999-ffff-ffffffff", "9999999999999-ffff-ffffffff", "", "soon"];

  it.each(BAD)(
    "A2: %j in the book moves no clock, so that the next op still has a stamp the server takes",
    (bad) => {
      const last = { ms: 1_800_000_000_000, count: 3 };
      expect(receive(last, bad)).toEqual(last);
      expect(parseHlc(formatHlc(tick(receive(last, bad), 5), NODE))).toEqual({
        ms: 1_800_000_000_000,
        count: 4,
      });
    },
  );

  it("A2: counters that an earlier build let a bad stamp spoil begin again at the time it is", () => {
    const spoilt = { ms: 9_999_999_999_999, count: 0xffff };
    expect(tick(spoilt, 1_800_000_000_000)).toEqual({ ms: 1_800_000_000_000, count: 0 });
    fc.assert(
      fc.property(fc.array(moment, { minLength: 1 }), (clock) => {
        const last = clock.reduce((at, now) => tick(at, now), spoilt);
        expect(parseHlc(formatHlc(last, NODE))).toEqual(last);
      }),
    );
  });

  it.each(BAD)("A2: %j comes before every stamp there is, as on the server", (bad) => {
    const good = "1700000000000-0001-0000000a";
    expect([isAfter(bad, good), isAfter(good, bad), isAfter(undefined, good)]).toEqual([false, true, false]);
    expect(isAfter("1700000000000-0002-0000000a", good)).toBe(true);
  });
});
