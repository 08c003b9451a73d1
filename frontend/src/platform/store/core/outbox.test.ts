import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hashed, hole, isHole, marked, nextBatch, renumbered, rewound, unjudged, withoutOp } from "./outbox";
import { rebuild } from "./overlay";
import { indexed, type Op } from "./records";

const LIMITS = { ops: 200, bytes: 256 * 1024 };

function op(dseq: number, more: Partial<Op> = {}): Op {
  const m = [{ t: "zone", id: "z", set: { name: { name: `n${dseq}` } }, base: { name: null } }];
  return indexed({ op: `op-${dseq}`, dseq, hlc: `h-${dseq}`, schema: 1, m, sent: false, ...more });
}

/** An outbox as it can really be: judged ops in front, then sent ones, then unsent ones. */
const outbox = fc
  .tuple(fc.nat({ max: 4 }), fc.nat({ max: 4 }), fc.nat({ max: 5 }), fc.integer({ min: 1, max: 1000 }))
  .map(([judged, sent, unsent, from]) =>
    Array.from({ length: judged + sent + unsent }, (_, at) =>
      op(from + at, { sent: at < judged + sent, ...(at < judged ? { seq: 10 + at } : {}) }),
    ),
  );

const numbers = (ops: readonly Op[]): number[] => ops.map((one) => one.dseq);

describe("S5 numbers", () => {
  it("have no gap after an op was taken back", () => {
    fc.assert(
      fc.property(outbox, fc.nat(), (ops, pick) => {
        const victim = ops[pick % Math.max(1, ops.length)];
        const left = victim && withoutOp(ops, victim.op);
        const first = ops[0]?.dseq ?? 0;
        const without = Array.from({ length: Math.max(0, ops.length - 1) }, (_, at) => first + at);
        expect(left && numbers(left)).toEqual(victim && !victim.sent ? without : undefined);
      }),
    );
  });

  it("start again at 1 in a new incarnation, in the same order, under the same ids and hashes (S8)", () => {
    fc.assert(
      fc.property(outbox, (ops) => {
        const left = ops.filter((one) => one.sent).length;
        const asMade = ops.map((one) => ({ ...one, sent: false }));
        const after = renumbered(asMade, (asMade[0]?.dseq ?? 1) - 1 + left);
        const waiting = unjudged(after);
        expect(numbers(waiting)).toEqual(waiting.map((_, at) => at + 1));
        const hashes = ops.map((one) => [one.op, one.sent ? hashed(one).hash : undefined]);
        expect(after.map((one) => [one.op, one.hash])).toEqual(hashes);
        expect(after.map((one) => one.sent)).toEqual(ops.map((one) => one.sent));
        expect(renumbered(after).map((one) => [one.op, one.hash])).toEqual(hashes);
        expect(numbers(after)).toEqual([...numbers(after)].sort((a, b) => a - b));
      }),
    );
  });
});

describe("taking an op back", () => {
  it("bases later writes on what the withdrawn one was based on", () => {
    const first = op(1, { m: [{ t: "zone", id: "z", set: { name: { name: "a" } }, base: { name: "v0" } }] });
    const second = op(2, {
      m: [{ t: "zone", id: "z", set: { name: { name: "b" } }, base: { name: "op-1" } }],
    });
    expect(withoutOp([first, second], "op-1")?.[0]?.m[0]?.base).toEqual({ name: "v0" });
  });

  it("is refused once the op may be on the server (F2)", () => {
    expect(withoutOp([marked(op(1))], "op-1")).toBeUndefined();
    expect(withoutOp([op(1), op(2)], "op-1", 1)).toBeUndefined();
    expect(withoutOp([op(1), op(2)], "op-2", 1)).toEqual([op(1)]);
  });
});

describe("a push", () => {
  it("is a run from the front within the limits, never empty while something waits (P8)", () => {
    const limits = fc.record({
      ops: fc.integer({ min: 0, max: 6 }),
      bytes: fc.integer({ min: 1, max: 900 }),
    });
    fc.assert(
      fc.property(outbox, limits, (ops, most) => {
        const batch = nextBatch(ops, most);
        const waiting = unjudged(ops);
        expect(batch).toEqual(waiting.slice(0, batch.length));
        expect(batch.length).toBeLessThanOrEqual(Math.max(1, most.ops));
        if (waiting.length > 0) expect(batch.length).toBeGreaterThan(0);
        if (batch.length > 1)
          expect(JSON.stringify(batch).length).toBeLessThanOrEqual(most.bytes + 2 + batch.length);
      }),
    );
  });

  it("carries the same hash for ever, whatever number the op gets later (S8)", () => {
    const first = marked(op(7));
    expect(marked({ ...first, dseq: 1 }).hash).toBe(first.hash);
    expect(marked(op(8)).hash).not.toBe(first.hash);
  });

  it("counts bytes, not letters", () => {
    const wide = (dseq: number) =>
      op(dseq, { m: [{ t: "zone", id: "z", set: { name: { name: "é".repeat(100) } } }] });
    const bytes = 2 * JSON.stringify(wide(1)).length + 10;
    expect(nextBatch([wide(1), wide(2)], { ops: 9, bytes })).toHaveLength(1);
  });
});

describe("need_from", () => {
  it("sends again from there what the phone still holds", () => {
    const ops = [op(3, { sent: true, seq: 9 }), op(4, { sent: true, seq: 10 }), op(5)];
    const again = rewound(ops, 4, 5) ?? [];
    expect(numbers(nextBatch(again, LIMITS))).toEqual([4, 5]);
  });

  it("asks for a new incarnation where the phone holds that number no longer", () => {
    expect(rewound([op(5)], 2, 5)).toBeUndefined();
    expect(rewound([op(5)], 9, 5)).toBeUndefined();
  });
});

describe("F56 a number that will never carry its op", () => {
  it("is filled by an empty op, so that the numbers stay without a gap", () => {
    const filled = hole(op(4), "filler");
    expect(filled.dseq).toBe(4);
    expect(isHole(filled)).toBe(true);
  });
});

describe("S15 waiting ops on top", () => {
  const record = {
    seq: 5,
    t: "zone",
    id: "z",
    groups: { name: { value: { name: "theirs" }, version: "v" } },
  };

  it("shows the phone's own last write over the server's, in the order of the numbers (P3)", () => {
    const row = rebuild("zone", "z", record, [op(1), op(2)]);
    expect(row?.groups["name"]).toEqual({ value: { name: "n2" }, version: "op-2", hlc: "h-2" });
    expect(row?.pending).toBe(true);
  });

  it("leaves other groups, and groups and fields it does not know, as they came (F12, F28)", () => {
    const later = { ...record, groups: { ...record.groups, mood: { value: { of: "day" }, version: "m" } } };
    expect(rebuild("zone", "z", later, [op(1)])?.groups["mood"]).toEqual({
      value: { of: "day" },
      version: "m",
    });
  });

  it("never changes the body of an entry once there", () => {
    const entry = { seq: 1, t: "entry", id: "e", body: { kind: "mow" }, groups: {} };
    const again = op(1, { m: [{ t: "entry", id: "e", body: { kind: "spread" } }] });
    expect(rebuild("entry", "e", entry, [again])?.body).toEqual({ kind: "mow" });
  });

  it("is nothing where neither the server nor the outbox has the record", () => {
    expect(rebuild("zone", "z", undefined, [])).toBeUndefined();
  });
});
