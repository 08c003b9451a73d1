/** Written by `uv run manage.py types` from fixtures/kinds/: what each record holds, and the limits of its fields. */
import type { Typed } from "../format/units";

export type FieldType = "text" | "number" | "integer" | "flag" | "date" | "moment" | "id" | "ids" | "json" | "choice";

export type Kind = "claim" | "conflict" | "entry" | "household" | "member" | "mower" | "photo" | "plan" | "product" | "settlement" | "spreader" | "step" | "weather_month" | "zone";

export type EntryKind = "bought" | "mow" | "observation" | "pass" | "reading" | "soil_test" | "spread" | "stock_count" | "tray_test";

export interface ClaimClaim {
  /** Job */
  job: "mow" | "feed" | "spray" | "water" | "other";
  /** Day */
  day: string;
  /** Zones */
  zone_ids?: string[];
  /** Note */
  note?: string;
}

export interface ClaimDeleted {
  /** Given up */
  deleted: boolean;
}

export interface EntryVoid {
  /** Struck out */
  void: boolean;
  /** Why */
  why?: string;
}

export interface EntryLearning {
  /** Left out of learning */
  bad: boolean;
  /** Why */
  why?: string;
}

export interface EntryNote {
  /** Note */
  note?: string;
}

export interface EntryWhen {
  /** When it was done */
  occurred_at: string;
}

export interface HouseholdName {
  /** Household name */
  name: string;
}

export interface HouseholdPlace {
  /** Latitude [deg] */
  latitude_deg?: number;
  /** Longitude [deg] */
  longitude_deg?: number;
  /** Height above the sea [m] */
  elevation_m?: number;
  /** Height above the sea as typed */
  elevation_typed?: Typed;
}

export interface HouseholdClimate {
  /** Mean of the warmest month [C] */
  warmest_c?: number;
  /** Mean of the coldest month [C] */
  coldest_c?: number;
  /** Mean temperature of the twelve months, January first */
  monthly_mean_c?: unknown;
  /** The temperatures as typed: warmest, coldest, months */
  climate_typed?: Typed;
  /** Where the climate comes from */
  climate_from?: "two" | "months" | "archive" | "own";
  /** Years of the means */
  climate_years?: string;
}

export interface HouseholdRhythm {
  /** Monday */
  mow_monday?: boolean;
  /** Tuesday */
  mow_tuesday?: boolean;
  /** Wednesday */
  mow_wednesday?: boolean;
  /** Thursday */
  mow_thursday?: boolean;
  /** Friday */
  mow_friday?: boolean;
  /** Saturday */
  mow_saturday?: boolean;
  /** Sunday */
  mow_sunday?: boolean;
}

export interface HouseholdRules {
  /** Country or state (a key of fixtures/published/places.json, or blank) */
  rules_place?: string;
  /** Local rules entered by the household, each with its day: as limits.rules takes them */
  own_rules?: unknown;
}

export interface HouseholdForecast {
  /** Forecast, from the place rounded to 0.1° */
  forecast?: boolean;
}

export interface MemberName {
  /** Your name */
  name: string;
}

export interface MemberUnits {
  /** Units */
  units: "us" | "metric";
}

export interface MemberRole {
  /** Role */
  role: "keeper" | "member";
}

export interface MemberActive {
  /** Still in the household */
  active: boolean;
}

export interface MowerName {
  /** Mower name */
  name: string;
}

export interface MowerDeck {
  /** Notches of the height lever, each with its label and the height it was measured to cut at: label, measured_mm, measured_typed */
  notches?: unknown;
  /** Lowest cutting height [mm] */
  lowest_mm?: number;
  /** Lowest cutting height as typed */
  lowest_typed?: Typed;
  /** Highest cutting height [mm] */
  highest_mm?: number;
  /** Highest cutting height as typed */
  highest_typed?: Typed;
}

export interface MowerBlade {
  /** Blade last sharpened */
  sharpened_on?: string;
  /** Hours between sharpenings [h] */
  hours_between?: number;
}

export interface MowerDeleted {
  /** Removed from the shed */
  deleted: boolean;
}

export interface PhotoPhoto {
  /** What it shows */
  of: "entry" | "zone";
  /** Which one it shows */
  of_id: string;
  /** SHA-256 of the picture, hexadecimal */
  sha256: string;
  /** Width [px] */
  width_px: number;
  /** Height [px] */
  height_px: number;
  /** Size [byte] */
  size_bytes: number;
  /** When it was taken */
  taken_at?: string;
  /** Thumbnail: JPEG of at most 8 kB in base64 */
  thumb?: string;
}

export interface PhotoCaption {
  /** Caption */
  caption?: string;
}

export interface PhotoDeleted {
  /** Removed */
  deleted: boolean;
}

export interface PlanYear {
  /** First day of the year planned */
  starts_on: string;
  /** In the southern half of the globe */
  southern: boolean;
}

export interface PlanAim {
  /** How much to feed */
  level: "low" | "middle" | "high";
  /** Clippings */
  clippings?: "left" | "collected";
}

export interface PlanBudget {
  /** Spend at most */
  budget?: number;
}

export interface PlanTime {
  /** Evenings a week */
  evenings_week?: number;
  /** Minutes an evening [min] */
  minutes_evening?: number;
}

export interface PlanGentle {
  /** Only gentle products */
  only_gentle: boolean;
}

export interface PlanSkip {
  /** Months without jobs, January being 1 */
  skip_months?: unknown;
}

export interface PlanDeleted {
  /** Removed */
  deleted: boolean;
}

export interface ProductName {
  /** Product name */
  name: string;
  /** Type of product */
  sort: "fertilizer" | "pre_emergent" | "post_emergent" | "lime" | "seed" | "other";
}

export interface ProductLabel {
  /** Net weight [kg] */
  net_kg: number;
  /** Net weight as typed */
  net_typed?: Typed;
  /** Coverage [m2] */
  coverage_m2?: number;
  /** Coverage as typed */
  coverage_typed?: Typed;
}

export interface ProductAnalysis {
  /** Nitrogen, N [%] */
  n_percent?: number;
  /** Phosphate, P2O5 [%] */
  p2o5_percent?: number;
  /** Potash, K2O [%] */
  k2o_percent?: number;
  /** Share of the nitrogen that is slow-release [share] */
  slow_n_share?: number;
  /** Kind of nitrogen */
  source?: "soluble" | "sulfur_coated" | "polymer_coated" | "condensed" | "ibdu" | "natural";
}

