/** The shapes of a walk on foot; kept whole in the phone's drafts after every step. */

import type { Typed } from "../../../format";
import type { MeasuredBy, PassPart } from "../../../records/pass-history";
import type { DialScale } from "../../../ui/drawing/dial-shape";

export type SpreadStep =
  | "choose"
  | "aim"
  | "cautions"
  | "load"
  | "yard"
  | "check"
  | "left"
  | "next"
  | "finish";

export type AimKind = "label" | "nitrogen" | "bag";

export interface AimForm {
  kind: AimKind;
  nitrogen: Typed;
  bags: string;
}

/** How the tracks of a pass lie to those before it. */
export type Pattern = "plain" | "offset" | "crossed";
/** What a person chooses: later passes between the first tracks, or the last one across them. */
export type Crossing = "offset" | "crossed";

export type LeftWay = "scale" | "level" | "handfuls" | "ran_out" | "nothing";

/** What is left, half filled in; every way keeps its own text so that switching loses nothing. */
export interface LeftForm {
  way: LeftWay;
  /** The way used before a run-out was opened, to go back to. */
  usual?: LeftWay;
  weight: Typed;
  /** Null until the person has set it: a level nobody read is no reading. */
  level_share: number | null;
  density: Typed;
  /** Product not yet poured into the hopper, beside a hopper level. */
  in_bag: Typed;
  handfuls: string;
  handful: Typed;
  /** Part of the ground covered: "60" percent or "9 of 14" strips. */
  covered: string;
  /** Whether a pass with strips not counted covered all the ground; null until said. */
  whole: boolean | null;
}

/** Product poured in on the way, half filled in. */
export interface PourForm {
  /** "bag": part of the load that stood beside; "more": product that was not part of it. */
  from: "bag" | "more";
  in_bag: Typed;
  added: Typed;
}

export interface Outline {
  points_m: [number, number][];
  holes_m?: [number, number][][];
  circles_m?: { x_m: number; y_m: number; radius_m: number }[];
  /** Bearing of +y; null where it was drawn without a north. */
  north_deg?: number | null;
}

export interface SpreadZone {
  id: string;
  name: string;
  area_m2: number;
  /** A key of fixtures/published/grasses.json, where known. */
  grass?: string;
  outline?: Outline;
  /** Which way the strips run, where chosen for the zone. */
  heading_deg?: number;
  /** sun, part_shade or shade, where entered. */
  sun?: string;
  /** Whether it runs down to water, how long that edge is and what stays clear there, where entered. */
  near_water?: boolean;
  water_edge_m?: number;
  setback_m?: number;
  /** The edges of its outline that lie at water, where marked. */
  water_edges?: number[];
  /** How far the strips of the plan stay from those; not there where they do not. */
  clear_m?: number;
}

/** A warning that was answered before the job, as its entry keeps it. */
export interface Answered {
  key: string;
  kind: string;
  zone_ids: string[];
  right_from: string | null;
  answer: string;
  at: string;
}

/** A stretch to walk, as `swath.tour` gives it: a round of the edge, a strip, or a whole zone without outline. */
export interface TourRow {
  zone_id: string;
  kind: "header" | "strip" | "whole";
  number: number;
  points_m: [number, number][] | null;
  length_m: number | null;
  /** Ground walked over after it, with the gate open or shut; rows of earlier builds have none. */
  walked_m2?: number;
  /** Ground of it that gets no more. */
  out_m2?: number;
  done_area_m2: number;
  to_go_area_m2: number;
  /** What should be left after it, hopper and bag together; null before the last reading, or not known. */
  left_kg: number | null;
}

/** Low, likely and high of a figure, 90 % between low and high. */
export interface Likely {
  low: number;
  mid: number;
  high: number;
}

/** Settings where the right one may truly lie. */
export interface Between {
  low: number;
  high: number;
}

/** The job's facts, frozen when the product is loaded: later edits in the shed do not move a walk on foot. */
export interface Plan {
  /** In walking order. */
  zones: SpreadZone[];
  area_m2: number;
  /** What the aim asks for, kg per m2. */
  target_kg_m2: number;
  mass_kg: number;
  /** What was put in the hopper and kept beside it, kg. */
  load_kg: number;
  /** The aim over the label's rate, where the label states one. */
  label_share?: number;
  /** The load over the ground, kg per m2: what the dial is worked out for. */
  load_kg_m2: number;
  passes: number;
  product: { id: string; name: string; sort?: string; bulk_density_kg_m3?: number; granules?: string };
  n_percent?: number;
  p2o5_percent?: number;
  slow_n_share?: number;
  /** Nitrogen the aim brings, kg per m2. */
  n_kg_m2?: number;
  dial: DialScale;
  swath_m?: number;
  speed_m_s?: number;
  /** Warnings answered before it; none where there were none. */
  answered?: Answered[];
}

