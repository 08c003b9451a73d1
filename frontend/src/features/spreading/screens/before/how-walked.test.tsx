import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import { groups, says } from "../../../../records/fake-book";
import { chosen, engine, shelf } from "../../model/fake-spreading";

const made = vi.hoisted(() => ({
  spreading: undefined as unknown,
  call: async (_: string, __: object) => ({}) as any,
}));
vi.mock("../../model", () => ({
  get spreading() {
    return made.spreading;
  },
}));
vi.mock("../../../../platform/engine", () => ({
  call: (name: string, args: object) => made.call(name, args),
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
function tour({ zones, pattern }: any) {
  let number = 0;
  const rows = zones.flatMap(({ id, outline_m }: any) =>
    outline_m
      ? [2, 4].map((x) => ({
          zone_id: id,
          kind: "strip",
          number: ++number,
          points_m: [
            [x, 0],
            [x, 10],
          ],
          length_m: 10,
        }))
      : [{ zone_id: id, kind: "whole", number: ++number, points_m: null, length_m: null }],
  );
  const all = { distance_m: 345, minutes: 4.4, strips_total: rows.length, over_edge_share: 0.045 };
  return says({ rows, zones: [], ...all, pattern });
}

async function open(over: object = {}) {
  const asked: { name: string; args: any }[] = [];
  const store = shelf();
  store.put({
    t: "zone",
    id: "verge",
    groups: groups({ name: { name: "Verge" }, ground: { area_m2: 120, outline: OUTLINE } }),
  });
  const spreading = await chosen(store, engine());
  await spreading.change({ step: "aim", ...over });
  made.spreading = spreading;
  made.call = async (name, args) => {
    asked.push({ name, args });
    return tour(args);
  };
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
    expect(asked.at(-1)).toMatchObject({ name: "swath.tour", args: { swath_m: 1.5, pattern: "plain" } });
  });

  it("lays the second pass half a swath over, until right angles are chosen", async () => {
    const { spreading, asked } = await open();
    fireEvent.click(screen.getByRole("radio", { name: "2" }));
    await waitFor(() => expect(asked.at(-1)?.args.pattern).toBe("offset"));
    const lying = screen.getByRole("combobox", { name: "Second pass" });
    fireEvent.change(lying, { target: { value: "crossed" } });
    await waitFor(() => expect(asked.at(-1)?.args.pattern).toBe("crossed"));
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
    made.call = async (_, args: any) =>
      args.zones.some((zone: any) => zone.outline_m)
        ? { error: { code: "crossing", message: "An edge crosses itself." } }
        : tour(args);
    await spreading.change({ crossing: "offset" });
    render(<HowWalked says={() => {}} />);
    await waitFor(() => expect(plain()).toContain("2 strips"));
  });
});