export interface ProductCaution {
  /** Signal word on the label */
  signal_word?: "none" | "caution" | "warning" | "danger";
  /** Watering after spreading */
  water_in?: "unsaid" | "water_in" | "keep_dry";
  /** Keep off for [h] */
  keep_off_hours?: number;
  /** Minimum days between uses [day] */
  interval_days?: number;
  /** Most uses in a year */
  uses_year?: number;
  /** Days to sowing [day] */
  seed_wait_days?: number;
  /** Other label notes */
  remarks?: string;
}

export interface ProductPrice {
  /** Price of one bag */
  price?: number;
}

export interface ProductGranules {
  /** Granule size */
  granules?: "fine" | "medium" | "coarse";
  /** Bulk density [kg/m3] */
  bulk_density_kg_m3?: number;
}

export interface ProductDeleted {
  /** Removed from the shed */
  deleted: boolean;
}

export interface SettlementSettled {
  /** Which clash, by the key the engine gives it */
  clash: string;
  /** Kind of clash */
  kind?: string;
  /** Log entries it was about */
  entry_ids?: string[];
  /** What was decided */
  note?: string;
}

export interface SettlementDeleted {
  /** Opened again */
  deleted: boolean;
}

export interface SpreaderName {
  /** Spreader name */
  name: string;
  /** Type of spreader */
  sort: "rotary" | "drop";
}

export interface SpreaderDial {
  /** Lowest number on the dial (closed) */
  lowest: number;
  /** Highest number on the dial (fully open) */
  highest: number;
  /** One click of the dial */
  step: number;
}

export interface SpreaderWalking {
  /** Swath: distance between strips [m] */
  swath_m: number;
  /** Swath as typed */
  swath_typed?: Typed;
  /** Walking speed [m/s] */
  speed_m_s: number;
  /** Walking speed as typed */
  speed_typed?: Typed;
  /** Has an edge deflector */
  deflector?: boolean;
}

export interface SpreaderHopper {
  /** Hopper length at the top [m] */
  top_length_m?: number;
  /** Hopper width at the top [m] */
  top_width_m?: number;
  /** Hopper length at the bottom [m] */
  bottom_length_m?: number;
  /** Hopper width at the bottom [m] */
  bottom_width_m?: number;
  /** Hopper height [m] */
  height_m?: number;
  /** What a full hopper holds, if known [kg] */
  holds_kg?: number;
  /** Hopper measures as typed */
  hopper_typed?: Record<string, Typed>;
}

export interface SpreaderDeleted {
  /** Removed from the shed */
  deleted: boolean;
}

export interface StepJob {
  /** Plan */
  plan_id: string;
  /** Job */
  job: "feed" | "pre_emergent" | "overseed" | "lime" | "aerate" | "soil_test" | "other";
  /** What to do */
  title?: string;
}

export interface StepGround {
  /** Zones */
  zone_ids?: string[];
  /** Feeding group */
  feeding_group?: string;
}

export interface StepWindow {
  /** First day */
  from_on: string;
  /** Last day */
  to_on: string;
}

export interface StepProduct {
  /** Product */
  product_id: string;
  /** Rate [kg/m2] */
  rate_kg_m2?: number;
  /** Rate as typed */
  rate_typed?: Typed;
}

export interface StepLock {
  /** Stays where it is */
  locked: boolean;
}

export interface StepState {
  /** How it stands */
  state: "planned" | "done" | "put_off";
  /** Entry that did it */
  entry_id?: string;
}

export interface StepDeleted {
  /** Removed */
  deleted: boolean;
}

export interface WeatherMonthDays {
  /** First day of the month */
  month: string;
  /** Days of the month by date: date and as known min_c, max_c, mean_c, rain_mm, et0_mm, wind_m_s */
  days: unknown;
  /** File they were read from */
  from_file?: string;
}

export interface WeatherMonthDeleted {
  /** Removed */
  deleted: boolean;
}

export interface ZoneName {
  /** Zone name */
  name: string;
}

export interface ZoneGround {
  /** Area [m2] */
  area_m2: number;
  /** Likely error of the area [m2] */
  area_sd_m2?: number;
  /** How it was measured */
  method: "shapes" | "offsets" | "radii" | "outline" | "gps" | "trace" | "typed";
  /** The measurements as entered: the engine call's arguments and what was typed */
  measured?: unknown;
  /** Outline: corners in metres (x right, y up), holes, round obstacles, the bearing of up: points_m, holes_m, circles_m, north_deg */
  outline?: unknown;
  /** Edges at the water: places in the outline, 0 from its first corner to the second */
  water_edges?: unknown;
}

export interface ZoneStrips {
  /** Strip direction, clockwise from up on the outline [deg] */
  heading_deg?: number;
}

export interface ZoneGrass {
  /** Grass (a key of fixtures/published/grasses.json, or blank) */
  grass?: string;
}

export interface ZoneCut {
  /** Mowing height [mm] */
  cut_height_mm?: number;
  /** Mowing height as typed */
  cut_height_typed?: Typed;
  /** Days between mows, growing season [day] */
  mow_every_days?: number;
}

export interface ZoneSite {
  /** Sun */
  sun?: "sun" | "part_shade" | "shade";
  /** Slope */
  slope?: "level" | "gentle" | "steep";
  /** Soil */
  soil?: string;
  /** Runs down to water */
  near_water?: boolean;
  /** Length of the edge at the water [m] */
  water_edge_m?: number;
  /** Length of the edge at the water as typed */
  water_edge_typed?: Typed;
  /** Keep clear of the water [m] */
  setback_m?: number;
  /** Keep clear of the water as typed */
  setback_typed?: Typed;
  /** Notes and trouble spots */
  remarks?: string;
}

export interface ZoneShow {
  /** The show patch: best of the yard */
  show_patch?: boolean;
}

export interface ZoneDeleted {
  /** Removed */
  deleted: boolean;
}

export interface EntryBody {
  /** Kind of entry */
  kind: "bought" | "mow" | "observation" | "pass" | "reading" | "soil_test" | "spread" | "stock_count" | "tray_test";
  /** When it was done (ISO 8601 with zone offset) */
  occurred_at: string;
  /** Member who did it */
  by?: string;
  /** Zones */
  zone_ids?: string[];
  /** Step of the season plan that it does */
  step_id?: string;
}

