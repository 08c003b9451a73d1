import { describe, expect, it } from "vitest";
import { fakeBook, groups } from "../../../records/fake-book";
import { checkGroup } from "../../../records/kinds";
import { blankTrays, createTrays, readTrays, traysShown } from "./trays";

const SPREADER = "018f0000-0000-7000-8000-00000000000a";
const AT = "2026-05-14T18:00:00+02:00";

function model(store = fakeBook()) {
  let made = 0;
  // Ids as the book makes them, so that the check of the body is the real one.
  store.newId = () => `018f0000-0000-7000-8000-0000000001${String(made++).padStart(2, "0")}`;
  const parts = {
    store,
    system: () => "metric" as const,
    now: () => AT,
    memberId: () => undefined,
    check: checkGroup,
  };
  return { store, trays: createTrays(parts) };
}

const FIVE = {
  ...blankTrays("metric"),
  trays: "5",
  spacing: { amount: "60", unit: "cm" },
  catches: ["1", "4", "6,5", "4", "1"],
};

describe("a tray test as typed", () => {
  it("goes to the engine in grams and metres (60 cm; an ounce is 28.349523125 g, exact)", () => {
    expect(readTrays(FIVE, "metric").args).toEqual({
      catches_g: [1, 4, 6.5, 4, 1],
      tray_spacing_m: 0.6,
      pattern: "back_and_forth",
      cv_limit_share: 0.15,
    });
    const ounces = readTrays({ ...FIVE, unit: "oz", catches: ["1", "1", "1", "1", "1"] }, "metric");
    expect(ounces.args?.catches_g[0]).toBeCloseTo(28.349523125, 9);
  });

  it("asks nothing while a tray is blank, and says which once saving was tried", () => {
    const read = readTrays({ ...FIVE, catches: ["1", "", "6", "lots", "1"] }, "metric");
    expect(read.args).toBeNull();
    expect(Object.keys(read.unreadable.catches ?? {})).toEqual(["3"]);
    expect(Object.keys(read.errors.catches ?? {})).toEqual(["1", "3"]);
    expect(read.caught).toEqual([1, null, 6, null, 1]);
  });

  it("takes an empty tray as 0 and refuses less", () => {
    expect(readTrays({ ...FIVE, catches: ["0", "4", "6", "4", "0"] }, "metric").args?.catches_g[0]).toBe(0);
    expect(
      readTrays({ ...FIVE, catches: ["-1", "4", "6", "4", "0"] }, "metric").errors.catches?.[0],
    ).toContain("0 or more");
  });

  it("keeps what was written beyond the row when the row is made shorter", () => {
    const short = { ...FIVE, trays: "3" };
    expect(traysShown(short)).toBe(3);
    expect(readTrays(short, "metric").args?.catches_g).toEqual([1, 4, 6.5]);
    expect(short.catches).toHaveLength(5);
    expect(traysShown({ ...FIVE, trays: "many" })).toBe(5);
    expect(readTrays({ ...FIVE, trays: "99" }, "metric").errors.trays).toContain("3 to 41");
  });

  it("refuses a spacing nobody can set", () => {
    const read = readTrays({ ...FIVE, spacing: { amount: "60", unit: "m" } }, "metric");
    expect(read.args).toBeNull();
    expect(read.errors.spacing).toContain("5\u00a0m.");
  });
});

describe("keeping a tray test", () => {
  it("survives a reload half filled and is forgotten once it is in the log", async () => {
    const { store, trays } = model();
    const first = trays.test(SPREADER);
    await first.open();
    first.change(FIVE);
    first.setCatch(6, "2");
    const again = trays.test(SPREADER);
    await again.open();
    expect(again.resumed.value).toBe(true);
    expect(again.form.value?.catches).toEqual(["1", "4", "6,5", "4", "1", "", "2"]);
    expect(await again.save(1.2)).toBeTruthy();
    expect(store.kept.size).toBe(0);
  });

  it("writes an entry the book takes, with what was typed beside it", async () => {
    const { store, trays } = model();
    const test = trays.test(SPREADER);
    await test.open();
    test.change({ ...FIVE, dial: "7.5" });
    await test.save(1.2);
    const body = store.saved[0]?.[0]?.body ?? {};
    expect(checkGroup("entry", "tray_test", body, "metric")).toEqual({});
    expect(body).toMatchObject({
      kind: "tray_test",
      occurred_at: AT,
      spreader_id: SPREADER,
      catches_g: [1, 4, 6.5, 4, 1],
      tray_spacing_m: 0.6,
      widest_m: 1.2,
      dial: 7.5,
      typed: { catches: FIVE.catches, unit: "g", tray_spacing: FIVE.spacing },
    });
    expect(trays.past(SPREADER)).toHaveLength(1);
    expect(trays.past("another")).toEqual([]);
  });

  it("saves nothing while something is missing", async () => {
    const { store, trays } = model();
    const test = trays.test(SPREADER);
    await test.open();
    expect(test.errors.value).toEqual({});
    expect(await test.save(null)).toBeUndefined();
    expect(store.saved).toEqual([]);
    expect(test.errors.value["spacing"]).toContain("how far apart");
  });
});

describe("using a swath from a test", () => {
  it("writes it beside the speed that stands, as typed in the trays' unit", async () => {
    const { store, trays } = model();
    const walking = { swath_m: 1.5, swath_typed: { amount: "1.5", unit: "m" }, speed_m_s: 1.3, later: 1 };
    store.put({ t: "spreader", id: SPREADER, groups: groups({ walking }) });
    const row = store.row("spreader", SPREADER).value;
    if (!row) throw new Error("the row was put");
    const { op, back } = await trays.setSwath(row, FIVE, 1.2);
    const stands = () => store.row("spreader", SPREADER).value?.groups["walking"]?.value;
    expect(stands()).toEqual({
      swath_m: 1.2,
      swath_typed: { amount: "120", unit: "cm" },
      speed_m_s: 1.3,
      later: 1,
    });
    store.sent.add(op ?? "");
    await back?.();
    expect(stands()).toEqual(walking);
  });

  it("asks for the speed where none stands, and never fills it in by itself", async () => {
    const { store, trays } = model();
    store.put({ t: "spreader", id: SPREADER, groups: {} });
    const row = store.row("spreader", SPREADER).value;
    if (!row) throw new Error("the row was put");
    expect((await trays.setSwath(row, FIVE, 1.2)).wrong).toContain("Enter the walking speed");
    expect(store.saved).toEqual([]);
    const said = { ...FIVE, speed: { amount: "4.8", unit: "km_h" } };
    expect((await trays.setSwath(row, said, 1.2)).op).toBeTruthy();
  });
});
