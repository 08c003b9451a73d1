/** What a thermometer, a rain gauge or a ruler in the grass said, in words. */
import {
  degrees,
  depth,
  height,
  rain,
  type System,
  showTyped,
  type Typed,
  temperature,
} from "../../../format";
import type { Entry } from "../../../records/entries";
import { sayZones } from "../../../records/log/named";
import type { Words } from "../../../records/log/registry";
import { joined, words } from "../../../records/log/words";
import { SoilDetail } from "./soil-detail";

const MEASURES = { soil: "Soil temperature", air: "Air temperature", rain: "Rain", grass: "Grass height" };

const OF_WARMTH = { of: "measures", is: ["soil", "air"] };

type Body = Entry["body"];

/** As typed where that is on record, else in the reader's own units. */
function said(
  body: Body,
  name: string,
  typed: string,
  say: (si: number, system: System) => { text: string },
  system: System,
) {
  const as = body[typed] as Typed | undefined;
  if (as?.amount) return showTyped(as);
  return typeof body[name] === "number" ? say(body[name], system).text : undefined;
}

const figures = (body: Body, system: System) => ({
  temperature: said(body, "temperature_c", "temperature_typed", temperature, system),
  depth: said(body, "depth_mm", "depth_typed", depth, system),
  error: said(body, "error_c", "error_typed", degrees, system),
  rain: said(body, "rain_mm", "rain_typed", rain, system),
  grass: said(body, "height_mm", "height_typed", height, system),
});

export const reading: Words = {
  brief: ({ body, zoneIds }, system) => {
    const { temperature, depth, rain, grass } = figures(body, system);
    const name = MEASURES[body["measures"] as keyof typeof MEASURES] ?? "Reading";
    const at = body["measures"] === "soil" && depth ? ` at ${depth}` : "";
    return joined([
      zoneIds.length ? sayZones(zoneIds) : "",
      `${name} ${temperature ?? rain ?? grass ?? ""}${at}`.trim(),
    ]);
  },
  facts: ({ body }, system) => {
    const { temperature, depth, error, rain, grass } = figures(body, system);
    return [
      ...words(body["measures"], "What was read", MEASURES),
      ...words(temperature, "Temperature"),
      ...words(depth, "Depth"),
      ...words(error && `${error} either way`, "Likely error"),
      ...words(rain, "Rain"),
      ...words(grass, "Height, by ruler"),
    ];
  },
  Detail: SoilDetail,
  form: {
    title: "Add a reading",
    save: "Save the reading",
    saved: "Reading saved.",
    fields: {
      measures: {
        label: "What you read",
        choices: { soil: "Soil", air: "Air", rain: "Rain", grass: "Grass" },
      },
      temperature_c: { missing: "Enter the temperature.", only: OF_WARMTH },
      depth_mm: {
        missing: "Enter how deep the probe was.",
        usual: { us: "2", metric: "50" },
        only: { of: "measures", is: ["soil"] },
      },
      error_c: { hint: "Optional. Leave it blank if you don’t know.", only: OF_WARMTH },
      rain_mm: { missing: "Enter the rain. 0 counts too.", only: { of: "measures", is: ["rain"] } },
      height_mm: {
        missing: "Enter the height.",
        hint: "A ruler in the grass, no cut.",
        only: { of: "measures", is: ["grass"] },
      },
      zone_ids: { label: "Zones (leave blank for the whole yard)" },
      occurred_at: { label: "When" },
    },
    again: ["measures", "depth_mm", "error_c", "zone_ids"],
  },
};
