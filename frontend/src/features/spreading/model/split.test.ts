/** What each zone got, by the ground each pass really covered: the split is the engine's own. */
import { describe, expect, it } from "vitest";
import { groups } from "../../../records/fake-book";
import { realEngine } from "../../../records/real-engine";
import { engine, inTheYard, left, shelf, type Walk, weighed } from "./fake-spreading";

const splitting = () => engine({ "spreading.split": (args) => realEngine("spreading.split", args) });

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

async function ranOutAfterTheFirst(walk: Walk) {
  await walk.count();
  await walk.ranOut();
  return walk.record();
}

async function walked(walk: Walk, store: Book) {
  await walk.finish();
  const bodies = store.saved.flat().map(({ body }) => body as any);
  return bodies.find((body) => body?.kind === "walk");
}

const grams = (body: any) => body.zones.map(({ n_kg_m2 }: any) => Math.round(n_kg_m2 * 1e9) / 1e6);

describe("what each zone got", () => {
  it("is nothing where the walk ran out before it: 11.5 and 0 g of nitrogen", async () => {
    const store = twoZones();
    const walk = await started(store);
    await walk.go("left");
    // 10 kg were loaded; half stood aside and never went out.
    const { plan, pass } = walk.draft.value ?? {};
    if (!plan || !pass) throw new Error("no walk on foot");
    await walk.change({
      plan: { ...plan, load_kg: 5 },
      pass: { ...pass, start_kg: 5, part: { ...pass.part, there_kg: 5 } },
    });
    await ranOutAfterTheFirst(walk);
    const body = await walked(walk, store);
    expect(grams(body)).toEqual([11.5, 0]);
    expect(body.zones.map(({ used_kg }: any) => used_kg)).toEqual([5, 0]);
    expect(body.zone_ids).toEqual(["verge"]);
  });

  it("is each pass's own where passes covered different ground", async () => {
    const store = twoZones();
    const walk = await started(store);
    await weighed(walk, "6");
    await walk.walkOn();
    await ranOutAfterTheFirst(walk);
    const body = await walked(walk, store);
    expect(body.zones.map(({ used_kg }: any) => used_kg)).toEqual([8, 2]);
    expect(body).toMatchObject({ used_kg: 10, zone_ids: ["verge", "long"] });
  });

  it("ends where a pass was ended early", async () => {
    const store = twoZones();
    const walk = await started(store);
    await walk.count();
    await walk.go("left");
    const { left: form } = walk.draft.value ?? {};
    if (!form) throw new Error("no walk on foot");
    await walk.change(
      left(walk.draft.value, { way: "scale", weight: { amount: "8", unit: "kg" }, whole: false }),
    );
    await walk.record();
    expect((await walked(walk, store)).zones.map(({ used_kg }: any) => used_kg)).toEqual([2, 0]);
  });

  it("counts no pass that was taken back, and all of one that was stopped for the night", async () => {
    const store = twoZones();
    const walk = await started(store);
    await ranOutAfterTheFirst(walk);
    await walk.takeBack();
    await walk.count();
    await walk.stop();
    await walk.resume();
    await walk.count();
    await weighed(walk, "4");
    expect((await walked(walk, store)).zones.map(({ used_kg }: any) => used_kg)).toEqual([3, 3]);
  });

  it("is named by the plan's zones where nothing came at all", async () => {
    const store = twoZones();
    const walk = await started(store);
    await walk.go("left");
    await walk.change(left(walk.draft.value, { way: "nothing" }));
    await walk.record();
    expect(await walked(walk, store)).toMatchObject({ used_kg: 0, zone_ids: ["verge", "long"] });
  });
});
