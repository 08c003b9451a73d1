import { signal } from "@preact/signals";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { createStill, STILL_MS } from "../forms/still";
import { fakeBook } from "./fake-book";
import { byTimer, createRest, REST_MS, restful } from "./rest";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

describe("the rest after something is recorded", () => {
  it("lasts while it is being recorded and a moment after", async () => {
    const { resting, during } = createRest(byTimer);
    let stored = () => {};
    const saving = during(() => new Promise<void>((done) => (stored = done)));
    vi.advanceTimersByTime(REST_MS + 1);
    expect(resting.value).toBe(true);
    stored();
    await saving;
    vi.advanceTimersByTime(REST_MS - 1);
    expect(resting.value).toBe(true);
    vi.advanceTimersByTime(1);
    expect(resting.value).toBe(false);
  });

  it("begins anew with each record", () => {
    const { resting, begin } = createRest(byTimer);
    begin();
    vi.advanceTimersByTime(REST_MS - 1);
    begin();
    vi.advanceTimersByTime(REST_MS - 1);
    expect(resting.value).toBe(true);
  });

  it("lets a tap through on what stood still, but never once something was recorded", async () => {
    const { begin, during, ignores } = createRest(byTimer);
    const [still, other] = [new EventTarget(), new EventTarget()];
    expect(ignores(other)).toBe(false);
    begin((control) => control === still);
    expect([ignores(still), ignores(other)]).toEqual([false, true]);
    await during(async () => undefined);
    expect(ignores(still)).toBe(true);
    begin((control) => control === still);
    expect(ignores(still)).toBe(true);
    vi.advanceTimersByTime(REST_MS);
    expect(ignores(still)).toBe(false);
  });

  it("does not hold every button for a save that never ends", () => {
    const { resting, during } = createRest(byTimer);
    void during(() => new Promise(() => {}));
    vi.advanceTimersByTime(10_000);
    expect(resting.value).toBe(false);
  });

  it("is over in its time where the save was refused", async () => {
    const { resting, during } = createRest(byTimer);
    await expect(during(() => Promise.reject(new Error("quota")))).rejects.toThrow("quota");
    vi.advanceTimersByTime(REST_MS);
    expect(resting.value).toBe(false);
  });

  it("follows every save of a store, and every one taken back", async () => {
    const rest = createRest(byTimer);
    const store = restful(fakeBook(), rest);
    const { op } = await store.save([{ t: "zone", id: "z", set: {} }]);
    expect(rest.resting.value).toBe(true);
    vi.advanceTimersByTime(REST_MS);
    expect(await store.withdraw(op)).toBe(true);
    expect(rest.resting.value).toBe(true);
  });
});

describe("a list that keeps still under a thumb", () => {
  const list = (...ids: string[]) => ids.map((id) => ({ id }));
  const ids = (rows: readonly { id: string }[]) => rows.map(({ id }) => id).join("");

  it("is not sorted anew for two seconds", () => {
    const source = signal(list("a", "b", "c"));
    const { rows, hold } = createStill(source, byTimer);
    hold();
    source.value = list("b", "c", "a");
    vi.advanceTimersByTime(STILL_MS - 1);
    expect(ids(rows.value)).toBe("abc");
    vi.advanceTimersByTime(1);
    expect(ids(rows.value)).toBe("bca");
  });

  it("is held on by each further record", () => {
    const source = signal(list("a", "b"));
    const { rows, hold } = createStill(source, byTimer);
    hold();
    source.value = list("b", "a");
    vi.advanceTimersByTime(STILL_MS - 1);
    hold();
    vi.advanceTimersByTime(STILL_MS - 1);
    expect(ids(rows.value)).toBe("ab");
  });

  it("keeps the place of a row that has left, and shows one that has come at its end", () => {
    const source = signal(list("a", "b"));
    const { rows, hold } = createStill(source, byTimer);
    hold();
    source.value = list("b", "new");
    expect(rows.value.map(({ id, now }) => [id, now !== undefined])).toEqual([
      ["a", false],
      ["b", true],
      ["new", true],
    ]);
  });
});
