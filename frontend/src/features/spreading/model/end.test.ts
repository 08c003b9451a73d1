import { describe, expect, it } from "vitest";
import { groups, refuses } from "../../../records/fake-book";
import { confirm, isConfirmed } from "./before/cautions";
import { chosen, engine, inTheYard, shelf, weighed } from "./fake-spreading";
import { SPREAD_KEY } from "./spreading";
import { readPart } from "./yard/left";

describe("finishing", () => {
  it("writes one walk entry with what each zone got and the dial to remember", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    await weighed(spreading, "6");
    await spreading.walkOn();
    await weighed(spreading, "0.5");
    await spreading.finish();
    await spreading.finish();
    const jobs = store.saved
      .flat()
      .flatMap(({ id, body }) => ((body as any)?.kind === "spread" ? [{ id, body }] : []));
    expect(jobs).toHaveLength(1);
    expect(jobs[0]?.id).toBe(spreading.draft.value?.id);
    expect(jobs[0]?.body).toMatchObject({
      kind: "spread",
      zone_ids: ["verge", "long"],
      area_m2: 200,
      target_kg_m2: 0.05,
      used_kg: 9.5,
      sort: "fertilizer",
      n_percent: 23,
      slow_n_share: 0.5,
      last_dial: 7.5,
      passes: 2,
    });
    const zones = (jobs[0]?.body as any)?.zones;
    expect(zones[0]).toMatchObject({ zone_id: "verge", area_m2: 120, n_kg_m2: 0.01 });
    await spreading.putAway();
    expect(store.kept.has(SPREAD_KEY)).toBe(false);
  });

  it("writes nothing while the engine cannot add the walk up", async () => {
    const store = shelf();
    const spreading = await inTheYard(store, engine({ "spread.finish": refuses("later") }));
    await weighed(spreading, "6");
    expect(await spreading.finish()).toBe(false);
    expect(spreading.refused.value).toBe("later");
    expect(spreading.finished.value).toBe(false);
  });
});

describe("warnings and cautions", () => {
  it("tells of lately fed ground, for the person to judge", async () => {
    const store = shelf();
    const fed = {
      kind: "spread",
      zone_ids: ["verge"],
      product_id: "slow",
      occurred_at: "2026-04-20T10:00:00+02:00",
    };
    const other = { ...fed, zone_ids: ["long"], product_id: "x", occurred_at: "2026-05-10T10:00:00+02:00" };
    store.put({ t: "entry", id: "a", body: fed });
    store.put({ t: "entry", id: "b", body: other });
    const spreading = await chosen(store);
    expect(spreading.warnings.value).toMatchObject([{ days: 4, zone: { id: "long" } }]);
  });

  it("does not warn of an application that was struck out", async () => {
    const store = shelf();
    const fed = {
      kind: "spread",
      zone_ids: ["verge"],
      product_id: "slow",
      occurred_at: "2026-05-13T10:00:00+02:00",
    };
    store.put({ t: "entry", id: "a", body: fed, groups: groups({ void: { void: true } }) });
    const spreading = await chosen(store);
    expect(spreading.warnings.value).toEqual([]);
  });

  it("asks to stay back from water only where a zone runs down to it", async () => {
    const spreading = await chosen();
    const keys = () => spreading.cautions.value.flatMap(({ cautions }) => cautions.map(({ key }) => key));
    expect(keys()).toContain("water");
    expect(keys()).toContain("signal_word");
    expect(keys()).not.toContain("dust");
    await spreading.change({ zone_ids: ["verge"] });
    expect(keys()).not.toContain("water");
  });

  it("asks for care on a slope only where a zone is steep, and for dry product always", async () => {
    const store = shelf();
    store.put({
      t: "zone",
      id: "bank",
      groups: groups({ name: { name: "Bank" }, ground: { area_m2: 40 }, site: { slope: "steep" } }),
    });
    const spreading = await chosen(store);
    const keys = () => spreading.cautions.value.flatMap(({ cautions }) => cautions.map(({ key }) => key));
    expect(keys()).not.toContain("slope");
    expect(keys()).toContain("lumps");
    await spreading.change({ zone_ids: ["bank"] });
    expect(keys()).toContain("slope");
    expect(keys()).not.toContain("water");
  });

  it("has four headings, and a tick stands for every line beneath it", async () => {
    const spreading = await chosen();
    const [label, you, place, hopper] = spreading.cautions.value;
    expect(spreading.cautions.value).toHaveLength(4);
    expect(you?.cautions.map(({ key }) => key)).toEqual(["gloves", "eyes"]);
    if (!label || !you || !place || !hopper) throw new Error("a heading is missing");
    const ticked = confirm(you, ["label"], true);
    expect(ticked).toEqual(["label", "gloves", "eyes"]);
    expect(isConfirmed(you, ticked)).toBe(true);
    expect(isConfirmed(label, ticked)).toBe(false);
    expect(confirm(you, ticked, false)).toEqual(["label"]);
  });

  it("asks anew where a line has come to a heading since it was ticked", async () => {
    const spreading = await chosen();
    await spreading.change({ zone_ids: ["verge"] });
    const place = () => {
      const found = spreading.cautions.value.find(({ key }) => key === "place");
      if (!found) throw new Error("the place has no cautions");
      return found;
    };
    const ticked = confirm(place(), [], true);
    expect(isConfirmed(place(), ticked)).toBe(true);
    await spreading.change({ zone_ids: ["verge", "long"] });
    expect(isConfirmed(place(), ticked)).toBe(false);
  });
});

describe("how much of the ground was covered", () => {
  it.each([
    ["60", 60, 100],
    ["60 %", 60, 100],
    ["62.5", 125, 200],
    ["9 of 12", 9, 12],
    ["9/12", 9, 12],
    ["4 1/2 of 9", 9, 18],
    ["100", 100, 100],
  ])("reads %s", (text, walked, of) => expect(readPart(text)).toEqual({ walked, of }));

  it.each(["", "0", "120", "none", "5 of 0", "33.333", "1 of 5000"])(
    "refuses %s and says what is allowed",
    (text) => expect(readPart(text)).toMatchObject({ message: expect.stringContaining("9 of 14") }),
  );
});
