import { describe, expect, it } from "vitest";
import { groups, refuses, settled } from "../../../records/fake-book";
import {
  chosen,
  engine,
  inTheYard,
  kg,
  LIKELY,
  left,
  passBodies,
  shelf,
  walkOver,
  weighed,
} from "./fake-spreading";
import { SPREAD_KEY } from "./spreading";
import type { SpreadDraft } from "./types";

/** Passes to go, as a screen follows them. */
async function toGo(spreading: Awaited<ReturnType<typeof inTheYard>>) {
  const shown = spreading.toGo.subscribe(() => undefined);
  await settled();
  shown();
  return spreading.toGo.value;
}

describe("setting off", () => {
  it("takes several zones as one ground and freezes the plan with the whole load", async () => {
    const spreading = await inTheYard();
    const stop = spreading.choice.subscribe(() => undefined);
    await settled();
    expect(spreading.choice.value.area_m2).toBe(200);
    stop();
    expect(spreading.draft.value?.plan).toMatchObject({
      area_m2: 200,
      mass_kg: 10,
      load_kg: 10,
      load_kg_m2: 0.05,
      passes: 2,
    });
    expect(spreading.draft.value?.pass).toMatchObject({ number: 1, dial: 6, start_kg: 10, expect: LIKELY });
    expect(spreading.step.value).toBe("yard");
  });

  it("refuses a load above the aim and says what is allowed", async () => {
    const spreading = await chosen();
    await spreading.change({ loaded: kg("11") });
    expect(await spreading.setOff()).toBe(false);
    expect(spreading.step.value).toBe("choose");
    const shown = spreading.aim.subscribe(() => undefined);
    await settled();
    expect(spreading.load.value.error).toContain("at most 10");
    shown();
  });

  it("works the dial out for what was really loaded", async () => {
    const answers = engine();
    const spreading = await chosen(shelf(), answers);
    await spreading.change({ loaded: kg("8") });
    await spreading.setOff();
    const ask = answers.askedOf("spreading.start").at(-1);
    expect(ask?.target_kg_m2).toBeCloseTo(8 / 200, 12);
    expect(spreading.draft.value?.pass?.start_kg).toBe(8);
  });

  it("keeps the engine's refusal and stays where it was", async () => {
    const spreading = await chosen(shelf(), engine({ "label.aim": refuses("more than the label") }));
    expect(await spreading.setOff()).toBe(false);
    expect(spreading.refused.value).toBe("more than the label");
    expect(spreading.draft.value?.plan).toBeNull();
  });

  it("asks for a coverage before it aims by the label", async () => {
    const store = shelf();
    const label = groups({ name: { name: "Loose", sort: "lime" }, label: { net_kg: 20 } });
    store.put({ t: "product", id: "loose", groups: label });
    const spreading = await chosen(store);
    await spreading.change({ product_id: "loose" });
    expect(spreading.trouble.value).toContain("coverage");
    await spreading.change({ aim: { ...(spreading.draft.value as SpreadDraft).aim, kind: "bag" } });
    expect(spreading.trouble.value).toBeUndefined();
  });
});

