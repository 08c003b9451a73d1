// @vitest-environment node
import { describe, expect, it, vi } from "vitest";
import { PUSH_LIMITS } from "../store/core/outbox";
import { newId } from "../store/core/uuid7";
import { saveOp } from "../store/writing";
import { copyOf, fakeHousehold, outboxOf, putBack, shownIn, zone } from "./fake/household";

const household = fakeHousehold();
const MANY = 2 * PUSH_LIMITS.ops + 50;

async function manyWait(): Promise<void> {
  const { db } = household.book;
  await db.transaction("rw", db.live, db.outbox, db.meta, async () => {
    for (let number = 0; number < MANY; number++)
      await saveOp(db, [zone(newId(), `zone ${number}`)], household.world.now());
  });
}

/** No answer is stored before that; what is sent instead only once an answer is stored then never is. */
function storesOnlyAfter(moment: Promise<void>) {
  const { db } = household.book;
  const real = db.transaction.bind(db) as (...given: unknown[]) => Promise<unknown>;
  const held = async (...given: unknown[]) => {
    if (Array.isArray(given[1])) await moment;
    return real(...given);
  };
  return vi.spyOn(db, "transaction").mockImplementation(held as unknown as typeof db.transaction);
}

const numbers = () => household.server.pushes.map(({ ops }) => [ops[0]?.dseq, ops.at(-1)?.dseq]);

describe("S17 more waits than one push takes", () => {
  it("sends the next push while the answer before it is stored, each op once", async () => {
    await manyWait();
    const askedTwice = new Promise<void>((resolve) => {
      household.server.always = (reached) => {
        if (household.server.pushes.length === 2) resolve();
        return reached();
      };
    });
    // Packing a push takes its own time, so nothing but this wait says which of the two comes first.
    const storing = storesOnlyAfter(askedTwice);
    await household.sync.start();
    storing.mockRestore();
    const last = PUSH_LIMITS.ops;
    expect(numbers().slice(0, 3)).toEqual([
      [1, last],
      [last + 1, 2 * last],
      [2 * last + 1, MANY],
    ]);
    expect(household.server.ops.size).toBe(MANY);
    expect(await outboxOf(household.book)).toEqual([]);
    expect(await shownIn(household.book)).toEqual([...household.server.records.keys()].sort());
  });

  it("keeps everything in the outbox where an answer cannot be stored, and the one after it neither", async () => {
    await manyWait();
    const full = vi
      .spyOn(household.book.db.base, "bulkPut")
      .mockRejectedValueOnce(new DOMException("", "QuotaExceededError"));
    await household.sync.start();
    full.mockRestore();
    expect(await household.book.db.outbox.count()).toBe(MANY);
    while ((await household.book.db.outbox.count()) > 0) await household.world.runNext();
    expect(household.server.ops.size).toBe(MANY);
    expect(await shownIn(household.book)).toEqual([...household.server.records.keys()].sort());
  });

  it("loses nothing where the phone is killed with one answer unstored and the next push on its way (F2, F9)", async () => {
    await manyWait();
    const before = await copyOf(household.book);
    const name = newId();
    await household.sync.start();
    household.sync.stop();
    // What a phone killed before the first answer was stored still holds.
    await putBack(name, before);
    const again = household.phone(name);
    await again.sync.start();
    expect(household.server.ops.size).toBe(MANY);
    expect(await outboxOf(again.book)).toEqual([]);
  });

  it("sends nothing ahead where the server asks for something else", async () => {
    await manyWait();
    household.server.faults.push(async (reached) => {
      const answer = (await reached().json()) as object;
      return new Response(JSON.stringify({ ...answer, need_from: 1 }), {
        headers: { "Content-Type": "application/json" },
      });
    });
    await household.sync.start();
    expect(numbers()[1]?.[0]).toBe(1);
    expect(household.server.ops.size).toBe(MANY);
    expect(await outboxOf(household.book)).toEqual([]);
  });
});
