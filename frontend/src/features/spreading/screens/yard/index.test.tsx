import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import { checkedAt, count, engine, inTheYard, kg, shelf, striped } from "../../model/fake-spreading";
import type { SpreadModel } from "../../model/spreading";

const made = vi.hoisted(() => ({ spreading: undefined as unknown, said: [] as string[] }));
vi.mock("../../model", () => ({
  get spreading() {
    return made.spreading;
  },
}));
vi.mock("../../../../platform/session/speech", () => ({
  speech: { on: { value: true }, say: (text: string) => made.said.push(text) },
  canSpeak: () => false,
}));

const { YardStep } = await import("./index");
const { CheckStep } = await import("./check");

afterEach(() => {
  cleanup();
  made.said.length = 0;
  vi.unstubAllGlobals();
});

async function inYard(spreading: Promise<SpreadModel>): Promise<SpreadModel> {
  const ready = await spreading;
  made.spreading = ready;
  render(<YardStep />);
  return ready;
}

const button = (name: string | RegExp) => screen.getByRole("button", { name });

/** A button that is there and takes a tap. */
const ready = (name: string) =>
  waitFor(() => {
    const found = button(name);
    if (found.getAttribute("aria-disabled")) throw new Error(`${name} still rests`);
    return found;
  });

const said = (words: string) => waitFor(() => expect(made.said.at(-1)).toBe(words));

describe("the screen in the yard", () => {
  it("counts a strip by one tap, says dial and strip, and buzzes", async () => {
    const buzzed: unknown[] = [];
    vi.stubGlobal("navigator", {
      ...navigator,
      vibrate(pattern: number[]) {
        buzzed.push(pattern);
        return true;
      },
    });
    await inYard(striped());
    expect(made.said).toEqual(["Dial 6. Strip 1 of 11."]);
    fireEvent.click(button("Strip 1 done"));
    await ready("Strip 2 done");
    expect(screen.getByLabelText("Strip 2 of 11")).toBeTruthy();
    await said("Dial 6. Strip 2 of 11.");
    expect(buzzed).toEqual([[70]]);
  });

  it("counts two taps on the same strip once", async () => {
    const spreading = await inYard(striped());
    const strip = button("Strip 1 done");
    fireEvent.click(strip);
    fireEvent.click(strip);
    await ready("Strip 2 done");
    expect(spreading.standing.value?.done).toBe(1);
  });

  it("takes the last count back by one tap", async () => {
    await inYard(striped());
    expect(screen.queryByRole("button", { name: /^Undo strip/ })).toBeNull();
    fireEvent.click(button("Strip 1 done"));
    await ready("Undo strip 1");
    fireEvent.click(button("Undo strip 1"));
    await ready("Strip 1 done");
  });

  it("names a zone as it changes, and asks for the pass once all is walked", async () => {
    const spreading = await inYard(striped());
    await count(spreading, 9);
    await ready("Strip 10 done");
    fireEvent.click(button("Strip 10 done"));
    await ready("Long done");
    await said("Dial 6. Now Long. Strip 11 of 11.");
    fireEvent.click(button("Long done"));
    await ready("Pass 1 done");
    await said("All strips done.");
  });

  it("lets one zone without strips be walked as before, with nothing to count", async () => {
    const store = shelf();
    const spreading = await inTheYard(store, engine());
    await spreading.change({ zone_ids: ["verge"], plan: null, pass: null });
    await spreading.setOff();
    await inYard(Promise.resolve(spreading));
    expect(screen.getAllByRole("button", { name: "Pass 1 done" })).toHaveLength(1);
    expect(screen.queryByText(/^of \d/)).toBeNull();
    expect(made.said).toEqual(["Dial 6."]);
  });

  it("says what should be there now, and where a walk was stopped", async () => {
    const spreading = await striped();
    await count(spreading, 4);
    await inYard(Promise.resolve(spreading));
    expect(screen.getByText("Should be left").nextSibling?.textContent).toMatch(/lb|kg/);
    await spreading.stop();
    await ready("Continue at strip 5");
    fireEvent.click(button("Continue at strip 5"));
    await ready("Strip 5 done");
  });
});

describe("the look on the way", () => {
  it("shows what was expected and where it leads, and sets the dial only when told to", async () => {
    const spreading = await striped();
    await count(spreading, 5);
    await spreading.openCheck();
    made.spreading = spreading;
    render(<CheckStep />);
    const { check } = spreading.draft.value ?? {};
    if (!check) throw new Error("no walk on foot");
    await spreading.change({ check: { ...check, way: "scale", weight: kg("8") } });
    await waitFor(() => screen.getByText("Lower: dial 5.5"));
    expect(screen.getByText("More came out than expected.")).toBeTruthy();
    expect(button("Keep dial 6")).toBeTruthy();
    expect(spreading.draft.value?.pass?.dial).toBe(6);
    fireEvent.click(button("Set dial to 5.5"));
    await waitFor(() => expect(spreading.draft.value?.pass?.dial).toBe(5.5));
    await said("Dial 5.5.");
  });

  it("keeps the setting where the person keeps it", async () => {
    const spreading = await striped();
    await count(spreading, 5);
    await checkedAt(spreading, "8", 6);
    expect(spreading.draft.value?.pass).toMatchObject({ dial: 6, parts: [] });
  });
});
