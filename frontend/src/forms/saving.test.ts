import { describe, expect, it } from "vitest";
import { inTheYard, shelf, weighed } from "../features/spreading/model/fake-spreading";
import type { Outcome } from "../platform/sync/http";
import { createRemote } from "../platform/sync/remote";
import { createSaving, NOT_SAVED } from "./saving";

const broken = () => Promise.reject(new DOMException("The connection was lost", "UnknownError"));

describe("a save", () => {
  it("ends in one of two ways, and is never busy for good", async () => {
    const saving = createSaving();
    expect(await saving.run(async () => undefined)).toBe(true);
    const failing = saving.run(broken);
    expect(saving.busy.value).toBe(true);
    expect(await saving.run(async () => undefined)).toBe(false); // a second tap meanwhile does nothing
    expect(await failing).toBe(false);
    expect([saving.busy.value, saving.problem.value]).toEqual([false, NOT_SAVED]);
    expect(await saving.run(async () => undefined)).toBe(true);
    expect(saving.problem.value).toBeUndefined();
  });
});

describe("a walk", () => {
  it("says that a pass was not saved, and takes the next tap", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    const real = store.save;
    store.save = broken;
    await weighed(spreading, "5");
    expect(spreading.refused.value).toBe(NOT_SAVED);
    expect(spreading.busy.value).toBe(false);
    store.save = real;
    expect(await spreading.record()).toBe(true);
    expect(spreading.refused.value).toBeUndefined();
  });

  it("says that a choice could not be kept", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    store.drafts.put = broken;
    await spreading.change({ passes: 3 });
    expect(spreading.refused.value).toBe(NOT_SAVED);
  });
});

describe("a list of the server", () => {
  it("is not busy for good when a request breaks, says so, and answers the next one", async () => {
    let works = false;
    const request = async <V>(): Promise<Outcome<V>> => {
      if (!works) throw new TypeError("broken");
      return { ok: true, status: 200, value: { list: [1] } as V };
    };
    const remote = createRemote({ request, root: () => "households/h" }, "devices/", (got: any) => got.list);
    expect(await remote.act("d", "devices/d/sign-out")).toBeUndefined();
    expect(remote.busy.value).toBeUndefined();
    expect(remote.problem.value?.says).toMatch(/^No answer from the server/);
    works = true;
    await remote.look();
    expect(remote.value.value).toEqual([1]);
    expect(await remote.act("d", "devices/d/sign-out")).toEqual({ answer: { list: [1] } });
  });

  it("says so when the answer is not one it can read", async () => {
    const request = async <V>(): Promise<Outcome<V>> => ({ ok: true, status: 200, value: undefined as V });
    const remote = createRemote({ request, root: () => "households/h" }, "devices/", (got: any) => got.list);
    await remote.look();
    expect(remote.problem.value?.says).toMatch(/could not be read/);
    expect(remote.busy.value).toBeUndefined();
  });
});