export interface Suggestion {
  dial: number;
  left_kg: Likely | null;
  chance_of_running_out: number | null;
  why: string;
  rate_kg_m2?: Likely | null;
  dial_likely?: Between | null;
}

/** Where the present setting of a pass began: at the start, or where the dial was last changed. */
export interface PartStart {
  /** What there was, with all poured in since, kg. */
  there_kg: number;
  /** How far off that may be, where it was a reading, kg. */
  there_sd_kg?: number | null;
  /** Rows walked by then. */
  rows: number;
  area_m2: number;
}

/** A look into the hopper on the way, as the pass's body keeps it. */
export interface CheckDone {
  at: string;
  row: number;
  area_done_m2: number;
  now_kg: number;
  measured: MeasuredBy;
  typed: object;
  dial_before: number;
  dial_after: number;
  scorched?: Scorched;
}

/** A stretch that got far more than the label's rate: rows from one to another of a pass. */
export interface Scorched {
  pass: number;
  from: number;
  to: number;
  area_m2: number;
  used_kg: number;
  zone_ids: string[];
}

/** A row that gets no more after its pass: where it lies, as `swath.tour` takes it. */
export interface OutRow {
  pass: number;
  zone_id: string;
  points_m: [number, number][] | null;
  from_m2: number;
  to_m2: number;
}

/** Ground of a zone that a pass left out. */
export interface ZoneOut {
  zone_id: string;
  area_m2: number;
}

/** The ground of a zone that its strips lie on, where some stays clear of water: its edges and those of its holes. */
export interface ZoneGround {
  zone_id: string;
  ground_m: [number, number][][];
}

/** The pass being walked. Its id is the id its entry will have, so it cannot be entered twice. */
export interface PassOnFoot {
  id: string;
  number: number;
  dial: number;
  start_kg: number;
  /** Where that is what the pass before left: how far off it may be, and how it was read. */
  start_sd_kg?: number | null;
  start_measured?: MeasuredBy | null;
  expect: Likely | null;
  chance_of_running_out: number | null;
  why: string;
  /** What the engine suggested, to go back to after a change by hand. */
  suggested?: Suggestion;
  pattern: Pattern;
  /** What this setting should put down, kg per m2; null where nothing is known of it. */
  rate_kg_m2: number | null;
  /** In walking order; empty until laid out, or where they cannot be. */
  rows: TourRow[];
  /** Ground of its zones that it leaves out; none where all is covered. */
  out?: ZoneOut[];
  /** Zones of which some stays clear of water. */
  clear?: ZoneGround[];
  /** Rows walked. */
  done: number;
  /** Poured in beyond the load, kg. */
  added_kg: number;
  /** Not yet in the hopper, kg; null where nobody said. */
  in_bag_kg: number | null;
  damp: boolean;
  part: PartStart;
  /** What the expected level counts from: the start, or the last look into the hopper. */
  base: { kg: number; area_m2: number };
  /** Stretches walked at earlier settings of this pass. */
  parts: PassPart[];
  checks: CheckDone[];
}

export interface SpreadDraft {
  shape: 2;
  id: string;
  started_at: string;
  step: SpreadStep;
  /** In walking order. */
  zone_ids: string[];
  product_id: string | null;
  spreader_id: string | null;
  /** The step of the season's plan that it does. */
  season_step_id?: string | undefined;
  aim: AimForm;
  crossing: Crossing;
  confirmed: string[];
  /** What was answered to each warning before the job, by its key. */
  answers?: Record<string, string>;
  loaded: Typed;
  /** Passes the person wants, or null for what the engine advises. */
  passes: number | null;
  plan: Plan | null;
  pass: PassOnFoot | null;
  /** What is not yet in the hopper, kg, as said in a pass that was stepped back from. */
  in_bag_kg?: number | null;
  left: LeftForm;
  check: LeftForm;
  pour: PourForm;
  /** Strips a zone without outline takes, by zone, as counted by the person. */
  strips: Record<string, number>;
  /** Rows that get no more after the pass in which a check found them scorched. */
  out?: OutRow[];
  /** When the job was stopped for another evening; null while it goes on. */
  stopped_at: string | null;
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
  measured: MeasuredBy;
  start_kg: number;
  left_kg: number;
  used_kg: number;
  added_kg: number;
  ran_out: boolean;
  nothing_came: boolean;
  damp: boolean;
  pattern?: Pattern;
  parts: PassPart[];
  checks: CheckDone[];
  /** Ground that it left out. */
  out?: ZoneOut[];
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
