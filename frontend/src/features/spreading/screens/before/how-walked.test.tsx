import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { Args, Value } from "../../../../platform/engine";
import type { FakeEngine } from "../../../../platform/engine/fake-engine";
import { fakeEngine, groups, refuses } from "../../../../records/fake-book";
import { chosen, engine, shelf } from "../../model/fake-spreading";

const made = vi.hoisted(() => ({
  spreading: undefined as unknown,
  engine: undefined as FakeEngine | undefined,
}));
vi.mock("../../model", () => ({
  get spreading() {
    return made.spreading;
  },
}));
vi.mock("../../../../platform/engine", () => ({
  get call() {
    return made.engine?.call;
  },
}));

const { HowWalked } = await import("./how-walked");

const OUTLINE = {
  points_m: [
    [0, 0],
    [12, 0],
    [12, 10],
    [0, 10],
  ],
};

/** Two strips in every zone with an outline, one row for the others. */
function tour({ zones }: Args<"swath.tour">): Partial<Value<"swath.tour">> {
  let number = 0;
  const bare = { of_zone: 1, walked_m2: 0, out_m2: 0, done_area_m2: 0, to_go_area_m2: 0, left_kg: null };
  const rows = zones.flatMap(({ id, outline_m }): Value<"swath.tour">["rows"] =>
    outline_m
      ? [2, 4].map((x) => ({
          ...bare,
          zone_id: id,
          kind: "strip",
          number: ++number,
          points_m: [
            [x, 0],
            [x, 10],
          ],
          length_m: 10,
        }))
      : [{ ...bare, zone_id: id, kind: "whole", number: ++number, points_m: null, length_m: null }],
  );
  const all = { distance_m: 345, minutes: 4.4, strips_total: rows.length, over_edge_share: 0.045 };
  return { rows, zones: [], ...all };
}

async function open(over: object = {}) {
  const store = shelf();
  store.put({
    t: "zone",
    id: "verge",
    groups: groups({ name: { name: "Verge" }, ground: { area_m2: 120, outline: OUTLINE } }),
  });
  const spreading = await chosen(store, engine());
  await spreading.change({ step: "aim", ...over });
  made.spreading = spreading;
  made.engine = fakeEngine({ "swath.tour": tour });
  const asked = () => made.engine?.askedOf("swath.tour").at(-1);
  render(<HowWalked says={() => {}} />);
  await screen.findByRole("combobox", { name: "Show zone" });
  return { spreading, asked };
}

const plain = () => document.body.textContent?.replaceAll("\u00a0", " ") ?? "";

afterEach(cleanup);

describe("how a walk will lie", () => {
  it("says what a rotary throws past the edges, offers the deflector, and stays back from water", async () => {
    await open();
    expect(plain()).toMatch(/About (4\.5|5|4)% goes past the edges/);
    expect(plain()).toContain("Use the edge deflector if your spreader has one.");
    expect(plain()).toContain("Stay back from the water");
  });

  it("draws the plan with its strips, way and minutes", async () => {
    const { asked } = await open();
    expect(screen.getByRole("img").querySelector("title")?.textContent).toContain(
      "Verge from above, to scale",
    );
    expect(plain()).toContain("3 strips");
    expect(plain()).toMatch(/345 m|1 132 ft|1,132 ft/);
    expect(plain()).toContain("4 minutes");
    expect(asked()).toMatchObject({ swath_m: 1.5, pattern: "plain" });
  });

  it("lays the second pass half a swath over, until right angles are chosen", async () => {
    const { spreading, asked } = await open();
    fireEvent.click(screen.getByRole("radio", { name: "2" }));
    await waitFor(() => expect(asked()?.pattern).toBe("offset"));
    const lying = screen.getByRole("combobox", { name: "Second pass" });
    fireEvent.change(lying, { target: { value: "crossed" } });
    await waitFor(() => expect(asked()?.pattern).toBe("crossed"));
    expect(spreading.draft.value?.crossing).toBe("crossed");
  });

  it("asks of the third pass where there are three", async () => {
    await open({ passes: 3 });
    expect(screen.getByRole("combobox", { name: "Third pass" })).toBeTruthy();
  });

  it("has nothing to cross in a single pass", async () => {
    await open({ passes: 1 });
    expect(screen.queryByRole("combobox", { name: /^(Second|Third) pass$/ })).toBeNull();
  });

  it("offers an outline for a zone that has none", async () => {
    await open();
    fireEvent.change(screen.getByRole("combobox", { name: "Show zone" }), { target: { value: "long" } });
    expect(await screen.findByRole("link", { name: "Add an outline to Long" })).toBeTruthy();
    expect(screen.getByText(/Long has no outline yet/)).toBeTruthy();
  });

  it("falls back to whole zones where an outline cannot be laid out", async () => {
    const { spreading } = await open();
    cleanup();
    made.engine = fakeEngine({
      "swath.tour": (args) =>
        args.zones.some((zone) => zone.outline_m) ? refuses("An edge crosses itself.") : tour(args),
    });
    await spreading.change({ crossing: "offset" });
    render(<HowWalked says={() => {}} />);
    await waitFor(() => expect(plain()).toContain("2 strips"));
  });
});
