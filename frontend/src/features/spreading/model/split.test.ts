/** What each zone got, by the ground each pass really covered: the split is the engine's own. */
import { describe, expect, it } from "vitest";
import { realEngine } from "../../../platform/engine/real-engine";
import { groups } from "../../../records/fake-book";
import { engine, inTheYard, left, type Spreading, shelf, weighed } from "./fake-spreading";

const splitting = () => engine({ "spread.finish": (args) => realEngine("spread.finish", args) });

/** Two zones of 100 m2. */
function twoZones() {
  const store = shelf();
  for (const [id, name] of [
    ["verge", "Verge"],
    ["long", "Long"],
  ] as const)
    store.put({ t: "zone", id, groups: groups({ name: { name }, ground: { area_m2: 100 } }) });
  return store;
}

type Book = ReturnType<typeof twoZones>;

const started = (store: Book) => inTheYard(store, splitting());

async function ranOutAfterTheFirst(spreading: Spreading) {
  await spreading.count();
  await spreading.ranOut();
  return spreading.record();
}

async function walked(spreading: Spreading, store: Book) {
  await spreading.finish();
  const bodies = store.saved.flat().map(({ body }) => body as any);
  return bodies.find((body) => body?.kind === "spread");
}

const grams = (body: any) => body.zones.map(({ n_kg_m2 }: any) => Math.round(n_kg_m2 * 1e9) / 1e6);

describe("what each zone got", () => {
  it("is nothing where the walk ran out before it: 11.5 and 0 g of nitrogen", async () => {
    const store = twoZones();
    const spreading = await started(store);
    await spreading.go("left");
    // 10 kg were loaded; half stood aside and never went out.
    const { plan, pass } = spreading.draft.value ?? {};
    if (!plan || !pass) throw new Error("no walk on foot");
    await spreading.change({
      plan: { ...plan, load_kg: 5 },
      pass: { ...pass, start_kg: 5, part: { ...pass.part, there_kg: 5 } },
    });
    await ranOutAfterTheFirst(spreading);
    const body = await walked(spreading, store);
    expect(grams(body)).toEqual([11.5, 0]);
    expect(body.zones.map(({ used_kg }: any) => used_kg)).toEqual([5, 0]);
    expect(body.zone_ids).toEqual(["verge"]);
  });

  it("is each pass's own where passes covered different ground", async () => {
    const store = twoZones();
    const spreading = await started(store);
    await weighed(spreading, "6");
    await spreading.walkOn();
    await ranOutAfterTheFirst(spreading);
    const body = await walked(spreading, store);
    expect(body.zones.map(({ used_kg }: any) => used_kg)).toEqual([8, 2]);
    expect(body).toMatchObject({ used_kg: 10, zone_ids: ["verge", "long"] });
  });

  it("ends where a pass was ended early", async () => {
    const store = twoZones();
    const spreading = await started(store);
    await spreading.count();
    await spreading.go("left");
    const { left: form } = spreading.draft.value ?? {};
    if (!form) throw new Error("no walk on foot");
    await spreading.change(
      left(spreading.draft.value, { way: "scale", weight: { amount: "8", unit: "kg" }, whole: false }),
    );
    await spreading.record();
    expect((await walked(spreading, store)).zones.map(({ used_kg }: any) => used_kg)).toEqual([2, 0]);
  });

  it("counts no pass that was taken back, and all of one that was stopped for the night", async () => {
    const store = twoZones();
    const spreading = await started(store);
    await ranOutAfterTheFirst(spreading);
    await spreading.takeBack();
    await spreading.count();
    await spreading.stop();
    await spreading.resume();
    await spreading.count();
    await weighed(spreading, "4");
    expect((await walked(spreading, store)).zones.map(({ used_kg }: any) => used_kg)).toEqual([3, 3]);
  });

  it("is named by the plan's zones where nothing came at all", async () => {
    const store = twoZones();
    const spreading = await started(store);
    await spreading.go("left");
    await spreading.change(left(spreading.draft.value, { way: "nothing" }));
    await spreading.record();
    expect(await walked(spreading, store)).toMatchObject({ used_kg: 0, zone_ids: ["verge", "long"] });
  });
});