export interface BoughtBody extends EntryBody {
  kind: "bought";
  /** Product */
  product_id: string;
  /** Bags [bags] */
  bags?: number;
  /** Net weight of a bag [kg] */
  net_kg?: number;
  /** Net weight as typed */
  net_typed?: Typed;
  /** Weight bought [kg] */
  bought_kg?: number;
  /** Weight bought as typed */
  bought_typed?: Typed;
  /** Price paid */
  price?: number;
  /** What the price is for */
  price_for?: "each" | "all";
  /** Where */
  where?: string;
}

export interface MowBody extends EntryBody {
  kind: "mow";
  /** Cut to [mm] */
  cut_height_mm?: number;
  /** Cut to, as typed */
  cut_height_typed?: Typed;
  /** Height before [mm] */
  height_before_mm?: number;
  /** Height before as typed */
  height_before_typed?: Typed;
  /** How the height before was read */
  height_before_by?: "ruler" | "over_notch";
  /** Likely error of the height before [mm] */
  height_before_error_mm?: number;
  /** Height after, measured [mm] */
  height_after_mm?: number;
  /** Height after as typed */
  height_after_typed?: Typed;
  /** Mower */
  mower_id?: string;
  /** Notch */
  notch?: string;
  /** Why more than a third was cut */
  exception?: "dormant_warm" | "renovation";
  /** Minutes mowed [min] */
  minutes?: number;
  /** Clippings */
  clippings?: "left" | "collected";
  /** Direction */
  direction?: "lengthwise" | "crosswise" | "diagonal" | "diagonal_back";
  /** Cut twice, crosswise */
  double_cut?: boolean;
}

export interface ObservationBody extends EntryBody {
  kind: "observation";
  /** What was seen */
  text: string;
}

export interface PassBody extends EntryBody {
  kind: "pass";
  /** Spreading job it belongs to */
  spread_id: string;
  /** Product */
  product_id: string;
  /** Spreader */
  spreader_id: string;
  /** Sort of the product then */
  sort?: "fertilizer" | "pre_emergent" | "post_emergent" | "lime" | "seed" | "other";
  /** Which pass */
  number: number;
  /** Passes planned */
  passes?: number;
  /** Dial */
  dial: number;
  /** The dial as it was: lowest, highest, step */
  dial_scale?: unknown;
  /** Ground covered [m2] */
  area_m2: number;
  /** In hopper and bag before [kg] */
  start_kg?: number;
  /** Left after [kg] */
  left_kg?: number;
  /** Used [kg] */
  used_kg: number;
  /** Poured in on the way [kg] */
  added_kg?: number;
  /** What was left, as typed */
  left_typed?: Typed;
  /** How the rest was measured */
  measured: "scale" | "level" | "handfuls";
  /** Ran out before the ground was covered */
  ran_out?: boolean;
  /** Nothing came out */
  nothing_came?: boolean;
  /** Left out of learning */
  bad?: boolean;
  /** Product was damp */
  damp?: boolean;
  /** Bulk density then [kg/m3] */
  bulk_density_kg_m3?: number;
  /** Granule size then */
  granules?: "fine" | "medium" | "coarse";
  /** Swath then [m] */
  swath_m?: number;
  /** Speed then [m/s] */
  speed_m_s?: number;
  /** How the strips of this pass lie */
  pattern?: "plain" | "offset" | "crossed";
  /** Where the dial was changed on the way, in order: dial, area_m2, used_kg, measured, left_kg; area_m2 above is their sum, and so is used_kg but where a reading says more is left than the one before it: there used_kg of the part is 0 */
  parts?: unknown;
  /** Looks into the hopper on the way, in order: at, row, area_done_m2, now_kg, measured, typed, dial_before, dial_after; and scorched, where too much lay on the stretch: pass, from, to (rows), area_m2, used_kg, zone_ids */
  checks?: unknown;
  /** Ground this pass left out, such as strips scorched in a pass before: zone_id, area_m2; not counted in area_m2 above */
  out?: unknown;
}

export interface ReadingBody extends EntryBody {
  kind: "reading";
  /** What was read */
  measures: "soil" | "air" | "rain" | "grass";
  /** Temperature [C] */
  temperature_c?: number;
  /** Temperature as typed */
  temperature_typed?: Typed;
  /** Depth in the soil [mm] */
  depth_mm?: number;
  /** Depth as typed */
  depth_typed?: Typed;
  /** Likely error of the thermometer [K] */
  error_c?: number;
  /** Likely error as typed */
  error_typed?: Typed;
  /** Rain in the gauge [mm] */
  rain_mm?: number;
  /** Rain as typed */
  rain_typed?: Typed;
  /** Height of the grass [mm] */
  height_mm?: number;
  /** Height of the grass as typed */
  height_typed?: Typed;
}

export interface SoilTestBody extends EntryBody {
  kind: "soil_test";
  /** pH */
  ph?: number;
  /** Buffer pH */
  buffer_ph?: number;
  /** Phosphorus, P [mg/kg] */
  p_mg_kg?: number;
  /** Phosphorus as typed */
  p_typed?: Typed;
  /** How the lab drew the phosphorus out */
  p_method?: "mehlich_3" | "bray_1" | "olsen" | "other";
  /** Potassium, K [mg/kg] */
  k_mg_kg?: number;
  /** Potassium as typed */
  k_typed?: Typed;
  /** Organic matter [share] */
  organic_share?: number;
  /** Lab */
  lab?: string;
}

export interface SpreadBody extends EntryBody {
  kind: "spread";
  /** Product */
  product_id: string;
  /** Spreader */
  spreader_id?: string;
  /** The aim as chosen: label, nitrogen or bag, with what was typed */
  aim: unknown;
  /** Ground [m2] */
  area_m2: number;
  /** Aim [kg/m2] */
  target_kg_m2: number;
  /** Product put down [kg] */
  used_kg: number;
  /** Sort of the product then */
  sort?: "fertilizer" | "pre_emergent" | "post_emergent" | "lime" | "seed" | "other";
  /** Nitrogen of the product then [%] */
  n_percent?: number;
  /** Phosphate of the product then [%] */
  p2o5_percent?: number;
  /** Slow-release share then [share] */
  slow_n_share?: number;
  /** Per zone, by the ground each pass covered: zone_id, area_m2, used_kg, covered_m2, rate_kg_m2, n_kg_m2, n_most_kg_m2 (where most of it fell), p2o5_kg_m2; a zone never reached has 0 */
  zones: unknown;
  /** Last dial */
  last_dial?: number;
  /** Passes walked */
  passes?: number;
  /** Warnings answered before it: key, kind, zone_ids, right_from, answer, at */
  answered?: unknown;
  /** How the second pass lies */
  pattern?: "plain" | "offset" | "crossed";
}

