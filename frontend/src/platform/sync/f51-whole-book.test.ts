// @vitest-environment node
import { describe, expect, it, vi } from "vitest";
import { newId } from "../store/core/uuid7";
import { counters, fakeHousehold, nameOf, outboxOf, shownIn, zone } from "./fake/household";
import { json } from "./fake/server";

const household = fakeHousehold();
const book = () => household.book;
const onServer = () => [...household.server.records.keys()].sort();
const pages = () => household.server.asked.filter((asked) => asked.startsWith("bootstrap"));
const repairs = () => household.server.asked.filter((asked) => asked.startsWith("digest"));
const boot = async () => (await book().db.meta.get("boot")) as { after: string | null } | undefined;
const gone = () => Response.error();

/** A book of `count` entries and one zone, whose numbers have run on through many edits. */
function oldBook(count: number): void {
  household.server.page = 3;
  household.server.wholePage = 4;
  for (let at = 0; at < count; at++) household.server.write("entry", newId(), { body: { kind: "mow", at } });
  household.server.write("zone", newId());
  household.server.head += 5000;
}

describe("F51 a large book is fetched whole", () => {
  it("page by page, the cursor moving only with the last; then the rest is pulled", async () => {
    oldBook(20);
    const seen: { cursor: number; rows: number }[] = [];
    for (let at = 0; at < 6; at++) {
      household.server.pageFaults.push(async (reached) => {
        seen.push({ cursor: (await counters(book())).cursor, rows: await book().db.base.count() });
        return reached();
      });
    }
    const { head } = household.server;
    await household.sync.start();
    const first = seen[0];
    expect(first?.cursor).toBeLessThan(21);
    expect(seen.map((one) => one.cursor)).toEqual(seen.map(() => first?.cursor));
    expect(seen.at(-1)?.rows).toBeGreaterThan(first?.rows ?? 0);
    expect(await shownIn(book())).toEqual(onServer());
    expect((await counters(book())).cursor).toBe(head);
    expect(await boot()).toBeUndefined();
    expect(household.server.pushes).toHaveLength(2);
  });

  it("and settings are there first, then the newest entries, readable meanwhile", async () => {
    oldBook(20);
    const [id] = [...household.server.records.values()]
      .filter((record) => record.t === "zone")
      .map((one) => one.id);
    const newest = [...household.server.records.values()]
      .filter((one) => one.t === "entry")
      .map((one) => one.id);
    household.server.pageFaults.push((reached) => reached(), gone);
    await household.sync.start();
    const shown = await shownIn(book());
    expect(shown).toContain(`zone:${id}`);
    expect(shown).toContain(`entry:${newest.sort().at(-1)}`);
    expect(shown.length).toBeLessThan(21);
  });

  it("and goes on after a cut at 60 %, in a new start too: no page is fetched twice", async () => {
    oldBook(20);
    household.server.pageFaults.push(
      (reached) => reached(),
      (reached) => reached(),
      (reached) => reached(),
      gone,
    );
    await household.sync.start();
    expect(await boot()).toBeDefined();
    household.sync.stop();
    const again = household.phone(book().name);
    await again.sync.start();
    expect(await shownIn(again.book)).toEqual(onServer());
    expect(pages().length).toBe(6 + 1);
    expect(new Set(pages()).size).toBe(6);
  });

  it("F11 in one transaction a page with its progress: a phone that dies in between asks for that page again", async () => {
    oldBook(20);
    household.server.pageFaults.push((reached) => reached());
    const died = vi.spyOn(book().db.meta, "put").mockImplementation((row) => {
      if (row.key === "boot" && row.after !== null) throw new Error("power cut");
      return book().db.table("meta").bulkPut([row]) as never;
    });
    await household.sync.start();
    const before = await book().db.base.count();
    expect(await boot()).toMatchObject({ after: null });
    died.mockRestore();
    await household.world.runNext();
    expect(before).toBeLessThan(8);
    expect(await shownIn(book())).toEqual(onServer());
  });

  it.each([
    ["cut half way", (whole: string) => whole.slice(0, whole.length / 2)],
    ["without its last line", (whole: string) => whole.split("\n").slice(0, -2).join("\n")],
    ["of somebody else", () => '{"hello": "guest"}\n{"after": null}\n'],
  ])("F5 F19 a page %s is thrown away", async (_name, spoilt) => {
    oldBook(20);
    household.server.pageFaults.push(async (reached) => {
      const whole = await reached().text();
      return new Response(spoilt(whole), { headers: { "Content-Type": "application/x-ndjson" } });
    });
    await household.sync.start();
    expect(await boot()).toMatchObject({ after: null });
    expect(await book().db.base.count()).toBe(3);
    await household.world.runNext();
    expect(await shownIn(book())).toEqual(onServer());
  });

  it("while what waits goes out, and rows of unsent entries stay (P8, P9)", async () => {
    oldBook(20);
    const id = newId();
    let saved: Promise<unknown> = Promise.resolve();
    household.server.pageFaults.push(async (reached) => {
      saved = book().save([zone(id, "mine")]);
      await saved;
      return reached();
    });
    household.server.pageFaults.push((reached) => {
      expect(household.server.records.has(`zone:${id}`)).toBe(true);
      return reached();
    });
    book().rows("zone");
    await household.sync.start();
    expect(nameOf(book(), id)).toBe("mine");
    expect(await outboxOf(book())).toEqual([]);
    expect(await shownIn(book())).toEqual(onServer());
  });

  it("P9 and what is saved in the very moment the fetching begins still goes out", async () => {
    oldBook(20);
    const id = newId();
    household.server.faults.push(async (reached) => {
      const answer = reached();
      await book().save([zone(id, "mine")]);
      return answer;
    });
    await household.sync.start();
    expect(household.server.records.has(`zone:${id}`)).toBe(true);
    expect(await shownIn(book())).toEqual(onServer());
  });

  it("begins again where the server no longer knows the token, and by rounds where it knows no such pages", async () => {
    oldBook(20);
    household.server.pageFaults.push(
      (reached) => reached(),
      () => json(400, { code: "invalid", message: "Unknown token." }),
    );
    await household.sync.start();
    expect(await shownIn(book())).toEqual(onServer());
    const other = household.phone();
    household.server.pageFaults.push(() =>
      json(404, { code: "not_found", message: "There is nothing here." }),
    );
    await other.sync.start();
    expect(await shownIn(other.book)).toEqual(onServer());
  });

  it("F22 begins again when the server is restored between two pages", async () => {
    oldBook(20);
    const backup = household.server.backup();
    const lost = household.server.write("zone", newId());
    household.server.pageFaults.push((reached) => {
      const page = reached();
      household.server.restore(backup);
      return page;
    });
    await household.sync.start();
    expect(await shownIn(book())).toEqual(onServer());
    expect(await shownIn(book())).not.toContain(`zone:${lost.id}`);
    expect((await counters(book())).epoch).toBe(household.server.epoch);
  });
});

