// @vitest-environment node
import { describe, expect, it, vi } from "vitest";
import { newId } from "../store/core/uuid7";
import { fakeHousehold, nameOf, outboxOf, zone } from "./fake/household";
import { type Fault, json } from "./fake/server";

const household = fakeHousehold();
const state = async () =>
  (await household.book.db.meta.get("sync")) as { state: string; failures: number } | undefined;

describe("one round trip", () => {
  it("brings an entry from one phone to the other, and both equal the server by digest (P4)", async () => {
    const id = newId();
    await household.book.save([zone(id, "Verge")]);
    await household.sync.start();
    const other = household.phone();
    other.book.rows("zone");
    await other.sync.start();
    expect(nameOf(other.book, id)).toBe("Verge");
    expect(await outboxOf(household.book)).toEqual([]);
    expect(other.book.row("zone", id)?.pending).toBe(false);
    expect(await state()).toMatchObject({ state: "ok", failures: 0 });
  });

  it("fetches page after page until nothing is left", async () => {
    household.server.page = 3;
    for (let at = 0; at < 10; at++) household.server.write("zone", newId());
    await household.sync.start();
    expect(await household.book.db.base.count()).toBe(10);
    expect(household.server.pushes.map((push) => push.cursor)).toEqual([0, 3, 6, 9]);
  });

  it("sends more than one push may hold in several, in order (P3)", async () => {
    for (let at = 0; at < 230; at++) await household.book.save([zone(newId(), `z${at}`)]);
    await household.sync.start();
    expect(household.server.pushes.map((push) => push.ops.length).slice(0, 2)).toEqual([200, 30]);
    expect(household.server.records.size).toBe(230);
  }, 60_000);
});

describe("S9 only a verdict of the server changes the outbox", () => {
  const html = () =>
    new Response("<html>Sign in to the hotel's network</html>", { headers: { "Content-Type": "text/html" } });
  const later: [string, Fault][] = [
    ["401 for ten days (F17)", () => json(401, { code: "signed_out", message: "Sign in to go on." })],
    ["403", () => json(403, {})],
    ["404", () => json(404, { code: "not_found", message: "There is nothing here." })],
    ["409", () => json(409, {})],
    ["426 (F44)", () => json(426, { code: "update_needed", message: "Open the app again." })],
    ["429 (F20)", () => json(429, {}, { "Retry-After": "120" })],
    ["500 (F15)", () => new Response("", { status: 500 })],
    ["503 (F20)", () => json(503, { code: "busy", message: "The server is busy." })],
    ["a redirect (F19)", () => new Response(null, { status: 302, headers: { Location: "http://portal/" } })],
    ["a captive portal's page with 200 (F19)", html],
    [
      "a body cut half way (F5)",
      () => new Response('{"results": [', { headers: { "Content-Type": "application/json" } }),
    ],
    ["JSON of somebody else", () => json(200, { ok: true })],
    [
      "another protocol",
      (_reached, { ops }) => {
        const results = ops.map(({ op }) => ({ op, s: "applied", seq: 1 }));
        return json(200, {
          proto: 2,
          results,
          changes: [],
          cursor: 9,
          head: 9,
          has_more: false,
          acked_dseq: 9,
        });
      },
    ],
    ["no answer at all", () => Response.error()],
  ];

  it.each(later)("F5 F15 F17 F19 F20 F44 %s means later", async (_name, answer) => {
    const { op } = await household.book.save([zone(newId(), "Verge")]);
    household.server.always = answer;
    await household.sync.start();
    for (let at = 0; at < 10; at++) await household.world.runNext();
    expect(await outboxOf(household.book)).toEqual([op]);
    household.server.always = undefined;
    await household.world.runNext();
    expect(await outboxOf(household.book)).toEqual([]);
    expect(household.server.records.size).toBe(1);
    expect(await state()).toMatchObject({ state: "ok", failures: 0 });
  });

  it("F4 an answer lost after the server stored the op: it applies once (F4, P2)", async () => {
    const id = newId();
    await household.book.save([zone(id, "Verge")]);
    household.server.faults.push((reached) => {
      reached();
      throw new TypeError("connection reset");
    });
    await household.sync.start();
    expect(await outboxOf(household.book)).toHaveLength(1);
    await household.world.runNext();
    expect(await outboxOf(household.book)).toEqual([]);
    expect(household.server.records.get(`zone:${id}`)?.seq).toBe(1);
  });

  it("F4 a refusal whose first answer was lost: it is shown when the op comes again (F4, P6)", async () => {
    const { op } = await household.book.save([zone(newId(), "Verge")]);
    household.server.refuses.set(op, { code: "invalid", message: "Zone name is too long." });
    household.server.faults.push((reached) => {
      reached();
      throw new TypeError("connection reset");
    });
    await household.sync.start();
    await household.world.runNext();
    const [aside] = await household.book.db.parked.toArray();
    expect(aside).toMatchObject({ op, where: "parked", why: { message: "Zone name is too long." } });
    expect(await outboxOf(household.book)).toEqual([]);
  });

  it("tells the person what stands in the way", async () => {
    household.server.always = () => json(401, { code: "signed_out", message: "Sign in to go on." });
    await household.book.save([zone(newId(), "Verge")]);
    await household.sync.start();
    await vi.waitFor(() =>
      expect(household.book.standing.value).toMatchObject({ state: "sign_in", waiting: 1 }),
    );
    household.server.always = () => json(503, { code: "busy", message: "The server is busy." });
    await household.world.runNext();
    await vi.waitFor(() =>
      expect(household.book.standing.value).toMatchObject({
        state: "trouble",
        trouble: "The server is busy.",
      }),
    );
  });
});

