// @vitest-environment node
import { describe, expect, it } from "vitest";
import { fakeBook, groups } from "../../../records/fake-book";
import { createOwnDays, type Day, laidTogether, type Read } from "./own-days";

const day = (date: string, max_c = 14): Day => ({ date, max_c });

function read(days: Day[]): Read {
  const value = { days, columns: [], ignored: [], needs: [], problems: [], left_out: 0 };
  return { value, working: [], engine: "0" } as unknown as Read;
}

function open(days: Day[]) {
  const store = fakeBook();
  const own = createOwnDays({ store, day: () => "2026-06-01", engine: { call: async () => read(days) } });
  return { store, own };
}

const month = (id: string, hlc: string, days: Day[]) => ({
  t: "weather_month",
  id,
  groups: { days: { value: { month: "2026-05-01", days }, version: "v", hlc } },
});

describe("days of a table", () => {
  it("are not in the book before they are taken", async () => {
    const { store, own } = open([day("2026-05-01")]);
    await own.look("days.csv", "table");
    expect(store.saved).toEqual([]);
    expect((await own.take())?.count).toBe(1);
    expect(own.looked.value).toBeUndefined();
  });

  it("are a record a month", async () => {
    const { store, own } = open([day("2026-04-30"), day("2026-05-01"), day("2026-05-02")]);
    await own.look("days.csv", "table");
    await own.take();
    const sets = store.saved.flat().map(({ set }) => set?.["days"] as { month: string; days: Day[] });
    expect(sets.map(({ month, days }) => [month, days.length])).toEqual([
      ["2026-04-01", 1],
      ["2026-05-01", 2],
    ]);
  });

  it("are laid over those of their month, and the others stay", async () => {
    const { store, own } = open([day("2026-05-02", 20)]);
    store.put({
      t: "weather_month",
      id: "m",
      groups: groups({ days: { month: "2026-05-01", days: [day("2026-05-01"), day("2026-05-02")] } }),
    });
    await own.look("days.csv", "table");
    expect(own.replaced([day("2026-05-02")])).toBe(1);
    await own.take();
    expect(store.saved.flat()[0]).toMatchObject({
      id: "m",
      set: { days: { days: [day("2026-05-01"), day("2026-05-02", 20)] } },
    });
  });

  it("are taken back as they were, once they were sent too", async () => {
    const { store, own } = open([day("2026-04-30"), day("2026-05-02", 20)]);
    const before = { month: "2026-05-01", days: [day("2026-05-02")] };
    store.put({ t: "weather_month", id: "m", groups: groups({ days: before }) });
    store.withdraw = async () => false;
    await own.look("days.csv", "table");
    await (await own.take())?.back();
    const [april, may] = store.saved.at(-1) ?? [];
    expect(april?.set).toEqual({ deleted: { deleted: true } });
    expect(may).toMatchObject({ id: "m", set: { days: before } });
  });

  it("of two phones that imported one month apart, the later written counts, and no day is lost", () => {
    const rows = [
      month("b", "2", [day("2026-05-02", 20)]),
      month("a", "1", [day("2026-05-01"), day("2026-05-02", 9)]),
    ];
    const together = laidTogether(rows as never);
    expect([...together.values()]).toEqual([day("2026-05-01"), day("2026-05-02", 20)]);
  });
});