export interface StockCountBody extends EntryBody {
  kind: "stock_count";
  /** Product */
  product_id: string;
  /** In the shed [kg] */
  left_kg: number;
  /** As typed */
  left_typed?: Typed;
}

export interface TrayTestBody extends EntryBody {
  kind: "tray_test";
  /** Spreader */
  spreader_id: string;
  /** Product */
  product_id?: string;
  /** Catches in grams, left to right */
  catches_g: unknown;
  /** Distance from tray to tray [m] */
  tray_spacing_m: number;
  /** Which way the swaths are walked */
  pattern: "back_and_forth" | "circuit";
  /** Unevenness allowed [share] */
  cv_limit_share?: number;
  /** Widest swath within it [m] */
  widest_m?: number;
  /** Dial */
  dial?: number;
  /** As typed */
  typed?: unknown;
}

export interface Bodies {
  bought: BoughtBody;
  mow: MowBody;
  observation: ObservationBody;
  pass: PassBody;
  reading: ReadingBody;
  soil_test: SoilTestBody;
  spread: SpreadBody;
  stock_count: StockCountBody;
  tray_test: TrayTestBody;
}

/** Every group by its kind and name. */
export interface Groups {
  claim: { claim: ClaimClaim; deleted: ClaimDeleted };
  entry: { void: EntryVoid; learning: EntryLearning; note: EntryNote; when: EntryWhen };
  household: { name: HouseholdName; place: HouseholdPlace; climate: HouseholdClimate; rhythm: HouseholdRhythm; rules: HouseholdRules; forecast: HouseholdForecast };
  member: { name: MemberName; units: MemberUnits; role: MemberRole; active: MemberActive };
  mower: { name: MowerName; deck: MowerDeck; blade: MowerBlade; deleted: MowerDeleted };
  photo: { photo: PhotoPhoto; caption: PhotoCaption; deleted: PhotoDeleted };
  plan: { year: PlanYear; aim: PlanAim; budget: PlanBudget; time: PlanTime; gentle: PlanGentle; skip: PlanSkip; deleted: PlanDeleted };
  product: { name: ProductName; label: ProductLabel; analysis: ProductAnalysis; caution: ProductCaution; price: ProductPrice; granules: ProductGranules; deleted: ProductDeleted };
  settlement: { settled: SettlementSettled; deleted: SettlementDeleted };
  spreader: { name: SpreaderName; dial: SpreaderDial; walking: SpreaderWalking; hopper: SpreaderHopper; deleted: SpreaderDeleted };
  step: { job: StepJob; ground: StepGround; window: StepWindow; product: StepProduct; lock: StepLock; state: StepState; deleted: StepDeleted };
  weather_month: { days: WeatherMonthDays; deleted: WeatherMonthDeleted };
  zone: { name: ZoneName; ground: ZoneGround; strips: ZoneStrips; grass: ZoneGrass; cut: ZoneCut; site: ZoneSite; show: ZoneShow; deleted: ZoneDeleted };
}

/** What a field may hold, and what it is called. */
export interface Rule {
  readonly type: FieldType;
  readonly label: string;
  readonly required?: boolean;
  /** Of the fields so marked one at least must be there. */
  readonly any?: boolean;
  readonly server_only?: boolean;
  readonly low?: number;
  readonly high?: number;
  readonly unit?: string;
  readonly choices?: readonly string[];
  readonly max?: number;
  readonly bytes?: number;
  /** A moment of something done: no further ahead of now than clocks and time zones stand apart. */
  readonly ahead_days?: number;
}

export type Rules = Readonly<Record<string, Rule>>;

export interface KindTable {
  readonly shape: "settings" | "entry" | "server";
  readonly groups: Readonly<Record<string, Rules>>;
  readonly body?: Rules;
  readonly bodies?: Readonly<Record<string, Rules>>;
}

