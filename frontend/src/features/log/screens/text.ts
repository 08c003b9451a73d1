/** Log entries in words: one line for a list, all facts for the entry's own page. */

import { area, height, length, mass, nitrogen, percent, rate, type System, showTyped } from "../../../format";
import type { Entry } from "../../../records/entries";
import { leftOut } from "../../../records/pass-history";
import { writeDial } from "../../../records/products";
import { log } from "../model";

const KINDS: Record<string, string> = {
  mow: "Mow",
  spread: "Spreading",
  pass: "Pass",
  observation: "Observation",
  stock_count: "Stock count",
  tray_test: "Tray test",
};

export function sayKind(kind: string): string {
  return KINDS[kind] ?? kind.replaceAll("_", " ");
}

export function sayZones(ids: readonly string[]): string {
  return ids.map((id) => log.nameOf(id) ?? "a zone not on this phone").join(", ");
}

function named(id: string | undefined, otherwise: string): string {
  return log.nameOf(id) ?? otherwise;
}

/** The line under the title in a list. */
export function sayBriefly(entry: Entry, system: System): string {
  const { body } = entry;
  const zones = sayZones(entry.zoneIds);
  const used = typeof body["used_kg"] === "number" ? mass(body["used_kg"], system).text : "";
  switch (entry.kind) {
    case "mow":
      return joined([zones, body["cut_height_mm"] && `cut to ${height(body["cut_height_mm"], system).text}`]);
    case "spread":
      return joined([named(body["product_id"], "a product"), used, zones]);
    case "pass":
      return joined([
        `pass ${body["number"]}`,
        `dial ${sayDial(body)}`,
        used,
        zones,
        leftOut(entry) && "ignored",
      ]);
    case "tray_test":
      return joined([named(body["spreader_id"], "a spreader"), sayWidest(body, system)]);
    case "observation":
      return joined([zones, shortened(String(body["text"] ?? ""))]);
    case "stock_count":
      return joined([
        named(body["product_id"], "a product"),
        `${mass(body["left_kg"] ?? 0, system).text} in the shed`,
      ]);
    default:
      return zones;
  }
}

function sayWidest(body: Entry["body"], system: System): string {
  const limit =
    typeof body["cv_limit_share"] === "number" ? percent(body["cv_limit_share"]).text : "the limit";
  if (typeof body["widest_m"] !== "number") return `no distance within ${limit}`;
  return `swath up to ${length(body["widest_m"], system).text} within ${limit}`;
}

function joined(parts: readonly unknown[]): string {
  return parts.filter(Boolean).join(" · ");
}

function shortened(text: string): string {
  return text.length > 90 ? `${text.slice(0, 88).trimEnd()} …` : text;
}

function sayDial(body: Record<string, any>): string {
  const value = body["dial"] ?? body["last_dial"];
  return typeof value === "number" ? writeDial(value, body["dial_scale"]?.step ?? 0.1) : "";
}

type Fact = readonly [name: string, value: string];

function yes(flag: unknown, says: string): Fact[] {
  return flag === true ? [[says, "yes"]] : [];
}

function number(value: unknown, name: string, say: (value: number) => string): Fact[] {
  return typeof value === "number" ? [[name, say(value)]] : [];
}

function words(value: unknown, name: string, table: Record<string, string> = {}): Fact[] {
  return value ? [[name, table[String(value)] ?? String(value)]] : [];
}

/** As it was typed, where that is on record. */
function asTyped(typed: unknown, name: string): Fact[] | undefined {
  const as = typed as { amount?: unknown; unit?: unknown } | undefined;
  if (typeof as?.amount !== "string" || typeof as.unit !== "string") return undefined;
  return [[name, showTyped(as as never)]];
}

/** A weight as it was typed, else as stored. */
function weight(kg: unknown, typed: unknown, name: string, system: System): Fact[] {
  return asTyped(typed, name) ?? number(kg, name, (value) => mass(value, system).text);
}

function lengthOf(metres: unknown, typed: unknown, name: string, system: System): Fact[] {
  return asTyped(typed, name) ?? number(metres, name, (value) => length(value, system).text);
}

