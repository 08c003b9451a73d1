import { cleanup, fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { Value } from "../../../platform/engine";
import type { Table } from "../../../platform/engine/fake-engine";
import { answers } from "../../../records/fake-book";
import { engine, inTheYard, shelf, weighed } from "../model/fake-spreading";
import type { SpreadModel } from "../model/spreading";

const made = vi.hoisted(() => ({
  spreading: undefined as unknown,
  keepOff: { said: { value: undefined }, zones: { value: {} as Record<string, object> }, look: () => {} },
  taught: {} as Partial<Value<"spreading.taught">>,
}));
vi.mock("../model", () => ({
  get spreading() {
    return made.spreading;
  },
}));
vi.mock("../../../records/live", () => ({
  keepOff: made.keepOff,
}));
// Only what Today exports for other pages is drawn here.
vi.mock("../../today/screens/index", () => ({ default: () => null }));
vi.mock("../../../records/log/named", async () =>
  (await import("../../../records/log/names")).sayingNames(
    (id) => ({ verge: "Verge", long: "Long", slow: "Plain 23-0-9" })[String(id)],
  ),
);
vi.mock("../../../platform/engine", async () => {
  const { answersAtOnce } = await import("../../../platform/engine/fake-engine");
  return { useEngine: answersAtOnce(() => ({ "spreading.taught": made.taught })) };
});

const { FinishStep } = await import("./finish");
const { NextStep } = await import("./next");

const BAND = { low: 0.02, mid: 0.025, high: 0.03 };
const TAUGHT = {
  dial: 6,
  before: { low: 0.015, mid: 0.022, high: 0.032 },
  after: BAND,
  change_share: 0.12,
  band_before: 0.93,
  band_after: 0.5,
  says: "freer",
  reason: "More came out than at this setting before.",
} as const;
const START = {
  dial: 6.5,
  passes_advised: 2,
  share: 0.5,
  left_kg: { low: 4, mid: 5, high: 6 },
  chance_of_running_out: 0.04,
  basis: "same_product",
  advice: "walk",
  dial_likely: { low: 6, high: 7 },
  reason: "Nearest to half of the aim by three passes with this product.",
} satisfies Table["spreading.start"];
const { passes_advised: _, ...SAME } = START;
const NEXT = { ...SAME, dial: 7.5, bad_passes: [], further_pass: false };

/** A past pass of another job, in the book before this one. */
function putPast(store: ReturnType<typeof shelf>) {
  store.put({
    t: "entry",
    id: "old",
    body: {
      kind: "pass",
      spread_id: "w-old",
      occurred_at: "2026-04-12T10:00:00+02:00",
      product_id: "slow",
      spreader_id: "rotary",
      number: 1,
      dial: 5,
      area_m2: 200,
      used_kg: 4,
      measured: "scale",
    },
  });
}

async function onePass(over: Parameters<typeof engine>[0] = {}, store = shelf()) {
  putPast(store);
  const spreading = await inTheYard(
    store,
    engine({ "spreading.start": START, "spreading.next": NEXT, ...over }),
  );
  await weighed(spreading, "6");
  made.spreading = spreading;
  made.taught = TAUGHT;
  return { spreading: spreading as SpreadModel, store };
}

async function finished(over?: Parameters<typeof engine>[0]) {
  const { spreading, store } = await onePass(over);
  await spreading.finish();
  const { container } = render(<FinishStep />);
  return { spreading, store, container };
}

const text = (element: HTMLElement) => element.textContent?.replaceAll("\u00a0", " ") ?? "";
const region = (name: string) => screen.getByRole("region", { name });

afterEach(cleanup);

describe("the finish card", () => {
  it("says first of all until when to keep off", async () => {
    const until = { until: "2026-05-15T16:30:00Z", hours: 24, assumed: false, until_watered: true };
    made.keepOff.zones.value = { verge: { ...until, product_id: "slow", entry_id: "w" } };
    const { container } = await finished();
    const body = container.querySelector(".page__body");
    expect(body?.firstElementChild?.textContent).toMatch(/Keep off until Fri 15 May, \d{1,2}:30 [ap]m/);
    expect(body?.firstElementChild?.textContent).toContain("Verge. Plain 23-0-9. The label says 24 hours.");
    made.keepOff.zones.value = {};
  });

  it("says what the walk taught, against when, and how much better it is known now", async () => {
    await finished();
    const taught = text(region("What changed"));
    expect(taught).toContain("Your spreader puts down 12% more than before, 12 Apr 2026.");
    expect(taught).toContain("50%");
    expect(taught).toContain("was 93%");
    expect(within(region("What changed")).getByRole("img")).toBeTruthy();
    expect(screen.getByRole("link", { name: /spreader.s passes/ }).getAttribute("href")).toBe(
      "/shed/spreader/rotary",
    );
  });

  it("says what each zone got in a line that breaks, not in a table wider than the phone", async () => {
    await finished();
    const [line] = within(await screen.findByRole("list", { name: "What each zone got" })).getAllByRole(
      "listitem",
    );
    expect(text(line as HTMLElement)).toMatch(
      /^Verge[\d.]+ lb\/1,000 ft²( · [\d.]+ lb N\/1,000 ft²)?[\d.]+ lb$/,
    );
  });

  it("says that the curve begins where nothing was known", async () => {
    await onePass();
    made.taught = { ...TAUGHT, says: "first", before: null, change_share: null, band_before: null };
    await (made.spreading as SpreadModel).finish();
    render(<FinishStep />);
    expect(text(region("What changed"))).toContain("First passes saved for this spreader");
  });

  it("takes the share of the aim from the engine", async () => {
    await finished();
    // 10 kg loaded, 6 left, 10 aimed for.
    expect(await screen.findByText("40%")).toBeTruthy();
  });

  it("names next time's start with the settings it may truly lie between, and why", async () => {
    await finished();
    const next = await waitFor(() => {
      const found = region("Next time");
      expect(text(found)).toContain("6.5");
      return found;
    });
    expect(text(next)).toContain("Nearest to half of the aim");
    expect(text(next)).toContain("Likely right: 6 to 7");
  });

  it("names no start where the engine says not to walk", async () => {
    const { spreading } = await onePass();
    await spreading.finish();
    made.spreading = {
      ...spreading,
      again: { value: answers("spreading.start", { ...START, advice: "stop" }) },
    };
    render(<FinishStep />);
    expect(text(region("Next time"))).toContain("Used");
    expect(text(region("Next time"))).not.toContain("Start at");
  });

  it("sends what is left back to its own bag", async () => {
    await finished();
    expect(screen.getByText(/kg left over|lb left over/)).toBeTruthy();
    expect(screen.getByText(/Put it back in its own bag/)).toBeTruthy();
  });
});

describe("a pass that looks unlike the others", () => {
  const doubting = {
    "spreading.next": { ...NEXT, bad_passes: [1], bad_chances: [{ index: 1, chance: 0.8 }] },
  };

  it("is named with its chance, and left out of learning on one tap", async () => {
    const { store, spreading } = await onePass(doubting);
    render(<NextStep />);
    expect(await screen.findByText("Pass 1 looks off")).toBeTruthy();
    expect(document.body.textContent).toContain("about 80%");
    fireEvent.click(screen.getByRole("button", { name: "Ignore pass 1" }));
    await waitFor(() => expect(screen.getByText("Pass 1 is ignored")).toBeTruthy());
    const id = spreading.passes.value[0]?.id;
    expect(store.saved.at(-1)?.[0]).toMatchObject({ t: "entry", id, set: { learning: { bad: true } } });
    expect(spreading.history.value.at(-1)?.bad).toBe(true);
  });

  it("can be learned from after all", async () => {
    const { spreading } = await onePass(doubting);
    await spreading.learnFrom(spreading.passes.value[0]?.id ?? "", false);
    render(<NextStep />);
    fireEvent.click(await screen.findByRole("button", { name: "Use pass 1" }));
    await waitFor(() => expect(spreading.history.value.at(-1)?.bad).toBeUndefined());
  });

  it("is not named where the engine doubts only passes of other walks", async () => {
    await onePass({ "spreading.next": { ...NEXT, bad_passes: [0] } });
    render(<NextStep />);
    expect(await screen.findByText(/Nearest to half of the aim/)).toBeTruthy();
    expect(screen.queryByText(/looks unlike/)).toBeNull();
  });
});

describe("one pass more", () => {
  it("is advised where much is likely to be left", async () => {
    await onePass({ "spreading.next": { ...NEXT, further_pass: true } });
    render(<NextStep />);
    expect(await screen.findByText("Add one more pass")).toBeTruthy();
  });

  it("is not spoken of otherwise", async () => {
    await onePass();
    render(<NextStep />);
    expect(await screen.findByText(/Nearest to half of the aim/)).toBeTruthy();
    expect(screen.queryByText("Add one more pass")).toBeNull();
  });
});