export const KINDS: Readonly<Record<Kind, KindTable>> = {
  claim: {
    shape: "settings",
    groups: {
      claim: {
        job: {"type": "choice", "choices": ["mow", "feed", "spray", "water", "other"], "required": true, "label": "Job"},
        day: {"type": "date", "required": true, "label": "Day"},
        zone_ids: {"type": "ids", "label": "Zones"},
        note: {"type": "text", "max": 200, "label": "Note"},
      },
      deleted: {
        deleted: {"type": "flag", "required": true, "label": "Given up"},
      },
    },
  },
  conflict: {
    shape: "server",
    groups: {
    },
  },
  entry: {
    shape: "entry",
    body: {
      kind: {"type": "choice", "required": true, "label": "Kind of entry", "choices": ["bought", "mow", "observation", "pass", "reading", "soil_test", "spread", "stock_count", "tray_test"]},
      occurred_at: {"type": "moment", "ahead_days": 1, "required": true, "label": "When it was done (ISO 8601 with zone offset)"},
      by: {"type": "id", "label": "Member who did it"},
      zone_ids: {"type": "ids", "label": "Zones"},
      step_id: {"type": "id", "label": "Step of the season plan that it does"},
    },
    bodies: {
      bought: {
        product_id: {"type": "id", "required": true, "label": "Product"},
        bags: {"type": "number", "low": 0.001, "high": 1000, "any": true, "unit": "bags", "label": "Bags"},
        net_kg: {"type": "number", "low": 0.01, "high": 2000, "unit": "kg", "label": "Net weight of a bag"},
        net_typed: {"type": "json", "label": "Net weight as typed"},
        bought_kg: {"type": "number", "low": 0, "high": 20000, "any": true, "unit": "kg", "label": "Weight bought"},
        bought_typed: {"type": "json", "label": "Weight bought as typed"},
        price: {"type": "number", "low": 0, "high": 100000, "label": "Price paid"},
        price_for: {"type": "choice", "choices": ["each", "all"], "label": "What the price is for"},
        where: {"type": "text", "max": 120, "label": "Where"},
      },
      mow: {
        cut_height_mm: {"type": "number", "low": 5, "high": 200, "unit": "mm", "label": "Cut to"},
        cut_height_typed: {"type": "json", "label": "Cut to, as typed"},
        height_before_mm: {"type": "number", "low": 5, "high": 2000, "unit": "mm", "label": "Height before"},
        height_before_typed: {"type": "json", "label": "Height before as typed"},
        height_before_by: {"type": "choice", "choices": ["ruler", "over_notch"], "label": "How the height before was read"},
        height_before_error_mm: {"type": "number", "low": 0.5, "high": 100, "unit": "mm", "label": "Likely error of the height before"},
        height_after_mm: {"type": "number", "low": 2, "high": 500, "unit": "mm", "label": "Height after, measured"},
        height_after_typed: {"type": "json", "label": "Height after as typed"},
        mower_id: {"type": "id", "label": "Mower"},
        notch: {"type": "text", "max": 20, "label": "Notch"},
        exception: {"type": "choice", "choices": ["dormant_warm", "renovation"], "label": "Why more than a third was cut"},
        minutes: {"type": "number", "low": 1, "high": 1440, "unit": "min", "label": "Minutes mowed"},
        clippings: {"type": "choice", "choices": ["left", "collected"], "label": "Clippings"},
        direction: {"type": "choice", "choices": ["lengthwise", "crosswise", "diagonal", "diagonal_back"], "label": "Direction"},
        double_cut: {"type": "flag", "label": "Cut twice, crosswise"},
      },
      observation: {
        text: {"type": "text", "max": 4000, "required": true, "label": "What was seen"},
      },
      pass: {
        spread_id: {"type": "id", "required": true, "label": "Spreading job it belongs to"},
        product_id: {"type": "id", "required": true, "label": "Product"},
        spreader_id: {"type": "id", "required": true, "label": "Spreader"},
        sort: {"type": "choice", "choices": ["fertilizer", "pre_emergent", "post_emergent", "lime", "seed", "other"], "label": "Sort of the product then"},
        number: {"type": "integer", "low": 1, "high": 20, "required": true, "label": "Which pass"},
        passes: {"type": "integer", "low": 1, "high": 20, "label": "Passes planned"},
        dial: {"type": "number", "low": -1000, "high": 1000, "required": true, "label": "Dial"},
        dial_scale: {"type": "json", "label": "The dial as it was: lowest, highest, step"},
        area_m2: {"type": "number", "low": 0.5, "high": 100000, "required": true, "unit": "m2", "label": "Ground covered"},
        start_kg: {"type": "number", "low": 0, "high": 5000, "unit": "kg", "label": "In hopper and bag before"},
        left_kg: {"type": "number", "low": 0, "high": 5000, "unit": "kg", "label": "Left after"},
        used_kg: {"type": "number", "low": 0, "high": 5000, "required": true, "unit": "kg", "label": "Used"},
        added_kg: {"type": "number", "low": 0, "high": 5000, "unit": "kg", "label": "Poured in on the way"},
        left_typed: {"type": "json", "label": "What was left, as typed"},
        measured: {"type": "choice", "choices": ["scale", "level", "handfuls"], "required": true, "label": "How the rest was measured"},
        ran_out: {"type": "flag", "label": "Ran out before the ground was covered"},
        nothing_came: {"type": "flag", "label": "Nothing came out"},
        bad: {"type": "flag", "label": "Left out of learning"},
        damp: {"type": "flag", "label": "Product was damp"},
        bulk_density_kg_m3: {"type": "number", "low": 100, "high": 2500, "unit": "kg/m3", "label": "Bulk density then"},
        granules: {"type": "choice", "choices": ["fine", "medium", "coarse"], "label": "Granule size then"},
        swath_m: {"type": "number", "low": 0.2, "high": 20, "unit": "m", "label": "Swath then"},
        speed_m_s: {"type": "number", "low": 0.3, "high": 3, "unit": "m/s", "label": "Speed then"},
        pattern: {"type": "choice", "choices": ["plain", "offset", "crossed"], "label": "How the strips of this pass lie"},
        parts: {"type": "json", "bytes": 20000, "label": "Where the dial was changed on the way, in order: dial, area_m2, used_kg, measured, left_kg; area_m2 above is their sum, and so is used_kg but where a reading says more is left than the one before it: there used_kg of the part is 0"},
        checks: {"type": "json", "bytes": 50000, "label": "Looks into the hopper on the way, in order: at, row, area_done_m2, now_kg, measured, typed, dial_before, dial_after; and scorched, where too much lay on the stretch: pass, from, to (rows), area_m2, used_kg, zone_ids"},
        out: {"type": "json", "bytes": 20000, "label": "Ground this pass left out, such as strips scorched in a pass before: zone_id, area_m2; not counted in area_m2 above"},
      },
      reading: {
        measures: {"type": "choice", "choices": ["soil", "air", "rain", "grass"], "required": true, "label": "What was read"},
        temperature_c: {"type": "number", "low": -30, "high": 60, "unit": "C", "label": "Temperature"},
        temperature_typed: {"type": "json", "label": "Temperature as typed"},
        depth_mm: {"type": "number", "low": 20, "high": 300, "unit": "mm", "label": "Depth in the soil"},
        depth_typed: {"type": "json", "label": "Depth as typed"},
        error_c: {"type": "number", "low": 0.05, "high": 10, "unit": "K", "label": "Likely error of the thermometer"},
        error_typed: {"type": "json", "label": "Likely error as typed"},
        rain_mm: {"type": "number", "low": 0, "high": 1000, "unit": "mm", "label": "Rain in the gauge"},
        rain_typed: {"type": "json", "label": "Rain as typed"},
        height_mm: {"type": "number", "low": 5, "high": 2000, "unit": "mm", "label": "Height of the grass"},
        height_typed: {"type": "json", "label": "Height of the grass as typed"},
      },
      soil_test: {
        ph: {"type": "number", "low": 3, "high": 11, "any": true, "label": "pH"},
        buffer_ph: {"type": "number", "low": 4, "high": 9, "any": true, "label": "Buffer pH"},
        p_mg_kg: {"type": "number", "low": 0, "high": 5000, "any": true, "unit": "mg/kg", "label": "Phosphorus, P"},
        p_typed: {"type": "json", "label": "Phosphorus as typed"},
        p_method: {"type": "choice", "choices": ["mehlich_3", "bray_1", "olsen", "other"], "label": "How the lab drew the phosphorus out"},
        k_mg_kg: {"type": "number", "low": 0, "high": 10000, "any": true, "unit": "mg/kg", "label": "Potassium, K"},
        k_typed: {"type": "json", "label": "Potassium as typed"},
        organic_share: {"type": "number", "low": 0, "high": 1, "any": true, "unit": "share", "label": "Organic matter"},
        lab: {"type": "text", "max": 120, "label": "Lab"},
      },
      spread: {
        product_id: {"type": "id", "required": true, "label": "Product"},
        spreader_id: {"type": "id", "label": "Spreader"},
        aim: {"type": "json", "required": true, "label": "The aim as chosen: label, nitrogen or bag, with what was typed"},
        area_m2: {"type": "number", "low": 0.5, "high": 100000, "required": true, "unit": "m2", "label": "Ground"},
        target_kg_m2: {"type": "number", "low": 0, "high": 50, "required": true, "unit": "kg/m2", "label": "Aim"},
        used_kg: {"type": "number", "low": 0, "high": 5000, "required": true, "unit": "kg", "label": "Product put down"},
        sort: {"type": "choice", "choices": ["fertilizer", "pre_emergent", "post_emergent", "lime", "seed", "other"], "label": "Sort of the product then"},
        n_percent: {"type": "number", "low": 0, "high": 100, "unit": "%", "label": "Nitrogen of the product then"},
        p2o5_percent: {"type": "number", "low": 0, "high": 100, "unit": "%", "label": "Phosphate of the product then"},
        slow_n_share: {"type": "number", "low": 0, "high": 1, "unit": "share", "label": "Slow-release share then"},
        zones: {"type": "json", "bytes": 200000, "required": true, "label": "Per zone, by the ground each pass covered: zone_id, area_m2, used_kg, covered_m2, rate_kg_m2, n_kg_m2, n_most_kg_m2 (where most of it fell), p2o5_kg_m2; a zone never reached has 0"},
        last_dial: {"type": "number", "low": -1000, "high": 1000, "label": "Last dial"},
        passes: {"type": "integer", "low": 0, "high": 20, "label": "Passes walked"},
        answered: {"type": "json", "label": "Warnings answered before it: key, kind, zone_ids, right_from, answer, at"},
        pattern: {"type": "choice", "choices": ["plain", "offset", "crossed"], "label": "How the second pass lies"},
      },
      stock_count: {
        product_id: {"type": "id", "required": true, "label": "Product"},
        left_kg: {"type": "number", "low": 0, "high": 20000, "required": true, "unit": "kg", "label": "In the shed"},
        left_typed: {"type": "json", "label": "As typed"},
      },
      tray_test: {
        spreader_id: {"type": "id", "required": true, "label": "Spreader"},
        product_id: {"type": "id", "label": "Product"},
        catches_g: {"type": "json", "bytes": 10000, "required": true, "label": "Catches in grams, left to right"},
        tray_spacing_m: {"type": "number", "low": 0.05, "high": 5, "required": true, "unit": "m", "label": "Distance from tray to tray"},
        pattern: {"type": "choice", "choices": ["back_and_forth", "circuit"], "required": true, "label": "Which way the swaths are walked"},
        cv_limit_share: {"type": "number", "low": 0.01, "high": 1, "unit": "share", "label": "Unevenness allowed"},
        widest_m: {"type": "number", "low": 0.05, "high": 100, "unit": "m", "label": "Widest swath within it"},
        dial: {"type": "number", "low": -1000, "high": 1000, "label": "Dial"},
        typed: {"type": "json", "bytes": 20000, "label": "As typed"},
      },
    },
    groups: {
      void: {
        void: {"type": "flag", "required": true, "label": "Struck out"},
        why: {"type": "text", "max": 400, "label": "Why"},
      },
      learning: {
        bad: {"type": "flag", "required": true, "label": "Left out of learning"},
        why: {"type": "text", "max": 400, "label": "Why"},
      },
      note: {
        note: {"type": "text", "max": 4000, "label": "Note"},
      },
      when: {
        occurred_at: {"type": "moment", "ahead_days": 1, "required": true, "label": "When it was done"},
      },
    },
  },
  household: {
    shape: "settings",
    groups: {
      name: {
        name: {"type": "text", "max": 60, "required": true, "label": "Household name"},
      },
      place: {
        latitude_deg: {"type": "number", "low": -90, "high": 90, "unit": "deg", "label": "Latitude"},
        longitude_deg: {"type": "number", "low": -180, "high": 180, "unit": "deg", "label": "Longitude"},
        elevation_m: {"type": "number", "low": -450, "high": 6000, "unit": "m", "label": "Height above the sea"},
        elevation_typed: {"type": "json", "label": "Height above the sea as typed"},
      },
      climate: {
        warmest_c: {"type": "number", "low": -60, "high": 60, "unit": "C", "label": "Mean of the warmest month"},
        coldest_c: {"type": "number", "low": -60, "high": 60, "unit": "C", "label": "Mean of the coldest month"},
        monthly_mean_c: {"type": "json", "label": "Mean temperature of the twelve months, January first"},
        climate_typed: {"type": "json", "label": "The temperatures as typed: warmest, coldest, months"},
        climate_from: {"type": "choice", "choices": ["two", "months", "archive", "own"], "label": "Where the climate comes from"},
        climate_years: {"type": "text", "max": 40, "label": "Years of the means"},
      },
      rhythm: {
        mow_monday: {"type": "flag", "label": "Monday"},
        mow_tuesday: {"type": "flag", "label": "Tuesday"},
        mow_wednesday: {"type": "flag", "label": "Wednesday"},
        mow_thursday: {"type": "flag", "label": "Thursday"},
        mow_friday: {"type": "flag", "label": "Friday"},
        mow_saturday: {"type": "flag", "label": "Saturday"},
        mow_sunday: {"type": "flag", "label": "Sunday"},
      },
      rules: {
        rules_place: {"type": "text", "max": 60, "label": "Country or state (a key of fixtures/published/places.json, or blank)"},
        own_rules: {"type": "json", "bytes": 20000, "label": "Local rules entered by the household, each with its day: as limits.rules takes them"},
      },
      forecast: {
        forecast: {"type": "flag", "server_only": true, "label": "Forecast, from the place rounded to 0.1°"},
      },
    },
  },
  member: {
    shape: "settings",
    groups: {
      name: {
        name: {"type": "text", "max": 60, "required": true, "label": "Your name"},
      },
      units: {
        units: {"type": "choice", "choices": ["us", "metric"], "required": true, "label": "Units"},
      },
      role: {
        role: {"type": "choice", "choices": ["keeper", "member"], "required": true, "server_only": true, "label": "Role"},
      },
      active: {
        active: {"type": "flag", "required": true, "server_only": true, "label": "Still in the household"},
      },
    },
  },
  mower: {
    shape: "settings",
    groups: {
      name: {
        name: {"type": "text", "max": 60, "required": true, "label": "Mower name"},
      },
      deck: {
        notches: {"type": "json", "bytes": 8000, "label": "Notches of the height lever, each with its label and the height it was measured to cut at: label, measured_mm, measured_typed"},
        lowest_mm: {"type": "number", "low": 5, "high": 200, "unit": "mm", "label": "Lowest cutting height"},
        lowest_typed: {"type": "json", "label": "Lowest cutting height as typed"},
        highest_mm: {"type": "number", "low": 10, "high": 200, "unit": "mm", "label": "Highest cutting height"},
        highest_typed: {"type": "json", "label": "Highest cutting height as typed"},
      },
      blade: {
        sharpened_on: {"type": "date", "label": "Blade last sharpened"},
        hours_between: {"type": "number", "low": 1, "high": 500, "unit": "h", "label": "Hours between sharpenings"},
      },
      deleted: {
        deleted: {"type": "flag", "required": true, "label": "Removed from the shed"},
      },
    },
  },
  photo: {
    shape: "settings",
    groups: {
      photo: {
        of: {"type": "choice", "choices": ["entry", "zone"], "required": true, "label": "What it shows"},
        of_id: {"type": "id", "required": true, "label": "Which one it shows"},
        sha256: {"type": "text", "max": 64, "required": true, "label": "SHA-256 of the picture, hexadecimal"},
        width_px: {"type": "integer", "low": 1, "high": 1600, "required": true, "unit": "px", "label": "Width"},
        height_px: {"type": "integer", "low": 1, "high": 1600, "required": true, "unit": "px", "label": "Height"},
        size_bytes: {"type": "integer", "low": 1, "high": 3000000, "required": true, "unit": "byte", "label": "Size"},
        taken_at: {"type": "moment", "label": "When it was taken"},
        thumb: {"type": "text", "max": 11000, "label": "Thumbnail: JPEG of at most 8 kB in base64"},
      },
      caption: {
        caption: {"type": "text", "max": 200, "label": "Caption"},
      },
      deleted: {
        deleted: {"type": "flag", "required": true, "label": "Removed"},
      },
    },
  },
  plan: {
    shape: "settings",
    groups: {
      year: {
        starts_on: {"type": "date", "required": true, "label": "First day of the year planned"},
        southern: {"type": "flag", "required": true, "label": "In the southern half of the globe"},
      },
      aim: {
        level: {"type": "choice", "choices": ["low", "middle", "high"], "required": true, "label": "How much to feed"},
        clippings: {"type": "choice", "choices": ["left", "collected"], "label": "Clippings"},
      },
      budget: {
        budget: {"type": "number", "low": 0, "high": 1000000, "label": "Spend at most"},
      },
      time: {
        evenings_week: {"type": "integer", "low": 0, "high": 7, "label": "Evenings a week"},
        minutes_evening: {"type": "integer", "low": 5, "high": 1440, "unit": "min", "label": "Minutes an evening"},
      },
      gentle: {
        only_gentle: {"type": "flag", "required": true, "label": "Only gentle products"},
      },
      skip: {
        skip_months: {"type": "json", "bytes": 200, "label": "Months without jobs, January being 1"},
      },
      deleted: {
        deleted: {"type": "flag", "required": true, "label": "Removed"},
      },
    },
  },
  product: {
    shape: "settings",
    groups: {
      name: {
        name: {"type": "text", "max": 80, "required": true, "label": "Product name"},
        sort: {"type": "choice", "choices": ["fertilizer", "pre_emergent", "post_emergent", "lime", "seed", "other"], "required": true, "label": "Type of product"},
      },
      label: {
        net_kg: {"type": "number", "low": 0.01, "high": 2000, "required": true, "unit": "kg", "label": "Net weight"},
        net_typed: {"type": "json", "label": "Net weight as typed"},
        coverage_m2: {"type": "number", "low": 0.5, "high": 100000, "unit": "m2", "label": "Coverage"},
        coverage_typed: {"type": "json", "label": "Coverage as typed"},
      },
      analysis: {
        n_percent: {"type": "number", "low": 0, "high": 100, "unit": "%", "label": "Nitrogen, N"},
        p2o5_percent: {"type": "number", "low": 0, "high": 100, "unit": "%", "label": "Phosphate, P2O5"},
        k2o_percent: {"type": "number", "low": 0, "high": 100, "unit": "%", "label": "Potash, K2O"},
        slow_n_share: {"type": "number", "low": 0, "high": 1, "unit": "share", "label": "Share of the nitrogen that is slow-release"},
        source: {"type": "choice", "choices": ["soluble", "sulfur_coated", "polymer_coated", "condensed", "ibdu", "natural"], "label": "Kind of nitrogen"},
      },
      caution: {
        signal_word: {"type": "choice", "choices": ["none", "caution", "warning", "danger"], "label": "Signal word on the label"},
        water_in: {"type": "choice", "choices": ["unsaid", "water_in", "keep_dry"], "label": "Watering after spreading"},
        keep_off_hours: {"type": "number", "low": 0, "high": 720, "unit": "h", "label": "Keep off for"},
        interval_days: {"type": "number", "low": 0, "high": 365, "unit": "day", "label": "Minimum days between uses"},
        uses_year: {"type": "integer", "low": 1, "high": 100, "label": "Most uses in a year"},
        seed_wait_days: {"type": "number", "low": 0, "high": 400, "unit": "day", "label": "Days to sowing"},
        remarks: {"type": "text", "max": 2000, "label": "Other label notes"},
      },
      price: {
        price: {"type": "number", "low": 0, "high": 100000, "label": "Price of one bag"},
      },
      granules: {
        granules: {"type": "choice", "choices": ["fine", "medium", "coarse"], "label": "Granule size"},
        bulk_density_kg_m3: {"type": "number", "low": 100, "high": 2500, "unit": "kg/m3", "label": "Bulk density"},
      },
      deleted: {
        deleted: {"type": "flag", "required": true, "label": "Removed from the shed"},
      },
    },
  },
  settlement: {
    shape: "settings",
    groups: {
      settled: {
        clash: {"type": "text", "max": 400, "required": true, "label": "Which clash, by the key the engine gives it"},
        kind: {"type": "text", "max": 40, "label": "Kind of clash"},
        entry_ids: {"type": "ids", "label": "Log entries it was about"},
        note: {"type": "text", "max": 400, "label": "What was decided"},
      },
      deleted: {
        deleted: {"type": "flag", "required": true, "label": "Opened again"},
      },
    },
  },
  spreader: {
    shape: "settings",
    groups: {
      name: {
        name: {"type": "text", "max": 60, "required": true, "label": "Spreader name"},
        sort: {"type": "choice", "choices": ["rotary", "drop"], "required": true, "label": "Type of spreader"},
      },
      dial: {
        lowest: {"type": "number", "low": -1000, "high": 1000, "required": true, "label": "Lowest number on the dial (closed)"},
        highest: {"type": "number", "low": -1000, "high": 1000, "required": true, "label": "Highest number on the dial (fully open)"},
        step: {"type": "number", "low": 0.01, "high": 100, "required": true, "label": "One click of the dial"},
      },
      walking: {
        swath_m: {"type": "number", "low": 0.2, "high": 20, "required": true, "unit": "m", "label": "Swath: distance between strips"},
        swath_typed: {"type": "json", "label": "Swath as typed"},
        speed_m_s: {"type": "number", "low": 0.3, "high": 3, "required": true, "unit": "m/s", "label": "Walking speed"},
        speed_typed: {"type": "json", "label": "Walking speed as typed"},
        deflector: {"type": "flag", "label": "Has an edge deflector"},
      },
      hopper: {
        top_length_m: {"type": "number", "low": 0.05, "high": 2, "unit": "m", "label": "Hopper length at the top"},
        top_width_m: {"type": "number", "low": 0.05, "high": 2, "unit": "m", "label": "Hopper width at the top"},
        bottom_length_m: {"type": "number", "low": 0.01, "high": 2, "unit": "m", "label": "Hopper length at the bottom"},
        bottom_width_m: {"type": "number", "low": 0.01, "high": 2, "unit": "m", "label": "Hopper width at the bottom"},
        height_m: {"type": "number", "low": 0.05, "high": 2, "unit": "m", "label": "Hopper height"},
        holds_kg: {"type": "number", "low": 0.1, "high": 500, "unit": "kg", "label": "What a full hopper holds, if known"},
        hopper_typed: {"type": "json", "label": "Hopper measures as typed"},
      },
      deleted: {
        deleted: {"type": "flag", "required": true, "label": "Removed from the shed"},
      },
    },
  },
  step: {
    shape: "settings",
    groups: {
      job: {
        plan_id: {"type": "id", "required": true, "label": "Plan"},
        job: {"type": "choice", "choices": ["feed", "pre_emergent", "overseed", "lime", "aerate", "soil_test", "other"], "required": true, "label": "Job"},
        title: {"type": "text", "max": 120, "label": "What to do"},
      },
      ground: {
        zone_ids: {"type": "ids", "label": "Zones"},
        feeding_group: {"type": "text", "max": 60, "label": "Feeding group"},
      },
      window: {
        from_on: {"type": "date", "required": true, "label": "First day"},
        to_on: {"type": "date", "required": true, "label": "Last day"},
      },
      product: {
        product_id: {"type": "id", "required": true, "label": "Product"},
        rate_kg_m2: {"type": "number", "low": 1e-06, "high": 50, "unit": "kg/m2", "label": "Rate"},
        rate_typed: {"type": "json", "label": "Rate as typed"},
      },
      lock: {
        locked: {"type": "flag", "required": true, "label": "Stays where it is"},
      },
      state: {
        state: {"type": "choice", "choices": ["planned", "done", "put_off"], "required": true, "label": "How it stands"},
        entry_id: {"type": "id", "label": "Entry that did it"},
      },
      deleted: {
        deleted: {"type": "flag", "required": true, "label": "Removed"},
      },
    },
  },
  weather_month: {
    shape: "settings",
    groups: {
      days: {
        month: {"type": "date", "required": true, "label": "First day of the month"},
        days: {"type": "json", "bytes": 8000, "required": true, "label": "Days of the month by date: date and as known min_c, max_c, mean_c, rain_mm, et0_mm, wind_m_s"},
        from_file: {"type": "text", "max": 120, "label": "File they were read from"},
      },
      deleted: {
        deleted: {"type": "flag", "required": true, "label": "Removed"},
      },
    },
  },
  zone: {
    shape: "settings",
    groups: {
      name: {
        name: {"type": "text", "max": 60, "required": true, "label": "Zone name"},
      },
      ground: {
        area_m2: {"type": "number", "low": 0.5, "high": 100000, "required": true, "unit": "m2", "label": "Area"},
        area_sd_m2: {"type": "number", "low": 0, "high": 50000, "unit": "m2", "label": "Likely error of the area"},
        method: {"type": "choice", "choices": ["shapes", "offsets", "radii", "outline", "gps", "trace", "typed"], "required": true, "label": "How it was measured"},
        measured: {"type": "json", "bytes": 240000, "label": "The measurements as entered: the engine call's arguments and what was typed"},
        outline: {"type": "json", "bytes": 40000, "label": "Outline: corners in metres (x right, y up), holes, round obstacles, the bearing of up: points_m, holes_m, circles_m, north_deg"},
        water_edges: {"type": "json", "bytes": 4000, "label": "Edges at the water: places in the outline, 0 from its first corner to the second"},
      },
      strips: {
        heading_deg: {"type": "number", "low": 0, "high": 360, "unit": "deg", "label": "Strip direction, clockwise from up on the outline"},
      },
      grass: {
        grass: {"type": "text", "max": 60, "label": "Grass (a key of fixtures/published/grasses.json, or blank)"},
      },
      cut: {
        cut_height_mm: {"type": "number", "low": 5, "high": 200, "unit": "mm", "label": "Mowing height"},
        cut_height_typed: {"type": "json", "label": "Mowing height as typed"},
        mow_every_days: {"type": "number", "low": 1, "high": 60, "unit": "day", "label": "Days between mows, growing season"},
      },
      site: {
        sun: {"type": "choice", "choices": ["sun", "part_shade", "shade"], "label": "Sun"},
        slope: {"type": "choice", "choices": ["level", "gentle", "steep"], "label": "Slope"},
        soil: {"type": "text", "max": 60, "label": "Soil"},
        near_water: {"type": "flag", "label": "Runs down to water"},
        water_edge_m: {"type": "number", "low": 0.1, "high": 5000, "unit": "m", "label": "Length of the edge at the water"},
        water_edge_typed: {"type": "json", "label": "Length of the edge at the water as typed"},
        setback_m: {"type": "number", "low": 0, "high": 100, "unit": "m", "label": "Keep clear of the water"},
        setback_typed: {"type": "json", "label": "Keep clear of the water as typed"},
        remarks: {"type": "text", "max": 2000, "label": "Notes and trouble spots"},
      },
      show: {
        show_patch: {"type": "flag", "label": "The show patch: best of the yard"},
      },
      deleted: {
        deleted: {"type": "flag", "required": true, "label": "Removed"},
      },
    },
  },
};