const PATTERNS = {
  plain: "each pass like the one before",
  offset: "the second pass between the first strips",
  crossed: "the second pass crosswise",
  back_and_forth: "back and forth",
  circuit: "round and round",
};

/** What a tray test holds; catches are shown as they were written. */
function trayFacts(body: Entry["body"], system: System): Fact[] {
  if (body["kind"] !== "tray_test") return [];
  const { typed, catches_g } = body;
  const written = Array.isArray(typed?.catches) ? typed.catches : catches_g;
  return [
    ...(Array.isArray(written)
      ? [["Caught, left to right", `${written.join(", ")} ${typed?.unit ?? "g"}`] as const]
      : []),
    ...lengthOf(body["tray_spacing_m"], typed?.tray_spacing, "Tray spacing", system),
    ...number(body["cv_limit_share"], "Unevenness allowed", (share) => percent(share).text),
    ...number(body["widest_m"], "Widest swath within it", (metres) => length(metres, system).text),
  ];
}

const MEASURED = { scale: "by scale", level: "by the level in the hopper", handfuls: "by handfuls" };

/** Every fact an entry holds, in the order a person asks for them. */
export function factsOf(entry: Entry, system: System): Fact[] {
  const { kind, body, zoneIds } = entry;
  const product: Fact[] = body["product_id"]
    ? [["Product", named(body["product_id"], "not on this phone")]]
    : [];
  const spreader: Fact[] = body["spreader_id"]
    ? [["Spreader", named(body["spreader_id"], "not on this phone")]]
    : [];
  const dialled: Fact[] = sayDial(body)
    ? [[kind === "spread" ? "Dial for next time" : "Dial", sayDial(body)]]
    : [];
  return [
    ...(zoneIds.length ? [[zoneIds.length === 1 ? "Zone" : "Zones", sayZones(zoneIds)] as const] : []),
    ...product,
    ...spreader,
    ...words(body["text"], "What you noticed"),
    ...number(body["height_before_mm"], "Height before", (mm) => height(mm, system).text),
    ...number(body["cut_height_mm"], "Cut to", (mm) => height(mm, system).text),
    ...words(body["clippings"], "Clippings", { left: "left on the grass", collected: "collected" }),
    ...number(body["number"], "Pass", (at) => (body["passes"] ? `${at} of ${body["passes"]}` : String(at))),
    ...dialled,
    ...number(body["area_m2"], "Area covered", (m2) => area(m2, system).text),
    ...number(body["target_kg_m2"], "Target", (aim) => rate(aim, system).text),
    ...words(body["pattern"], kind === "tray_test" ? "Walking pattern" : "Pattern", PATTERNS),
    ...trayFacts(body, system),
    ...number(body["start_kg"], "Before", (kg) => mass(kg, system).text),
    ...number(body["added_kg"], "Added on the way", (kg) => mass(kg, system).text),
    ...weight(
      body["left_kg"],
      body["left_typed"],
      kind === "stock_count" ? "In the shed" : "Left after",
      system,
    ),
    ...number(body["used_kg"], "Used", (kg) => mass(kg, system).text),
    ...words(body["measured"], "Measured", MEASURED),
    ...number(body["n_percent"], "Nitrogen of the product then", (n) => percent(n / 100).text),
    ...number(body["slow_n_share"], "Slow-release share then", (share) => percent(share).text),
    ...yes(body["ran_out"], "Ran out early"),
    ...yes(body["nothing_came"], "Nothing came out"),
    ...yes(body["damp"], "Product was damp: not used for later dials"),
    ...yes(kind === "pass" && leftOut(entry), "Ignored"),
    ...(kind === "spread" ? number(body["passes"], "Passes", String) : []),
    ...perZone(body["zones"], system),
  ];
}

function perZone(zones: unknown, system: System): Fact[] {
  if (!Array.isArray(zones)) return [];
  return zones.map((zone: Record<string, any>) => {
    const said = [
      typeof zone["used_kg"] === "number" && mass(zone["used_kg"], system).text,
      typeof zone["n_kg_m2"] === "number" && nitrogen(zone["n_kg_m2"], system).text,
    ];
    return [named(zone["zone_id"], "A zone"), joined(said)] as const;
  });
}