describe("a pass in the book", () => {
  it("writes the body that fixtures/kinds/ asks for", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    await weighed(spreading, "6.5");
    expect(passBodies(store)[0]).toEqual({
      kind: "pass",
      occurred_at: "2026-05-14T18:05:00+02:00",
      by: "me",
      zone_ids: ["verge", "long"],
      spread_id: spreading.draft.value?.id,
      product_id: "slow",
      sort: "fertilizer",
      spreader_id: "rotary",
      number: 1,
      passes: 2,
      pattern: "plain",
      dial: 6,
      dial_scale: { lowest: 1, highest: 24, step: 0.5 },
      area_m2: 200,
      start_kg: 10,
      left_kg: 6.5,
      used_kg: 3.5,
      left_typed: { way: "scale", amount: "6.5", unit: "kg" },
      measured: "scale",
      bulk_density_kg_m3: 750,
      granules: "medium",
      swath_m: 1.5,
      speed_m_s: 1.3,
    });
    expect(spreading.step.value).toBe("next");
  });

  it("refuses more left than there was and keeps what was typed", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    expect(await weighed(spreading, "12")).toBe(false);
    const shown = spreading.reading.subscribe(() => undefined);
    await settled();
    expect(spreading.reading.value).toMatchObject({ ok: false, field: "weight" });
    expect((spreading.reading.value as any).message).toContain("You had 10");
    shown();
    expect(spreading.draft.value?.left.weight.amount).toBe("12");
    expect(passBodies(store)).toHaveLength(0);
  });

  it("reads a level through the engine and adds what is still in the bag", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    await spreading.go("left");
    await spreading.change(left(spreading.draft.value, { way: "level", level_share: 0.5, in_bag: kg("2") }));
    expect(await spreading.record()).toBe(true);
    expect(passBodies(store)[0]).toMatchObject({
      left_kg: 6,
      used_kg: 4,
      measured: "level",
      bulk_density_kg_m3: 750,
    });
    expect(spreading.draft.value?.left_sd_kg).toBe(0.5);
  });

  it("counts handfuls", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    await spreading.go("left");
    await spreading.change(
      left(spreading.draft.value, { way: "handfuls", handfuls: "5", handful: { amount: "100", unit: "g" } }),
    );
    await spreading.record();
    expect(passBodies(store)[0]).toMatchObject({ left_kg: 0.5, measured: "handfuls" });
  });

  it("notes where it ran out and plans no further pass", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    await spreading.go("left");
    await spreading.change(left(spreading.draft.value, { way: "ran_out", covered: "9 of 12" }));
    await spreading.record();
    expect(passBodies(store)[0]).toMatchObject({ ran_out: true, area_m2: 150, used_kg: 10, left_kg: 0 });
    expect(await toGo(spreading)).toBe(0);
    expect(await spreading.walkOn()).toBe(false);
  });

  it("lets a pass on which nothing came out be walked again", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    await spreading.go("left");
    await spreading.change(left(spreading.draft.value, { way: "nothing" }));
    await spreading.record();
    expect(passBodies(store)[0]).toMatchObject({ nothing_came: true, used_kg: 0, left_kg: 10 });
    expect(await toGo(spreading)).toBe(2);
    await spreading.walkOn();
    expect(spreading.draft.value?.pass).toMatchObject({ number: 2, dial: 7.5, start_kg: 10 });
  });

  it("is not entered twice by two quick taps", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    await spreading.change(left(spreading.draft.value, { way: "scale", weight: kg("6") }));
    await Promise.all([spreading.record(), spreading.record()]);
    await spreading.record();
    expect(passBodies(store)).toHaveLength(1);
  });

  it("keeps the dial a person set by hand and drops what was expected of the other", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    await spreading.setDial(8);
    expect(spreading.draft.value?.pass).toMatchObject({ dial: 8, expect: null });
    await spreading.setDial(6);
    expect(spreading.draft.value?.pass).toMatchObject({ dial: 6, expect: LIKELY });
    await spreading.setDial(8);
    await weighed(spreading, "5");
    expect(passBodies(store)[0].dial).toBe(8);
  });

  it("gives the next pass this walk's own passes as history, oldest first", async () => {
    const answers = engine();
    const spreading = await inTheYard(shelf(), answers);
    await weighed(spreading, "6");
    await spreading.walkOn();
    const args = answers.askedOf("spreading.next").at(-1);
    expect(args).toMatchObject({ left_kg: 6, passes_to_go: 1, target_kg_m2: 0.05, area_m2: 200 });
    expect(args?.history).toEqual([
      {
        product: "slow",
        dial: 6,
        area_m2: 200,
        used_kg: 4,
        measured: "scale",
        bulk_density_kg_m3: 750,
        granules: "medium",
        left_kg: 6,
        swath_m: 1.5,
        speed_m_s: 1.3,
        sort: "fertilizer",
      },
    ]);
    expect(args).toMatchObject({ used_kg: 4, product: { sort: "fertilizer" } });
    expect(spreading.draft.value?.pass).toMatchObject({ number: 2, dial: 7.5, start_kg: 6 });
    expect(spreading.draft.value?.pass?.why).toContain("this product");
  });
});

describe("taking a pass back", () => {
  it("withdraws it while unsent and opens it again with what was typed", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    await weighed(spreading, "6");
    const [pass] = spreading.passes.value;
    await spreading.takeBack();
    expect(store.row("entry", pass?.id ?? "").value).toBeUndefined();
    expect(spreading.passes.value).toEqual([]);
    expect(spreading.step.value).toBe("left");
    expect(spreading.draft.value?.left.weight.amount).toBe("6");
  });

  it("strikes it out once sent, and the pass entered anew is another entry", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    await weighed(spreading, "6");
    const [first] = spreading.passes.value;
    store.sent.add(spreading.draft.value?.ops[first?.id ?? ""] ?? "");
    await spreading.takeBack();
    expect(store.row("entry", first?.id ?? "").value?.groups["void"]?.value).toMatchObject({ void: true });
    await weighed(spreading, "7");
    expect(spreading.passes.value).toMatchObject([{ left_kg: 7 }]);
    expect(spreading.passes.value[0]?.id).not.toBe(first?.id);
  });
});

describe("a phone that dies on the way", () => {
  it("stands in the yard again with dial and pass after a reload", async () => {
    const store = shelf();
    const before = await inTheYard(store);
    const after = walkOver(store);
    await after.open();
    expect(after.draft.value).toEqual(before.draft.value);
    expect(after.step.value).toBe("yard");
  });

  it("knows the pass is in the book though the draft was never updated", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    await spreading.go("left");
    await spreading.change(left(spreading.draft.value, { weight: kg("6") }));
    const stale = structuredClone(store.kept.get(SPREAD_KEY));
    await spreading.record();
    await store.drafts.put(SPREAD_KEY, stale);
    const after = walkOver(store);
    await after.open();
    expect(after.step.value).toBe("next");
    expect(after.passes.value).toHaveLength(1);
  });

  it("knows the walk is finished though the draft was never put away", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    await weighed(spreading, "0.3");
    await spreading.finish();
    const after = walkOver(store);
    await after.open();
    expect(after.step.value).toBe("finish");
    expect(after.finished.value).toBe(true);
  });

  it("opens the pass again when another phone struck it out", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    await weighed(spreading, "6");
    const [pass] = spreading.passes.value;
    await store.save([{ t: "entry", id: pass?.id ?? "", set: { void: { void: true } } }]);
    expect(spreading.step.value).toBe("left");
  });
});
