// @vitest-environment node
import { describe, expect, it, vi } from "vitest";
import { createEngineClient, type Engine, LONGEST_MS, MOST_ASKED } from "./client";
import type { Answer } from "./types";

const REPLY = JSON.stringify({ value: { rate_kg_m2: 1 }, working: [], engine: "1" });

/** A client that takes any name and arguments: what is asked is not what is tried here. */
const started = (spawn: () => Engine, longestMs?: number) =>
  createEngineClient(spawn, longestMs) as {
    call: (name: string, args: object) => Promise<Answer<unknown>>;
    start: () => void;
  };

/** Engines in a row, each with its own way of answering. */
function engines(...answers: ((name: string, args: string) => Promise<string>)[]) {
  const spawned: { stopped: boolean; crash: () => void }[] = [];
  const spawn = (): Engine => {
    const answer = answers[Math.min(spawned.length, answers.length - 1)];
    const state: (typeof spawned)[number] = { stopped: false, crash: () => undefined };
    spawned.push(state);
    return {
      callJson: (name, args) => answer?.(name, args) ?? Promise.reject(new Error("no engine")),
      onCrash: (heard) => {
        state.crash = heard;
      },
      stop: () => {
        state.stopped = true;
      },
    };
  };
  return { spawn, spawned };
}

const never = (): Promise<string> => new Promise(() => undefined);

describe("a call into the engine", () => {
  it("waits for the start, which comes after the first paint", async () => {
    const { spawn, spawned } = engines(async () => REPLY);
    const client = started(spawn);
    const answer = client.call("label.rate", {});
    await Promise.resolve();
    expect(spawned).toHaveLength(0);
    client.start();
    expect(await answer).toEqual(JSON.parse(REPLY));
  });

  it("hands over name and arguments as they are, and errors of the engine as answers", async () => {
    const { spawn } = engines(async (name, args) => JSON.stringify({ error: { code: name, message: args } }));
    const client = started(spawn);
    client.start();
    const answer = await client.call("label.rate", { net_kg: -1 });
    expect(answer).toEqual({ error: { code: "label.rate", message: '{"net_kg":-1}' } });
  });

  it("is asked again of a new worker when the first one dies, and so are all others waiting", async () => {
    const { spawn, spawned } = engines(never, async () => REPLY);
    const client = started(spawn);
    client.start();
    const answers = [client.call("a", {}), client.call("b", {})];
    await new Promise((settled) => setImmediate(settled));
    spawned[0]?.crash();
    expect(await Promise.all(answers)).toEqual([JSON.parse(REPLY), JSON.parse(REPLY)]);
    expect(spawned.map((one) => one.stopped)).toEqual([true, false]);
  });

  it("does not leave others hanging when one call breaks the worker", async () => {
    const { spawn } = engines(
      (name) => (name === "bad" ? Promise.reject(new Error("MemoryError")) : never()),
      async () => REPLY,
    );
    const client = started(spawn);
    client.start();
    const [other] = await Promise.all([client.call("good", {}), client.call("bad", {})]);
    expect(other).toEqual(JSON.parse(REPLY));
  });

  it("never rejects: when no worker will run, the answer says so, and the next call tries again", async () => {
    const { spawn, spawned } = engines(() => Promise.reject(new Error("not cached")));
    const client = started(spawn);
    client.start();
    const first = await client.call("label.rate", {});
    expect(first.error?.code).toBe("engine_unavailable");
    expect(first.error?.message).toContain("not cached");
    const before = spawned.length;
    await client.call("label.rate", {});
    expect(spawned.length).toBeGreaterThan(before);
  });

  it("that takes too long is answered so, its worker is started again, and the others are asked of the new one", async () => {
    const { spawn, spawned } = engines(never, async () => REPLY);
    const client = started(spawn, 20);
    client.start();
    const [slow, behind] = await Promise.all([client.call("swath.walk_plan", {}), client.call("b", {})]);
    expect(slow.error?.code).toBe("engine_too_long");
    expect(slow.error?.message).toMatch(/^This took too long to work out on this phone/);
    expect(behind).toEqual(JSON.parse(REPLY));
    expect(spawned.map((one) => one.stopped)).toEqual([true, false]);
  });

  it("with more in it than the engine can hold is answered so, and never handed over", async () => {
    const given: number[] = [];
    const { spawn, spawned } = engines(async (_, args) => {
      given.push(args.length);
      return REPLY;
    });
    const client = started(spawn);
    client.start();
    const huge = { entries: ["x".repeat(MOST_ASKED)] };
    expect((await client.call("record.totals", huge)).error?.code).toBe("engine_too_much");
    expect(given).toEqual([]);
    expect(await client.call("record.totals", { entries: [] })).toEqual(JSON.parse(REPLY));
    expect(spawned.map((one) => one.stopped)).toEqual([false]);
  });

  it("has its time from when its turn has come, and loading the engine is no part of it", async () => {
    let loaded: () => void = () => undefined;
    const ready = new Promise<void>((done) => {
      loaded = done;
    });
    const spawn = (): Engine => ({
      callJson: () => ready.then(() => REPLY),
      ready: () => ready,
      onCrash: () => undefined,
      stop: () => undefined,
    });
    vi.useFakeTimers();
    try {
      const client = started(spawn);
      client.start();
      const answers = [client.call("a", {}), client.call("b", {})];
      await vi.advanceTimersByTimeAsync(10 * LONGEST_MS);
      loaded();
      expect(await Promise.all(answers)).toEqual([JSON.parse(REPLY), JSON.parse(REPLY)]);
    } finally {
      vi.useRealTimers();
    }
  });
});
