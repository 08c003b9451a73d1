// @vitest-environment node
/** Phones, a server and a bad network, at random: whatever happened, at quiet nothing is lost and all agree (P1–P4). */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Book, openBook } from "../store/book";
import { newId } from "../store/core/uuid7";
import { FakeServer, type Fault, json } from "./fake/server";
import { FakeWorld } from "./fake/world";
import { request } from "./http";
import { createSync, type Sync } from "./index";

const ZONES = ["0190a000-0000-7000-8000-00000000000a", "0190a000-0000-7000-8000-00000000000b"];

const FAULTS: Record<string, Fault> = {
  none: (reached) => reached(),
  lost_question: () => {
    throw new TypeError("no network");
  },
  lost_answer: (reached) => {
    reached();
    throw new TypeError("connection reset");
  },
  half_answer: async (reached) => {
    const whole = await reached().text();
    return new Response(whole.slice(0, whole.length / 2), {
      headers: { "Content-Type": "application/json" },
    });
  },
  portal: () => new Response("<html></html>", { headers: { "Content-Type": "text/html" } }),
  busy: () => json(503, {}),
  signed_out: () => json(401, {}),
  too_large: (reached, body) => (body.ops.length > 2 ? json(413, {}) : reached()),
  forgotten: (reached, body) => {
    reached();
    return json(200, {
      results: [],
      changes: [],
      cursor: body.cursor,
      head: 1e9,
      has_more: false,
      acked_dseq: 0,
      need_from: 1,
    });
  },
};

type Step =
  | { do: "save"; phone: number; zone: number; group: string }
  | { do: "enter" | "withdraw" | "sync" | "restart"; phone: number }
  | { do: "fault"; name: string };

const phoneNo = fc.integer({ min: 0, max: 2 });
const step: fc.Arbitrary<Step> = fc.oneof(
  fc.record({
    do: fc.constant("save" as const),
    phone: phoneNo,
    zone: fc.nat({ max: 1 }),
    group: fc.constantFrom("name", "grass"),
  }),
  fc.record({
    do: fc.constantFrom("enter" as const, "withdraw" as const, "sync" as const, "restart" as const),
    phone: phoneNo,
  }),
  fc.record({ do: fc.constant("fault" as const), name: fc.constantFrom(...Object.keys(FAULTS)) }),
);

class Run {
  readonly server = new FakeServer();
  readonly world = new FakeWorld();
  readonly names = [newId(), newId(), newId()];
  readonly phones: { book: Book; sync: Sync; begun: boolean }[] = [];
  /** Ops a phone said it saved, less those it said it took back. */
  readonly promised = new Set<string>();
  private last: (string | undefined)[] = [];

  constructor() {
    this.names.forEach((_, at) => {
      this.open(at);
    });
  }

  open(at: number): void {
    const book = openBook(this.names[at] ?? "", { now: () => this.world.now(), persist: undefined });
    const send: typeof request = (method, path, body) =>
      request(method, path, body, { fetch: this.server.fetch, timeoutMs: 60_000 });
    const sync = createSync({ book, household: "h", confirm: async () => "same", send, world: this.world });
    this.phones[at] = { book, sync, begun: false };
  }

  close(at: number): void {
    this.phones[at]?.sync.stop();
    this.phones[at]?.book.close();
  }

  async sync(at: number): Promise<void> {
    const phone = this.phones[at];
    if (!phone) return;
    this.world.time += 600_000;
    await (phone.begun ? phone.sync.kick() : phone.sync.start());
    phone.begun = true;
  }

  async take(what: Step): Promise<void> {
    this.world.time += 1000;
    if (what.do === "fault") {
      this.server.faults.push(FAULTS[what.name] as Fault);
      return;
    }
    if (what.do === "sync") return this.sync(what.phone);
    if (what.do === "restart") {
      this.close(what.phone);
      return this.open(what.phone);
    }
    if (what.do === "withdraw") return this.withdraw(what.phone);
    const set = { [what.do === "save" ? what.group : ""]: { of: this.world.time } };
    const zone = what.do === "save" ? [{ t: "zone", id: ZONES[what.zone] ?? "", set }] : [];
    const saved = what.do === "save" ? zone : [{ t: "entry", id: newId(), body: { kind: "mow" } }];
    const op = (await this.phones[what.phone]?.book.save(saved))?.op;
    this.last[what.phone] = op;
    if (op) this.promised.add(op);
  }

  async withdraw(at: number): Promise<void> {
    const op = this.last[at];
    if (op && (await this.phones[at]?.book.withdraw(op))) this.promised.delete(op);
    this.last[at] = undefined;
  }

  async quiet(): Promise<void> {
    this.server.faults.length = 0;
    for (let round = 0; round < 3; round++) for (const at of [0, 1, 2]) await this.sync(at);
  }
}

describe("a household on a bad network", () => {
  it("loses nothing, applies everything once, and agrees at quiet (P1, P2, P4, P5)", {
    timeout: 120_000,
  }, async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 5, maxLength: 40 }), async (steps) => {
        const run = new Run();
        for (const what of steps) await run.take(what);
        await run.quiet();
        expect(new Set(run.server.ops.keys())).toEqual(run.promised);
        const truth = [...run.server.records.values()].sort((a, b) => a.seq - b.seq);
        for (const [at, { book }] of run.phones.entries()) {
          expect(await book.db.outbox.toArray()).toEqual([]);
          const base = (await book.db.base.toArray()).map((row) => row.record);
          expect(base.sort((a, b) => a.seq - b.seq)).toEqual(truth);
          const live = (await book.db.live.toArray()).filter((row) => !row.ghost);
          expect(live.map((row) => [row.key, row.seq, row.pending]).sort()).toEqual(
            truth.map((record) => [`${record.t}:${record.id}`, record.seq, false]).sort(),
          );
          run.close(at);
        }
      }),
      { numRuns: 15 },
    );
  });
});
