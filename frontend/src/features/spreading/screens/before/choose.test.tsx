import { computed, signal } from "@preact/signals";
import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, expect, it, vi } from "vitest";
import { groups } from "../../../../records/fake-book";
import { chosen, engine, shelf } from "../../model/fake-spreading";
import type { SpreadModel } from "../../model/spreading";

const made = vi.hoisted(() => ({ spreading: undefined as unknown }));
vi.mock("../../model", () => ({
  get spreading() {
    return made.spreading;
  },
}));

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