describe("a push the server will not take", () => {
  const toxic = (op: string) => (reached: () => Response, body: { ops: { op: string }[] }) =>
    body.ops.some((one) => one.op === op)
      ? json(413, { code: "too_large", message: "Too much." })
      : reached();

  it("F14 F16 F56 is halved until the one op is found; it is set aside, the others flow (S9, P8, F14, F16, F56)", async () => {
    const ops: string[] = [];
    for (let at = 0; at < 9; at++) ops.push((await household.book.save([zone(newId(), `z${at}`)])).op);
    household.server.always = toxic(ops[4] ?? "");
    await household.sync.start();
    expect(await outboxOf(household.book)).toEqual([]);
    expect(household.server.records.size).toBe(8);
    const [aside] = await household.book.db.parked.toArray();
    expect(aside).toMatchObject({
      op: ops[4],
      where: "unsendable",
      why: { code: "too_large", message: "Too much." },
    });
    expect(aside?.m[0]?.set).toEqual({ name: { name: "z4" } });
    await vi.waitFor(() => expect(household.book.standing.value.parked).toHaveLength(1));
  });

  it("sets nothing aside when the server refuses everything", async () => {
    for (let at = 0; at < 3; at++) await household.book.save([zone(newId(), `z${at}`)]);
    household.server.always = () => json(400, { code: "malformed", message: "No." });
    await household.sync.start();
    for (let at = 0; at < 5; at++) await household.world.runNext();
    expect(await outboxOf(household.book)).toHaveLength(3);
    expect(await household.book.db.parked.count()).toBe(0);
  });

  it("F14 is parked by the server with its reason, shown, and can be sent again (P6, F14)", async () => {
    const id = newId();
    const { op } = await household.book.save([zone(id, "Verge")]);
    household.server.refuses.set(op, { code: "invalid", message: "Zone name is too long." });
    await household.sync.start();
    await vi.waitFor(() => expect(household.book.standing.value.parked).toHaveLength(1));
    expect(household.book.standing.value.parked[0]).toMatchObject({
      where: "parked",
      why: { message: "Zone name is too long." },
    });
    expect(await outboxOf(household.book)).toEqual([]);
    await household.book.parkedAgain(op);
    await household.sync.kick();
    expect(household.server.records.get(`zone:${id}`)?.groups["name"]?.value).toEqual({ name: "Verge" });
    expect(await household.book.db.parked.count()).toBe(0);
  });
});
