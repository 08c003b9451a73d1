import { describe, expect, it } from "vitest";
import { entryOf } from "../../../records/entries";
import { fakeRow } from "../../../records/fake-book";
import { DIAL, passEntry } from "../../../records/fake-passes";
import { warningsFor } from "./before/warnings";
import { blankJob, lastDial, onFoot, passesOf, standsAt, stepBack } from "./steps";
import type { PassDone, Plan } from "./types";
import { askLeft } from "./yard/left";

const PLAN: Plan = {
  zones: [],
  area_m2: 200,
  target_kg_m2: 0.05,
  mass_kg: 10,
  load_kg: 10,
  load_kg_m2: 0.05,
  passes: 2,
  product: { id: "slow", name: "Slow" },
  dial: DIAL,
};

const done = (over: Partial<PassDone> = {}): PassDone => ({
  id: "p",
  number: 1,
  dial: 6,
  area_m2: 200,
  measured: "scale",
  start_kg: 10,
  left_kg: 6,
  used_kg: 4,
  added_kg: 0,
  ran_out: false,
  nothing_came: false,
  damp: false,
  parts: [],
  checks: [],
  ...over,
});

describe("where a walk stands", () => {
  const said = { dial: 6, left_kg: null, chance_of_running_out: null, why: "" };
  const going = { id: "p", number: 1, start_kg: 10, said, pattern: "plain" } as const;
  const walking = onFoot(blankJob("w", "2026-05-14T18:00:00Z", "us"), going);

  it("is in the yard until the pass is in the book, and then past it", () => {
    expect(standsAt(walking, [], false)).toBe("yard");
    expect(standsAt({ ...walking, step: "left" }, [done()], false)).toBe("next");
  });

  it("does not take another pass's entry for this one", () => {
    expect(standsAt({ ...walking, step: "left" }, [done({ id: "earlier" })], false)).toBe("left");
  });

  it("is finished once the walk is in the book, whatever the draft says", () => {
    expect(standsAt(walking, [], true)).toBe("finish");
  });

  it("goes back step by step before the yard and never behind a booked pass", () => {
    expect(stepBack("load", null, [])).toBe("cautions");
    expect(stepBack("aim", null, [])).toBe("choose");
    expect(stepBack("left", walking.pass, [])).toBe("yard");
    expect(stepBack("next", null, [done()])).toBeNull();
  });

  it("starts each pass with an unread level, whatever the last one was", () => {
    const read = { ...walking, left: { ...walking.left, way: "level" as const, level_share: 0.4 } };
    const next = onFoot(read, { ...going, id: "q", number: 2, start_kg: 6 });
    expect(next.left).toMatchObject({ way: "level", level_share: null });
    if (!next.pass) throw new Error("no pass on foot");
    const context = { plan: PLAN, pass: next.pass, system: "us" as const, hopper: undefined };
    expect(askLeft(next.left, context)).toMatchObject({ ok: false, field: "level" });
  });
});

describe("passes of a walk", () => {
  it("are this walk's own, in the order walked", () => {
    const entries = [
      passEntry("b", "2026-05-14T10:00:00Z", { number: 2 }),
      passEntry("a", "2026-05-14T09:00:00Z", { number: 1 }),
      passEntry("c", "2026-05-14T09:30:00Z", { spread_id: "other" }),
    ];
    expect(passesOf("w", entries).map(({ id }) => id)).toEqual(["a", "b"]);
  });

  it("remember the last dial at which something came out", () => {
    expect(lastDial([done({ dial: 6 }), done({ dial: 3, nothing_came: true })])).toBe(6);
    expect(lastDial([])).toBeUndefined();
  });
});

describe("lately walked", () => {
  const zone = { id: "verge", name: "Verge", area_m2: 10 };
  const fed = (at: string) => [
    entryOf(
      fakeRow({
        t: "entry",
        id: "a",
        body: { kind: "spread", product_id: "slow", zone_ids: ["verge"], occurred_at: at },
      }),
    ),
  ];

  it("ends after three weeks by the calendar", () => {
    const days = (today: string) =>
      warningsFor([zone], fed("2026-04-01T20:00:00Z"), today).map((one) => one.days);
    expect(days("2026-04-21")).toEqual([20]);
    expect(days("2026-04-22")).toEqual([]);
  });
});
