/** A spreading job in words. */
import { area, mass, nitrogen, percent, rate, type System } from "../../../format";
import { named, sayZones } from "../../../records/log/named";
import type { Fact, Words } from "../../../records/log/registry";
import { joined, number, PATTERNS, sayDial, sayUsed, thingsOf, words } from "../../../records/log/words";

export const spread: Words = {
  brief: ({ body, zoneIds }, system) =>
    joined([named(body["product_id"], "a product"), sayUsed(body, system), sayZones(zoneIds)]),
  facts: ({ body }, system) => [
    ...thingsOf(body),
    ...words(sayDial(body), "Last dial"),
    ...number(body["area_m2"], "Area covered", (m2) => area(m2, system).text),
    ...number(body["target_kg_m2"], "Target", (aim) => rate(aim, system).text),
    ...words(body["pattern"], "Pattern", PATTERNS),
    ...number(body["used_kg"], "Used", (kg) => mass(kg, system).text),
    ...number(body["n_percent"], "Nitrogen of the product then", (n) => percent(n / 100).text),
    ...number(body["slow_n_share"], "Slow-release share then", (share) => percent(share).text),
    ...number(body["passes"], "Passes", String),
    ...perZone(body["zones"], system),
  ],
};

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
