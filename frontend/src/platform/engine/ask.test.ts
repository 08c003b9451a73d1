import { effect, signal } from "@preact/signals";
import { describe, expect, it } from "vitest";
import { settled } from "../../records/fake-book";
import { takeTurns } from "../turns";
import { ask, type Followed, type Following } from "./ask";
import type { Answer } from "./types";

/** An engine whose answers come when the test lets them. */
function slowEngine() {
  const waiting: { args: any; answer: (value: unknown) => void }[] = [];
  return {
    waiting,
    call: <V>(_: string, args: object) =>
      new Promise<Answer<V>>((resolve) => {
        waiting.push({
          args,
          answer: (value) => resolve({ value, working: [], engine: "test" } as Answer<V>),
        });
      }),
  };
}

/** Any arguments and any answer: what is asked is not what is tried here. */
const asking = ask as unknown as (
  engine: { call: unknown },
  name: string,
  args: () => object | null,
  how?: Following,
) => Followed<Answer<unknown>>;

describe("a figure that follows its arguments", () => {
  it("asks nothing while nobody looks", () => {
    const engine = slowEngine();
    asking(engine, "area.shapes", () => ({ n: 1 }));
    expect(engine.waiting).toEqual([]);
  });

  it("drops a late answer to older arguments", async () => {
    const engine = slowEngine();
    const n = signal(1);
    const answer = asking(engine, "area.shapes", () => ({ n: n.value }));
    const stop = effect(() => void answer.value);
    n.value = 2;
    engine.waiting[1]?.answer("two");
    engine.waiting[0]?.answer("one");
    await settled();
    expect(answer.value?.value).toBe("two");
    stop();
  });

  it("does not ask again for arguments of the same content", async () => {
    const engine = slowEngine();
    const n = signal({ n: 1 });
    const answer = asking(engine, "area.shapes", () => n.value);
    const stop = effect(() => void answer.value);
    engine.waiting[0]?.answer("one");
    await settled();
    n.value = { n: 1 };
    expect(engine.waiting).toHaveLength(1);
    stop();
  });

  it("looks again when somebody comes back to it", async () => {
    const engine = slowEngine();
    const n = signal(1);
    const answer = asking(engine, "area.shapes", () => ({ n: n.value }));
    effect(() => void answer.value)();
    n.value = 2;
    const stop = effect(() => void answer.value);
    expect(engine.waiting.at(-1)?.args).toEqual({ n: 2 });
    stop();
  });

  it("says of the answer that stays meanwhile that it is to older arguments", async () => {
    const engine = slowEngine();
    const n = signal(1);
    const answer = asking(engine, "area.trace", () => ({ n: n.value }));
    const stop = effect(() => void answer.value);
    expect(answer.busy.value).toBe(true);
    engine.waiting[0]?.answer("one");
    await settled();
    expect(answer.busy.value).toBe(false);
    n.value = 2;
    expect([answer.value?.value, answer.busy.value]).toEqual(["one", true]);
    engine.waiting[1]?.answer("two");
    await settled();
    expect([answer.value?.value, answer.busy.value]).toEqual(["two", false]);
    stop();
  });

  it("is not busy once nothing is asked any more", async () => {
    const engine = slowEngine();
    const n = signal<number | null>(1);
    const answer = asking(engine, "area.trace", () => (n.value === null ? null : { n: n.value }));
    const stop = effect(() => void answer.value);
    n.value = null;
    expect(answer.busy.value).toBe(false);
    stop();
  });

  it("shows what it was told of the same arguments when somebody comes back", async () => {
    const engine = slowEngine();
    const answer = asking(engine, "spreading.next", () => ({ n: 1 }), { forget: true });
    const stop = effect(() => void answer.value);
    engine.waiting[0]?.answer("one");
    await settled();
    stop();
    const again = effect(() => void answer.value);
    expect([answer.value?.value, answer.busy.value]).toEqual(["one", false]);
    again();
  });

  it("shows nothing while a new answer is on its way, where it may be acted on at once", async () => {
    const engine = slowEngine();
    const n = signal(1);
    const answer = asking(engine, "spreading.check", () => ({ n: n.value }), { forget: true });
    const stop = effect(() => void answer.value);
    engine.waiting[0]?.answer("one");
    await settled();
    expect(answer.value?.value).toBe("one");
    n.value = 2;
    expect(answer.value).toBeUndefined();
    engine.waiting[1]?.answer("two");
    await settled();
    expect(answer.value?.value).toBe("two");
    stop();
  });

  it("reads what it asks with only once all it waits for is read", async () => {
    const engine = slowEngine();
    const [log, zones] = [signal(false), signal(true)];
    let read = 0;
    const args = () => ({ n: ++read });
    const answer = asking(engine, "record.totals", args, { after: [log, zones] });
    const stop = effect(() => void answer.value);
    expect([read, engine.waiting.length, answer.busy.value]).toEqual([0, 0, false]);
    log.value = true;
    expect([read, engine.waiting.length, answer.busy.value]).toEqual([1, 1, true]);
    stop();
  });

  // The last one: from now on this file's page takes turns.
  it("reads each in a task of its own, when a long log has been read", async () => {
    takeTurns();
    const engine = slowEngine();
    const log = signal(false);
    const n = signal(1);
    const figures = ["record.totals", "record.clashes"].map((name) =>
      asking(engine, name, () => ({ name, n: n.value }), { after: [log] }),
    );
    const stops = figures.map((figure) => effect(() => void figure.value));
    log.value = true;
    const asked = () => engine.waiting.length;
    expect(asked()).toBe(0);
    await expect.poll(asked, { interval: 0 }).toBe(2);
    // What is written later is followed at once.
    n.value = 2;
    expect(asked()).toBe(4);
    for (const stop of stops) stop();
  });
});
