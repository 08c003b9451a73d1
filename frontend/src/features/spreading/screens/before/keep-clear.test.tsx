/** What is said of water before a job and on the way: how far back, what the load leaves out, what is still to be told. */
import { cleanup, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import { realEngine } from "../../../../platform/engine/real-engine";
import { groups } from "../../../../records/fake-book";
import { chosen, engine, shelf } from "../../model/fake-spreading";
import type { SpreadModel } from "../../model/spreading";

const made = vi.hoisted(() => ({ spreading: undefined as unknown }));
vi.mock("../../model", () => ({
  get spreading() {
    return made.spreading;
  },
}));

const { ClearHere, KeepClear } = await import("./keep-clear");

afterEach(cleanup);

const plain = () => document.body.textContent?.replaceAll("\u00a0", " ") ?? "";

/** A job on a zone of 80 m² that lies so at the water. */
async function at(
  site: object,
  Shown: () => preact.JSX.Element | null,
  more: object = {},
): Promise<SpreadModel> {
  const store = shelf();
  store.put({
    t: "zone",
    id: "long",
    groups: groups({ name: { name: "Long" }, ground: { area_m2: 80, method: "typed", ...more }, site }),
  });
  const answers = engine({ "limits.setback": (args) => realEngine("limits.setback", args) });
  const spreading = await chosen(store, answers);
  made.spreading = spreading;
  render(<Shown />);
  return spreading;
}

const Here = () => <ClearHere zone_id="long" />;

describe("before a job at water", () => {
  it("says how far back to stay, and what the load leaves out", async () => {
    await at({ near_water: true, water_edge_m: 5, setback_m: 3.048 }, KeepClear);
    await screen.findByText("Keep clear of the water");
    expect(plain()).toContain("Long: stay 10 ft back from the water. 164 ft² is left out of the load.");
    expect(plain()).toContain("Skip the strips of the plan that lie in it.");
    expect(plain()).toMatch(/Left out at the water164 ft²/);
    expect(plain()).toContain("If the label or your local rule says more, stay back that far.");
    expect(screen.queryByRole("link")).toBeNull();
  });

  it("says that the plan's strips stay out where the edges are marked", async () => {
    const points_m = [[0, 0], [10, 0], [10, 8], [0, 8]]; // biome-ignore format: corners
    await at({ near_water: true, setback_m: 3.048 }, KeepClear, { outline: { points_m }, water_edges: [0] });
    await screen.findByText("Keep clear of the water");
    expect(plain()).toContain("Long: stay 10 ft back from the water. 328 ft² is left out of the load.");
    expect(plain()).toContain("The plan’s strips stay out of it.");
  });

  it("asks for the edge where its length is not known, and says that the load still counts it", async () => {
    await at({ near_water: true }, KeepClear);
    await screen.findByText("Keep clear of the water");
    expect(plain()).toContain("Long: stay 25 ft back from the water. The load still counts that strip");
    const link = screen.getByRole("link", { name: "Enter the edge at the water" });
    expect(link.getAttribute("href")).toBe("/ground/long/edit");
    expect(plain()).toMatch(/Left out at the waternothing yet/);
  });

  it("says so where nothing of a zone is left to treat", async () => {
    await at({ near_water: true, water_edge_m: 400 }, KeepClear);
    await waitFor(() => expect(plain()).toContain("Nothing of this zone is left to treat."));
  });

  it("says nothing where no water is near", async () => {
    await at({ near_water: false }, KeepClear);
    expect(document.body.textContent).toBe("");
  });
});

describe("in the yard", () => {
  it("says in one line how far back to stay, in a zone at water", async () => {
    await at({ near_water: true, water_edge_m: 5 }, Here);
    const line = await screen.findByText("Stay 25 ft back from the water.", {
      normalizer: (text) => text.replaceAll("\u00a0", " "),
    });
    expect(line.className).toBe("yard__clear");
  });

  it("says nothing in another zone, nor where no water is near", async () => {
    await at({ near_water: true, water_edge_m: 5 }, () => <ClearHere zone_id="verge" />);
    await new Promise((done) => setImmediate(done));
    expect(plain()).toBe("");
    cleanup();
    await at({ near_water: false }, Here);
    expect(plain()).toBe("");
  });
});
