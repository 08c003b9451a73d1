/** Records, groups and their values in words, for lists of what waits, what was set aside and what differs. */
import { dateTime, showTyped } from "../../format";
import { fieldsOf } from "../../models/kinds";
import type { Mutation, Row } from "../../store/types";
import { sayKind } from "../log/says";

const KINDS: Record<string, string> = {
  household: "Household",
  member: "Member",
  zone: "Zone",
  product: "Product",
  spreader: "Spreader",
  entry: "Log entry",
};

type Namer = (id: string | undefined) => string | undefined;

/** "Zone: Long side", "Mow, 14 May 2026, 18:05". */
export function sayRecord(
  t: string,
  id: string,
  row: Row | undefined,
  nameOf: Namer,
  sent?: Mutation,
): string {
  const body = (row?.body ?? sent?.body) as Record<string, any> | undefined;
  if (t === "entry" && body?.["kind"]) {
    return [sayKind(body["kind"]), body["occurred_at"] && dateTime(body["occurred_at"])]
      .filter(Boolean)
      .join(", ");
  }
  const given = (sent?.set?.["name"] as { name?: string } | undefined)?.name;
  const name = given ?? row?.groups["name"]?.value?.name ?? nameOf(id);
  return [KINDS[t] ?? t, name].filter(Boolean).join(": ");
}

const HIDDEN = new Set(["measured", "was", "by", "at"]);

function sayValue(value: unknown): string {
  if (value === true) return "yes";
  if (value === false) return "no";
  if (value === null || value === undefined || value === "") return "nothing";
  const typed = value as { amount?: unknown; unit?: unknown };
  if (typeof typed.amount === "string" && typeof typed.unit === "string") return showTyped(typed as never);
  if (typeof value === "number") return String(Number(value.toPrecision(6)));
  return typeof value === "object" ? JSON.stringify(value) : String(value).replaceAll("_", " ");
}

/** The facts of a group, each by its name in words; what was typed stands for what was stored. */
export function sayGroup(
  t: string,
  group: string,
  value: Record<string, unknown> | undefined,
): [string, string][] {
  const named = fieldsIn(t, group);
  return Object.entries(value ?? {}).flatMap(([field, is]) => {
    if (HIDDEN.has(field) || (typedOf(field) in (value ?? {}) && !field.endsWith("_typed"))) return [];
    const unit = named[field]?.unit ? ` ${named[field]?.unit}` : "";
    const says = (named[field]?.says ?? field.replaceAll("_", " ")).replace(/ as typed$/, "");
    return [[says, sayValue(is) + (typeof is === "number" ? unit : "")]];
  });
}

/** "cut_height_mm" → "cut_height_typed". */
function typedOf(field: string): string {
  return `${field.split("_").slice(0, -1).join("_")}_typed`;
}

function fieldsIn(t: string, group: string): ReturnType<typeof fieldsOf> {
  try {
    return fieldsOf(t, group);
  } catch {
    // A group of a newer build: its fields are shown by their own names.
    return {};
  }
}
