/** The log as a table: read back by a reader of its own, written from RFC 4180, and nothing is lost. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Row } from "../../../platform/store/types";
import { entryOf } from "../../../records/entries";
import { fakeRow, groups } from "../../../records/fake-book";
import { COLUMNS, cellOf, tableOf, yearsOf } from "./table";

/** RFC 4180, section 2: a field is quoted or plain; within quotes a quote is doubled; a line ends in CR LF. */
function read(text: string): string[][] {
  const lines: string[][] = [[]];
  const fields = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n|$)/gy;
  fields.lastIndex = text.startsWith("\uFEFF") ? 1 : 0;
  while (fields.lastIndex < text.length) {
    const found = fields.exec(text) ?? expect.fail("not a table");
    lines.at(-1)?.push(found[1]?.replaceAll('""', '"') ?? found[2] ?? "");
    if (found[3] === "\r\n" && fields.lastIndex < text.length) lines.push([]);
  }
  return lines;
}

const NAMES: Record<string, string> = { z: "Street verge", me: "Rowan", p: "=1+1" };
const nameOf = (id: string | undefined) => (id ? NAMES[id] : undefined);

function rowsOf(...all: Row[]): Record<string, string>[] {
  const [head, ...lines] = read(tableOf(all, "", nameOf));
  expect(head).toEqual(COLUMNS);
  return lines.map((line) => {
    expect(line).toHaveLength(COLUMNS.length);
    return Object.fromEntries(line.map((cell, at) => [COLUMNS[at], cell]));
  });
}

const entry = (id: string, body: object, laid = {}) =>
  fakeRow({
    t: "entry",
    id,
    body: { kind: "mow", occurred_at: "2026-05-10T18:00:00-04:00", by: "me", zone_ids: ["z"], ...body },
    groups: groups(laid),
  });

/** The mark before what a spreadsheet would run, taken off again. */
const bare = (cell: string | undefined) => cell?.replace(/^'/, "");

describe("the log as a table", () => {
  it("has a row an entry, oldest first, with names beside ids", () => {
    const later = entry("2", { occurred_at: "2026-05-11T18:00:00-04:00" });
    const found = rowsOf(later, entry("1", { cut_height_mm: 63.5 }));
    expect(found.map(({ id }) => id)).toEqual(["1", "2"]);
    expect(found[0]).toMatchObject({
      day: "2026-05-10",
      kind: "mow",
      zones: "Street verge",
      zone_ids: '["z"]',
      done_by: "Rowan",
      cut_height_mm: "63.5",
      crossed_out: "false",
      more: "",
    });
  });

  it("keeps what is crossed out, moved and noted, with how it stood before", () => {
    const laid = {
      void: { void: true, why: "twice" },
      when: { occurred_at: "2026-05-12T09:00:00-04:00" },
      note: { note: "wet, heavy\nand long" },
    };
    const [found] = rowsOf(entry("1", {}, laid));
    expect(found).toMatchObject({ crossed_out: "true", day: "2026-05-12", note: "wet, heavy\nand long" });
    expect(JSON.parse(found?.["more"] ?? "")).toEqual({ first: "2026-05-10T18:00:00-04:00", groups: laid });
  });

  it("keeps a newer build's fields and a figure that cannot be used", () => {
    const [found] = rowsOf(entry("1", { kind: "dusting", grams: 3, cut_height_mm: 900 }));
    expect(found).toMatchObject({ kind: "dusting", cut_height_mm: "900" });
    expect(JSON.parse(found?.["more"] ?? "")).toEqual({ body: { grams: 3 } });
  });

  it("lets no text run in a spreadsheet, and leaves numbers numbers", () => {
    const [found] = rowsOf(entry("1", { kind: "observation", text: "=cmd|' /C calc'!A0", product_id: "p" }));
    expect(found).toMatchObject({ text: "'=cmd|' /C calc'!A0", product: "'=1+1" });
    expect(["+1", "-1", "@a", "\ta", "\ra", "'a"].map(cellOf)).toEqual([
      "'+1",
      "'-1",
      "'@a",
      "'\ta",
      `"'\ra"`,
      "''a",
    ]);
    expect(cellOf(-3.5)).toBe("-3.5");
  });

  it("gives every text back as it was", () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string({ unit: "binary" }), fc.string({ unit: fc.constantFrom(..."\"',\r\n=-a🌱") })),
        (text) => {
          const [found] = rowsOf(entry("1", { kind: "observation", text }));
          expect(bare(found?.["text"])).toBe(text);
        },
      ),
    );
  });

  it("has one year alone where one is asked for", () => {
    const old = entry("1", { occurred_at: "2025-12-31T23:30:00-04:00" });
    const all = [old, entry("2", {})];
    expect(read(tableOf(all, "2025", nameOf))).toHaveLength(2);
    expect(yearsOf(all.map(entryOf))).toEqual(["2026", "2025"]);
  });
});
