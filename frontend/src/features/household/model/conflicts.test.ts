import { describe, expect, it } from "vitest";
import { fakeBook, groups } from "../../../records/fake-book";
import { createConflicts } from "./conflicts";

const CUT = (mm: number) => ({ cut_height_mm: mm });

function lost(id: string, group: string, value: object, version: string, won: string, extra: object = {}) {
  const body = {
    t: "zone",
    id: "z",
    group,
    won,
    at: "2026-05-14T10:00:00Z",
    lost: { value, version, ...extra },
  };
  return { t: "conflict", id, body };
}

function book() {
  const store = fakeBook();
  const zone = groups({ name: { name: "Long side" } });
  zone["cut"] = { value: CUT(75), version: "won", hlc: "0000000000200-0000-aaaaaaaa" };
  store.put({ t: "zone", id: "z", groups: zone });
  return { store, model: createConflicts({ store }) };
}

describe("S2 what two phones wrote apart", () => {
  it("F29 offers the losing value of the same group, with who wrote either", async () => {
    const { store, model } = book();
    store.put(
      lost("c", "cut", CUT(60), "lost", "won", {
        hlc: "0000000000100-0000-bbbbbbbb",
        by: "ash",
        won_by: "rowan",
      }),
    );
    const [matter] = model.matters.value;
    expect(matter).toMatchObject({ standing: CUT(75), by: "rowan", hlc: "0000000000200-0000-aaaaaaaa" });
    expect(matter?.others).toEqual([
      { id: "c", value: CUT(60), by: "ash", hlc: "0000000000100-0000-bbbbbbbb" },
    ]);
    const [other] = matter?.others ?? [];
    if (!matter || !other) return expect.fail("nothing offered");
    await model.restore(matter, other);
    expect(store.row("zone", "z").value?.groups["cut"]?.value).toEqual(CUT(60));
    expect(model.matters.value).toEqual([]);
  });

  it("closes by keeping what stands, without changing it", async () => {
    const { store, model } = book();
    store.put(lost("c", "cut", CUT(60), "lost", "won"));
    const [matter] = model.matters.value;
    if (!matter) return expect.fail("nothing offered");
    await model.keep(matter);
    expect(store.saved).toEqual([[{ t: "zone", id: "z", set: { cut: CUT(75) } }]]);
    expect(model.matters.value).toEqual([]);
  });

  it("keeps offering a loser whose winner lost in its turn, all of one group in one matter", async () => {
    const { store, model } = book();
    store.put(lost("c1", "cut", CUT(50), "first", "second"));
    store.put(lost("c2", "cut", CUT(60), "second", "won"));
    const [matter, ...more] = model.matters.value;
    expect(more).toEqual([]);
    expect(matter?.others.map(({ value }) => value)).toEqual([CUT(50), CUT(60)]);
    if (!matter) return expect.fail("nothing offered");
    await model.keep(matter);
    expect(model.matters.value).toEqual([]);
  });

  it("says nothing of what was settled or written anew since", () => {
    const { store, model } = book();
    store.put(lost("c", "cut", CUT(60), "lost", "earlier"));
    expect(model.matters.value).toEqual([]);
  });

  it("F31 offers a deletion that met an edit made before it, until the record's own deletion mark is written", async () => {
    const { store, model } = book();
    // The deletion came later than the edit it had not seen: the record has no mark of its own.
    store.put(
      lost("c", "deleted", { deleted: true }, "deletion", "won", {
        hlc: "0000000000300-0000-bbbbbbbb",
        by: "ash",
      }),
    );
    const [matter] = model.matters.value;
    expect(matter).toMatchObject({ group: "deleted", standing: undefined, edited: ["cut"] });
    if (!matter) return expect.fail("nothing offered");
    await model.keep(matter);
    expect(store.saved[0]).toEqual([{ t: "zone", id: "z", set: { deleted: { deleted: false } } }]);
  });

  it("F31 closes once the mark is later than the deletion, and stays open while it is older", () => {
    const { store, model } = book();
    store.put(
      lost("c", "deleted", { deleted: true }, "deletion", "won", { hlc: "0000000000300-0000-bbbbbbbb" }),
    );
    const marked = (hlc: string) =>
      store.put({
        t: "zone",
        id: "z",
        groups: { deleted: { value: { deleted: false }, version: "mark", hlc } },
      });
    marked("0000000000100-0000-aaaaaaaa");
    expect(model.matters.value.length).toBe(1);
    marked("0000000000400-0000-aaaaaaaa");
    expect(model.matters.value).toEqual([]);
  });

  it("F31 takes the record out where the person prefers the deletion", async () => {
    const { store, model } = book();
    store.put(
      lost("c", "deleted", { deleted: true }, "deletion", "won", { hlc: "0000000000300-0000-bbbbbbbb" }),
    );
    const [matter] = model.matters.value;
    const [other] = matter?.others ?? [];
    if (!matter || !other) return expect.fail("nothing offered");
    await model.restore(matter, other);
    expect(store.row("zone", "z").value?.groups["deleted"]?.value).toEqual({ deleted: true });
  });
});
