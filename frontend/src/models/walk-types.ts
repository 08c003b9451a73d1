/** The shapes of a walk on foot; kept whole in the phone's drafts after every step. */
import type { DialScale } from "../drawing/dial-shape";
import type { Typed } from "../format";

export type WalkStep = "choose" | "aim" | "cautions" | "load" | "yard" | "left" | "next" | "finish";

export type AimKind = "label" | "nitrogen" | "bag";

export interface AimForm {
  kind: AimKind;
  nitrogen: Typed;
  bags: string;
}

export type LeftWay = "scale" | "level" | "handfuls" | "ran_out" | "nothing";

/** What is left, half filled in; every way keeps its own text so that switching loses nothing. */
export interface LeftForm {
  way: LeftWay;
  weight: Typed;
  /** Null until the person has set it: a level nobody read is no reading. */
  level_share: number | null;
  density: Typed;
  /** Product not yet poured into the hopper, beside a hopper level. */
  in_bag: Typed;
  handfuls: string;
  handful: Typed;
  /** Part of the ground covered when it ran out: "60" percent or "9 of 14" strips. */
  covered: string;
}

export interface WalkZone {
  id: string;
  name: string;
  area_m2: number;
  /** A key of fixtures/published/grasses.json, where known. */
  grass?: string;
}

/** Low, likely and high of what should be left, in kg. */
export interface Likely {
  low: number;
  mid: number;
  high: number;
}

/** The walk's facts, frozen when the product is loaded: later edits in the shed do not move a walk on foot. */
export interface Plan {
  zones: WalkZone[];
  area_m2: number;
  /** What the aim asks for, kg per m2. */
  target_kg_m2: number;
  mass_kg: number;
  /** What was put in the hopper and kept beside it, kg. */
  load_kg: number;
  /** The load over the ground, kg per m2: what the dial is worked out for. */
  load_kg_m2: number;
  passes: number;
  product: { id: string; name: string; sort?: string; bulk_density_kg_m3?: number; granules?: string };
  n_percent?: number;
  slow_n_share?: number;
  /** Nitrogen the aim brings, kg per m2. */
  n_kg_m2?: number;
  dial: DialScale;
}

export interface Suggestion {
  dial: number;
  left_kg: Likely | null;
  chance_of_running_out: number | null;
  why: string;
}

/** The pass being walked. Its id is the id its entry will have, so it cannot be entered twice. */
export interface PassOnFoot {
  id: string;
  number: number;
  dial: number;
  start_kg: number;
  expect: Likely | null;
  chance_of_running_out: number | null;
  why: string;
  /** What the engine suggested, to go back to after a change by hand. */
  suggested?: Suggestion;
}

export interface WalkDraft {
  shape: 1;
  id: string;
  started_at: string;
  step: WalkStep;
  zone_ids: string[];
  product_id: string | null;
  spreader_id: string | null;
  aim: AimForm;
  confirmed: string[];
  loaded: Typed;
  /** Passes the person wants, or null for what the engine advises. */
  passes: number | null;
  plan: Plan | null;
  pass: PassOnFoot | null;
  left: LeftForm;
  /** Error of the last reading, in kg, when the way of reading states one. */
  left_sd_kg: number | null;
  /** Op that saved each pass, so that it can be taken back while still unsent. */
  ops: Record<string, string>;
}

/** A pass as the book holds it. */
export interface PassDone {
  id: string;
  number: number;
  dial: number;
  area_m2: number;
  start_kg: number;
  left_kg: number;
  used_kg: number;
  ran_out: boolean;
  nothing_came: boolean;
}

/** What a person said is left, brought to kg. */
export interface Reading {
  left_kg: number;
  used_kg: number;
  area_m2: number;
  measured: "scale" | "level" | "handfuls";
  ran_out: boolean;
  nothing_came: boolean;
  left_sd_kg: number | null;
  left_typed: object;
  bulk_density_kg_m3?: number;
}