describe("F13 an edit between two pages", () => {
  it("of a record whose page has come is pulled afterwards, and no older copy comes over a newer one", async () => {
    oldBook(20);
    const { id } = [...household.server.records.values()].find((record) => record.t === "zone") ?? { id: "" };
    const edit = (name: string) =>
      household.server.write("zone", id, { groups: { name: { value: { name }, version: newId() } } });
    household.server.pageFaults.push(
      (reached) => {
        const page = reached();
        edit("after its page");
        return page;
      },
      (reached) => {
        household.server.write("entry", newId(), { body: { kind: "spread" } });
        return reached();
      },
    );
    book().rows("zone");
    await household.sync.start();
    expect(nameOf(book(), id)).toBe("after its page");
    expect(await shownIn(book())).toEqual(onServer());
    expect(await book().db.meta.get("sync")).toMatchObject({ state: "ok" });
    expect(repairs()).toEqual([]);
  });

  it("pulled by another tab before the page is stored: the older copy in the page does not come over it", async () => {
    oldBook(3);
    const [zoneId] = [...household.server.records.values()]
      .filter((one) => one.t === "zone")
      .map((one) => one.id);
    const id = zoneId ?? "";
    const other = household.phone(book().name);
    household.server.pageFaults.push(async (reached) => {
      const page = reached();
      const value = { value: { name: "newer" }, version: newId() };
      household.server.write("zone", id, { groups: { name: value } });
      await other.book.save([zone(newId(), "so that the other tab makes a round")]);
      household.server.pageFaults.push(gone);
      await other.sync.start();
      expect((await book().db.base.get(`zone:${id}`))?.record.groups["name"]?.value).toEqual({
        name: "newer",
      });
      return page;
    });
    await household.sync.start();
    expect((await book().db.base.get(`zone:${id}`))?.record.groups["name"]?.value).toEqual({ name: "newer" });
    expect(await shownIn(book())).toEqual(onServer());
    expect(repairs()).toEqual([]);
  });
});

describe("a small book", () => {
  it("is there after one round, without pages", async () => {
    household.server.write("zone", newId());
    await household.sync.start();
    expect(household.server.pushes).toHaveLength(1);
    expect(pages()).toEqual([]);
  });
});
