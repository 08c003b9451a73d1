import { afterEach, describe, expect, it, vi } from "vitest";

afterEach(() => vi.resetModules());

const fresh = () => import("./turns");

describe("work in turns", () => {
  it("is done at once where no page takes turns", async () => {
    const { inTurn } = await fresh();
    const done: number[] = [];
    inTurn(() => done.push(1));
    expect(done).toEqual([1]);
  });

  it("is done in the order asked for, each piece in a task of its own", async () => {
    const { inTurn, takeTurns } = await fresh();
    takeTurns();
    const done: string[] = [];
    const all = new Promise<void>((over) => {
      for (const one of ["first", "second"])
        inTurn(() => {
          done.push(one);
          queueMicrotask(() => done.push(`${one}'s task is over`));
        });
      inTurn(over);
    });
    expect(done).toEqual([]);
    await all;
    expect(done).toEqual(["first", "first's task is over", "second", "second's task is over"]);
  });
});
