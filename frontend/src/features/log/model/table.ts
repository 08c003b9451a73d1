/** The log as a table (RFC 4180), one row an entry: every field of the contract has its column, whatever its kind. */
import type { Row } from "../../../platform/store/types";
import { type Entry, entryOf, instantOf } from "../../../records/entries";
import { KINDS, type Rules } from "../../../records/kinds.gen";
import type { NameOf } from "../../../records/log/names";

const { body: shared = {}, bodies = {} } = KINDS.entry;

/** The fields of all kinds, in the contract's order, each once: a name says its unit, the same for everybody. */
const FIELDS: readonly string[] = [
  ...new Set(Object.values(bodies).flatMap((rules: Rules) => Object.keys(rules))),
].filter((name) => !(name in shared));

const BEFORE = ["day", "occurred_at", "kind", "zones", "product", "done_by", "note", "crossed_out"] as const;
const AFTER = ["spreader", "mower", "id", "by", "zone_ids", "step_id", "more"] as const;

export const COLUMNS: readonly string[] = [...BEFORE, ...FIELDS, ...AFTER];

/** The years that have entries, the newest first. */
export const yearsOf = (entries: readonly Entry[]): string[] =>
  [...new Set(entries.map(({ at }) => at.slice(0, 4)))].sort().reverse();

/** The entries of one year, or of all (""), oldest first, as the text of a file. */
export function tableOf(rows: readonly Row[], year: string, nameOf: NameOf): string {
  const entries = rows
    .map(entryOf)
    .filter(({ at }) => at.startsWith(year))
    .sort((a, b) => instantOf(a) - instantOf(b) || (a.id < b.id ? -1 : 1));
  const whole = new Map(rows.map((row) => [row.id, row]));
  const lines = entries.map((entry) => lineOf(entry, whole.get(entry.id) ?? entry.row, nameOf));
  // The mark tells spreadsheets that letters are UTF-8; RFC 4180 ends each line with both signs.
  return `\uFEFF${[COLUMNS.map(cellOf), ...lines].map((cells) => `${cells.join(",")}\r\n`).join("")}`;
}

/** `row` is as it is kept: what could not be used of it is not left out of a copy. */
function lineOf(entry: Entry, row: Row, nameOf: NameOf): string[] {
  const body = (row.body ?? {}) as Record<string, unknown>;
  const name = (id: unknown) => (typeof id === "string" ? nameOf(id) : undefined);
  const said: Record<string, unknown> = {
    ...Object.fromEntries(FIELDS.map((field) => [field, body[field]])),
    day: entry.at.slice(0, 10),
    occurred_at: entry.at,
    kind: entry.kind,
    zones: entry.zoneIds.map((id) => nameOf(id) ?? id).join("; "),
    product: name(body["product_id"]),
    done_by: name(entry.by),
    note: entry.note,
    crossed_out: entry.struck,
    spreader: name(body["spreader_id"]),
    mower: name(body["mower_id"]),
    id: entry.id,
    by: entry.by,
    zone_ids: body["zone_ids"],
    step_id: body["step_id"],
    more: moreOf(body, row),
  };
  return COLUMNS.map((column) => cellOf(said[column]));
}

/** What has no column: the moment first written, what was laid over it, and the fields of a newer build. */
function moreOf(body: Record<string, unknown>, row: Row): unknown {
  const known = new Set<string>([...FIELDS, ...Object.keys(shared)]);
  const unknown = Object.fromEntries(Object.entries(body).filter(([name]) => !known.has(name)));
  const groups = Object.fromEntries(Object.entries(row.groups).map(([group, { value }]) => [group, value]));
  const more = {
    ...(Object.keys(groups).length ? { first: body["occurred_at"], groups } : {}),
    ...(Object.keys(unknown).length ? { body: unknown } : {}),
  };
  return Object.keys(more).length ? more : undefined;
}

/** A spreadsheet would run a text that begins like this; one that begins with the mark itself gets another. */
const RUNS = /^[=+\-@\t\r']/;

/** Numbers go as they are. A mark before a text is taken off again by whoever reads the table with a program. */
export function cellOf(value: unknown): string {
  if (value === undefined || value === null) return "";
  if (typeof value === "number" || typeof value === "boolean") return String(value);
  const text = typeof value === "string" ? value : JSON.stringify(value);
  const safe = RUNS.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
