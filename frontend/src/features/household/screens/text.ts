/** Records, groups and their values in words, for lists of what waits, what was set aside and what differs. */
import {
  area,
  date,
  dateTime,
  density,
  height,
  length,
  mass,
  percent,
  type Quantity,
  rate,
  type Shown,
  type System,
  showTyped,
  speed,
} from "../../../format";
import { units } from "../../../platform/session/session";
import type { Mutation, Row } from "../../../platform/store/types";
import { fieldsOf, isShare, type Limits, quantityOf } from "../../../records/kinds";
import { labelOf } from "../../../records/log/registry";

const KINDS: Record<string, string> = {
  household: "Household",
  member: "Member",
  zone: "Zone",
  product: "Product",
  spreader: "Spreader",
  entry: "Log entry",
  claim: "Job taken",
  settlement: "Settled warning",
  photo: "Photo",
};

export type Namer = (id: string | undefined) => string | undefined;

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
    return [labelOf(body["kind"]), body["occurred_at"] && dateTime(body["occurred_at"], units.value)]
      .filter(Boolean)
      .join(", ");
  }
  const given = (sent?.set?.["name"] as { name?: string } | undefined)?.name;
  const name = given ?? row?.groups["name"]?.value?.name ?? nameOf(id);
  return [KINDS[t] ?? t.replaceAll("_", " "), name].filter(Boolean).join(": ");
}

/** All records an entry speaks of. */
export function sayItems(
  m: readonly Mutation[],
  nameOf: Namer,
  rowOf?: (t: string, id: string) => Row | undefined,
) {
  return m.map((one) => sayRecord(one.t, one.id, rowOf?.(one.t, one.id), nameOf, one)).join(", ");
}

const HIDDEN = new Set(["kind", "occurred_at", "measured", "was", "by", "at", "outline", "thumb", "sha256"]);

const FIGURES: Partial<Record<Quantity, (si: number, system: System) => Shown>> = {
  area,
  mass,
  length,
  height,
  speed,
  rate,
  density,
};

export interface Reader {
  system: System;
  nameOf: Namer;
}

function sayNumber(value: number, field: Limits | undefined, { system }: Reader): string {
  const figure = FIGURES[quantityOf(field ?? {}) ?? "nitrogen"];
  if (figure) return figure(value, system).text;
  if (isShare(field ?? {})) return percent(value).text;
  const plain = String(Number(value.toPrecision(6)));
  return field?.unit ? `${plain} ${field.unit === "day" ? "days" : field.unit}` : plain;
}

function sayText(value: string, field: Limits | undefined, { nameOf, system }: Reader): string {
  if (field?.type === "moment") return dateTime(value, system);
  if (field?.type === "date") return date(value);
  if (field?.type === "id") return nameOf(value) ?? "not on this phone";
  return field?.type === "choice" ? value.replaceAll("_", " ") : value;
}

function sayValue(value: unknown, field: Limits | undefined, reader: Reader): string {
  if (value === true) return "yes";
  if (value === false) return "no";
  if (value === null || value === undefined || value === "") return "nothing";
  const typed = value as { amount?: unknown; unit?: unknown };
  if (typeof typed.amount === "string" && typeof typed.unit === "string") return showTyped(typed as never);
  if (typeof value === "number") return sayNumber(value, field, reader);
  if (typeof value === "string") return sayText(value, field, reader);
  if (field?.type === "ids" && Array.isArray(value))
    return value.map((id) => reader.nameOf(id) ?? "not on this phone").join(", ") || "none";
  return "kept as it was entered";
}

/** The facts of a group (or of a body, by its kind), each by its name in words; what was typed stands for what was stored. */
export function sayGroup(
  t: string,
  group: string,
  value: Record<string, unknown> | undefined,
  reader: Reader,
): [string, string][] {
  const named = fieldsIn(t, group);
  return Object.entries(value ?? {}).flatMap(([field, is]) => {
    if (HIDDEN.has(field) || (typedOf(field) in (value ?? {}) && !field.endsWith("_typed"))) return [];
    const says = (named[field]?.label ?? field.replaceAll("_", " ")).replace(/ as typed$/, "");
    return [[says, sayValue(is, named[field], reader)]];
  });
}

/** Everything an op says, for somebody who has to decide about it. */
export function sayFacts(m: readonly Mutation[], reader: Reader): [string, string][] {
  return m.flatMap((one) => {
    const body = one.body as Record<string, unknown> | undefined;
    const groups = Object.entries(one.set ?? {}) as [string, Record<string, unknown>][];
    return [
      ...(body ? sayGroup(one.t, String(body["kind"] ?? ""), body, reader) : []),
      ...groups.flatMap(([group, value]) => sayGroup(one.t, group, value, reader)),
    ];
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
