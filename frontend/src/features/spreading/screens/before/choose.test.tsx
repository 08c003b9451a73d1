import { computed, signal } from "@preact/signals";
import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import { groups } from "../../../../records/fake-book";
import { chosen, engine, shelf } from "../../model/fake-spreading";
import type { SpreadModel } from "../../model/spreading";

const made = vi.hoisted(() => ({ spreading: undefined as unknown, answers: {} }));
vi.mock("../../model", () => ({
  get spreading() {
    return made.spreading;
  },
}));

vi.mock("../../../../platform/engine", async () => {
  const { answersAtOnce } = await import("../../../../platform/engine/fake-engine");
  return { useEngine: answersAtOnce(() => made.answers) };
});

const { ChooseStep } = await import("./choose");

afterEach(cleanup);

it("shows no area before the engine has added up the zones, then theirs", async () => {
  const store = shelf();
  store.put({
    t: "zone",
    id: "side",
    groups: groups({ name: { name: "Side" }, ground: { area_m2: 80, method: "typed" } }),
  });
  const model: SpreadModel = await chosen(store, engine({ "record.totals": {} }));
  await model.change({ zone_ids: ["verge", "side"] });
  const area_m2 = signal(0);
  const choice = computed(() => ({ ...model.choice.value, area_m2: area_m2.value }));
  made.spreading = { ...model, choice };
  render(<ChooseStep />);
  const total = () => screen.getByText("Total area").parentElement?.textContent?.replaceAll("\u00a0", " ");
  expect(total()).toMatch(/^Total area…/);
  area_m2.value = 92.90304; // 1,000 ft²
  expect(await screen.findByText("1,000")).toBeTruthy();
  expect(total()).toMatch(/^Total area1,000 ft²/);
});

describe("zones that one bag just covers", () => {
  const fit = { ids: ["verge", "long"], area_m2: 200, rate_share: 1, left_share: 0.04, left_kg: 0.4 };

  /** A question without an answer here fails the test. */
  async function offered(answers: object, zone_ids: string[] = []) {
    const model: SpreadModel = await chosen(shelf(), engine({ "record.totals": {} }));
    made.answers = answers;
    await model.change({ zone_ids });
    made.spreading = model;
    render(<ChooseStep />);
    return model;
  }

  it("stand together, with what stays in the bag, and are chosen at one tap", async () => {
    const model = await offered({ "label.match": { choices: [fit] } });
    const choose = await screen.findByRole("button", { name: "Choose Verge + Long" });
    expect(screen.getByText(/^Keep [\d.]+\D+in the bag\.$/)).toBeTruthy();
    fireEvent.click(choose);
    await waitFor(() => expect(model.draft.value?.zone_ids).toEqual(["verge", "long"]));
    await waitFor(() => expect(screen.queryByText("One bag just covers")).toBeNull());
  });

  it("are neither asked for nor offered once zones are chosen", async () => {
    await offered({}, ["verge", "long"]);
    expect(await screen.findByText("Total area")).toBeTruthy();
    expect(screen.queryByText("One bag just covers")).toBeNull();
  });
});
