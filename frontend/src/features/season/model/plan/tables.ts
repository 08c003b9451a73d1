/** The published tables that a plan rests on, as the engine takes them; the server hands over the same. */
import grasses from "@fixtures/published/grasses.json";
import places from "@fixtures/published/places.json";
import a from "@fixtures/published/season_a.json";
import b from "@fixtures/published/season_b.json";
import c from "@fixtures/published/season_c.json";
import d from "@fixtures/published/season_d.json";
import e from "@fixtures/published/season_e.json";
import f from "@fixtures/published/season_f.json";
import type { Args } from "../../../../platform/engine";

export type Tables = Args<"season.arguments">["tables"];

export const TABLES = {
  grasses: grasses.grasses,
  general: grasses.lawns_in_general.nitrogen_year_rows,
  rules: places.rules,
  places: places.places,
  seasons: [a, b, c, d, e, f].map(({ key, jobs }) => ({ key, jobs })),
} as unknown as Tables;
