/** What the words of every kind of entry are put together from. */
import { height, length, mass, type System, showTyped } from "../../format";
import type { Entry } from "../entries";
import { writeDial } from "../products";
import { named, sayZones } from "./named";
import { type Fact, wordsOf } from "./registry";

export function joined(parts: readonly unknown[]): string {
  return parts.filter(Boolean).join(" · ");
}

export function yes(flag: unknown, says: string): Fact[] {
  return flag === true ? [[says, "yes"]] : [];
}

export function number(value: unknown, name: string, say: (value: number) => string): Fact[] {
  return typeof value === "number" ? [[name, say(value)]] : [];
}

export function words(value: unknown, name: string, table: Record<string, string> = {}): Fact[] {
  return value ? [[name, table[String(value)] ?? String(value)]] : [];
}

/** As it was typed, where that is on record. */
function asTyped(typed: unknown, name: string): Fact[] | undefined {
  const as = typed as { amount?: unknown; unit?: unknown } | undefined;
  if (typeof as?.amount !== "string" || typeof as.unit !== "string") return undefined;
  return [[name, showTyped(as as never)]];
}

/** A weight as it was typed, else as stored. */
export function weight(kg: unknown, typed: unknown, name: string, system: System): Fact[] {
  return asTyped(typed, name) ?? number(kg, name, (value) => mass(value, system).text);
}

export function heightOf(mm: unknown, typed: unknown, name: string, system: System): Fact[] {
  return asTyped(typed, name) ?? number(mm, name, (value) => height(value, system).text);
}

export function lengthOf(metres: unknown, typed: unknown, name: string, system: System): Fact[] {
  return asTyped(typed, name) ?? number(metres, name, (value) => length(value, system).text);
}

/** What was put on and with which machine, where the entry names them. */
export function thingsOf(body: Entry["body"]): Fact[] {
  const [product, spreader] = [body["product_id"], body["spreader_id"]];
  return [
    ...(product ? [["Product", named(product, "not on this phone")] as const] : []),
    ...(spreader ? [["Spreader", named(spreader, "not on this phone")] as const] : []),
  ];
}

export function sayUsed(body: Entry["body"], system: System): string {
  return typeof body["used_kg"] === "number" ? mass(body["used_kg"], system).text : "";
}

export function sayDial(body: Entry["body"]): string {
  const value = body["dial"] ?? body["last_dial"];
  return typeof value === "number" ? writeDial(value, body["dial_scale"]?.step ?? 0.1) : "";
}

export const PATTERNS = {
  plain: "each pass like the one before",
  offset: "the second pass between the first strips",
  crossed: "the second pass crosswise",
  back_and_forth: "back and forth",
  circuit: "round and round",
};

/** The line under the title in a list. */
export function sayBriefly(entry: Entry, system: System): string {
  return wordsOf(entry.kind)?.brief(entry, system) ?? sayZones(entry.zoneIds);
}

/** Every fact an entry holds; of a kind that only a newer build knows, what it was done on and with. */
export function factsOf(entry: Entry, system: System): Fact[] {
  const { kind, zoneIds, body } = entry;
  return [
    ...(zoneIds.length ? [[zoneIds.length === 1 ? "Zone" : "Zones", sayZones(zoneIds)] as const] : []),
    ...(wordsOf(kind)?.facts(entry, system) ?? thingsOf(body)),
  ];
}
