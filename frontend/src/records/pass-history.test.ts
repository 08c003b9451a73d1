import { describe, expect, it } from "vitest";
import { groups } from "./fake-book";
import { DIAL, passEntry } from "./fake-passes";
import { historyOf, historyRows } from "./pass-history";

describe("the history a dial is worked out from", () => {
  const settings = (entries: ReturnType<typeof passEntry>[]) =>
    historyOf("rotary", DIAL, entries).map(({ dial }) => dial);

  it("runs from the oldest pass to the newest, by the moment as put right", () => {
    const moved = { groups: groups({ when: { occurred_at: "2026-03-01T08:00:00Z" } }) };
    const entries = [
      passEntry("a", "2026-05-03T10:00:00+02:00", { dial: 8 }),
      passEntry("b", "2026-05-03T09:00:00Z", { dial: 9 }),
      passEntry("c", "2026-06-01T10:00:00Z", { dial: 5 }, moved),
    ];
    expect(settings(entries)).toEqual([5, 8, 9]);
  });

  it("leaves out other spreaders, struck-out passes and a dial that had other numbers", () => {
    const struck = { groups: groups({ void: { void: true } }) };
    const entries = [
      passEntry("a", "2026-05-01T10:00:00Z", { dial: 5, spreader_id: "drop" }),
      passEntry("b", "2026-05-02T10:00:00Z", { dial: 6 }, struck),
      passEntry("c", "2026-05-03T10:00:00Z", { dial: 7, dial_scale: { lowest: 0, highest: 10, step: 1 } }),
      passEntry("d", "2026-05-04T10:00:00Z", { dial: 8 }),
    ];
    expect(settings(entries)).toEqual([8]);
  });

  it("keeps the newest 400, which is all the engine takes", () => {
    const many = Array.from({ length: 405 }, (_, k) =>
      passEntry(`p${String(k).padStart(3, "0")}`, "2026-05-01T10:00:00Z", { dial: k }),
    );
    const kept = settings(many);
    expect(kept).toHaveLength(400);
    expect(kept[0]).toBe(5);
  });

  it("passes on what went wrong, so that it can be learned from or left out", () => {
    const entries = [passEntry("a", "2026-05-01T10:00:00Z", { nothing_came: true, used_kg: 0, bad: true })];
    expect(historyOf("rotary", DIAL, entries)[0]).toMatchObject({
      nothing_came: true,
      bad: true,
      used_kg: 0,
    });
  });
});

describe("one row of the history", () => {
  const AT = "2026-05-01T10:00:00Z";
  const past = (over: object, row: object = {}) => historyOf("rotary", DIAL, [passEntry("a", AT, over, row)]);

  it("carries what was left, and how wide and how fast it was walked", () => {
    const [one] = past({ left_kg: 6, swath_m: 1.5, speed_m_s: 1.3, damp: true });
    expect(one).toMatchObject({ left_kg: 6, swath_m: 1.5, speed_m_s: 1.3, damp: true });
  });

  it("keeps an empty hopper as 0 and an unknown rest as unknown", () => {
    expect(past({ left_kg: 0 })[0]?.left_kg).toBe(0);
    expect(past({})[0]).not.toHaveProperty("left_kg");
  });

  it("follows what was decided afterwards about learning from it, either way", () => {
    const later = (bad: boolean) => ({ groups: groups({ learning: { bad } }) });
    expect(past({ bad: true }, later(false))[0]?.bad).toBeUndefined();
    expect(past({}, later(true))[0]?.bad).toBe(true);
    expect(past({ bad: true })[0]?.bad).toBe(true);
  });
});

describe("a pass walked at several settings", () => {
  const parts = [
    { dial: 6, area_m2: 80, used_kg: 1, measured: "level", left_kg: 9 },
    { dial: 8, area_m2: 120, used_kg: 3, measured: "scale", left_kg: 6 },
  ];
  const rows = (over: object, row: object = {}) =>
    historyRows("rotary", DIAL, [
      passEntry("b", "2026-05-02T10:00:00Z", { dial: 7 }),
      passEntry("a", "2026-05-01T10:00:00Z", { parts, granules: "coarse", ...over }, row),
    ]);

  it("is one row for each, in the order walked, and every row leads back to its entry", () => {
    const found = rows({});
    expect(found.map(({ entryId, part, past }) => [entryId, part, past.dial, past.area_m2])).toEqual([
      ["a", 0, 6, 80],
      ["a", 1, 8, 120],
      ["b", null, 7, 200],
    ]);
    expect(found[0]).toMatchObject({ spreadId: "w", past: { measured: "level", left_kg: 9, used_kg: 1 } });
    expect(found[1]?.past).toMatchObject({ product: "slow", granules: "coarse", measured: "scale" });
  });

  it("ran out, or gave nothing, at its last setting only", () => {
    expect(rows({ ran_out: true }).map(({ past }) => past.ran_out)).toEqual([undefined, true, undefined]);
    const dry = [parts[0], { ...parts[1], used_kg: 0, left_kg: 9 }];
    expect(rows({ nothing_came: true, parts: dry }).map(({ past }) => past.nothing_came)).toEqual([
      undefined,
      true,
      undefined,
    ]);
  });

  it("gave something where its last stretch was too short to stand alone and went to the one before", () => {
    expect(rows({ nothing_came: true }).map(({ past }) => past.nothing_came)).toEqual(
      Array(3).fill(undefined),
    );
  });

  it("began each stretch with the reading before it, and so did the next pass of the same walk", () => {
    const [first, second, next] = rows({ number: 1 });
    expect(first?.past).not.toHaveProperty("before_measured");
    expect(second?.past).toMatchObject({ before_measured: "level", before_left_kg: 9 });
    expect(next?.past).not.toHaveProperty("before_measured");
    const two = [
      passEntry("a", "2026-05-01T10:00:00Z", { measured: "level", left_kg: 6 }),
      passEntry("b", "2026-05-01T11:00:00Z", { number: 2, left_kg: 2 }),
    ];
    expect(historyOf("rotary", DIAL, two)[1]).toMatchObject({ before_measured: "level", before_left_kg: 6 });
  });

  it("is left out of learning as a whole", () => {
    const found = rows({ damp: true }, { groups: groups({ learning: { bad: true } }) });
    expect(found.slice(0, 2).every(({ past }) => past.bad && past.damp)).toBe(true);
    expect(found[2]?.past.bad).toBeUndefined();
  });

  it("drops a stretch too small for the engine to take", () => {
    const tiny = [{ ...parts[0], area_m2: 0.2 }, parts[1]];
    expect(rows({ parts: tiny }).map(({ part }) => part)).toEqual([1, null]);
  });

  it("does not let the newest rows push the engine past what it takes", () => {
    const many = Array.from({ length: 300 }, (_, k) =>
      passEntry(`p${String(k).padStart(3, "0")}`, "2026-05-01T10:00:00Z", { parts }),
    );
    expect(historyOf("rotary", DIAL, many)).toHaveLength(400);
  });
});
