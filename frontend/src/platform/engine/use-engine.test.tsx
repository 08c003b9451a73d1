import { act, render } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Answer, Args } from "./types";

// What every file begins with has read the engine's client already: it is read anew, or nothing would take its place.
vi.hoisted(() => vi.resetModules());
const waiting: { args: object; answer: (value: Answer<unknown>) => void }[] = [];
vi.mock("./client", () => ({
  call: (_name: string, args: object) =>
    new Promise<Answer<unknown>>((resolve) => {
      waiting.push({ args, answer: resolve });
    }),
}));

import { useEngine } from "./use-engine";

const reply = (value: unknown): Answer<unknown> => ({ value, working: [], engine: "1" });
let seen: { answer: Answer<unknown> | undefined; busy: boolean };

function Shown({ args }: { args: object | null }) {
  seen = useEngine("label.rate", args as Args<"label.rate"> | null);
  return null;
}

const pause = () =>
  act(() => {
    vi.advanceTimersByTime(60);
  });
const answered = (at: number, value: number) => act(async () => waiting[at]?.answer(reply(value)));

beforeEach(() => {
  vi.useFakeTimers();
  waiting.length = 0;
});
afterEach(() => {
  vi.useRealTimers();
});

describe("useEngine", () => {
  it("asks once for a run of typing, and shows busy until the answer is there", async () => {
    const view = render(<Shown args={{ n: 1 }} />);
    view.rerender(<Shown args={{ n: 2 }} />);
    await pause();
    expect(waiting.map((one) => one.args)).toEqual([{ n: 2 }]);
    expect(seen).toEqual({ answer: undefined, busy: true });
    await answered(0, 7);
    expect(seen).toEqual({ answer: reply(7), busy: false });
  });

  it("does not ask again for arguments that are equal in content", async () => {
    const view = render(<Shown args={{ n: 1 }} />);
    await pause();
    view.rerender(<Shown args={{ n: 1 }} />);
    await pause();
    expect(waiting).toHaveLength(1);
  });

  it("keeps the last answer while the next is on its way, and drops one that comes late", async () => {
    const view = render(<Shown args={{ n: 1 }} />);
    await pause();
    await answered(0, 1);
    view.rerender(<Shown args={{ n: 2 }} />);
    await pause();
    expect(seen).toEqual({ answer: reply(1), busy: true });
    view.rerender(<Shown args={{ n: 3 }} />);
    await pause();
    await answered(2, 3);
    await answered(1, 2);
    expect(seen).toEqual({ answer: reply(3), busy: false });
  });

  it("asks nothing for null, and has no answer then", async () => {
    const view = render(<Shown args={{ n: 1 }} />);
    await pause();
    await answered(0, 1);
    view.rerender(<Shown args={null} />);
    await pause();
    expect(seen).toEqual({ answer: undefined, busy: false });
    expect(waiting).toHaveLength(1);
  });
});
