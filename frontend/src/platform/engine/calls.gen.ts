/** Written by `uv run manage.py types` from the engine's docstrings: what each call takes and answers. */
import type { EngineError } from "./types";

/** Area of ground walked round with a phone, from its fixes in the order they came. A fix worse than the worst accuracy is left out (inaccurate), and so is one nearer to the fix before than half a metre or a fifth of its accuracy (too_close): what lies between such fixes is the phone's jitter. The last fixes near the first are the first again (too_close). Where the walk's end crosses its beginning, the fewest last fixes within reach of the first are left out (past_start). Any other crossing is refused. The error follows from the corners' parts in the area and each fix's own accuracy, the radius of 95 % (the standard's confidence level). What all fixes share, such as a shift of the whole sky, moves the ground and leaves its area; errors of neighbouring fixes are alike over some 15 m of walking, which makes the area less sure than independent errors would. No less than the published 1.6 % is ever stated. */
export interface AreaGpsArgs {
  /** the fixes in order round the edge, 3 to 5000 */
  fixes: readonly {
    /** latitude, north positive [deg] */
    lat: number;
    /** longitude, east positive [deg] */
    lon: number;
    /** accuracy as the phone states it [m] */
    accuracy_m: number;
  }[];
  /** worst accuracy taken; 10 when not said [m] */
  worst_accuracy_m?: number;
}

export interface AreaGpsValue {
  /** area [m2] */
  area_m2: number;
  /** its likely error, one standard deviation [m2] */
  sd_m2: number;
  /** corners [x, y] east and north of the first kept fix */
  points_m: [number, number][];
  /** length of the edge [m] */
  perimeter_m: number;
  /** lat and lon of the first kept fix */
  origin: {
    /** latitude, north positive [deg] */
    lat: number;
    /** longitude, east positive [deg] */
    lon: number;
  };
  /** every fix left out */
  left_out: {
    /** its place in the list, from 0 [place] */
    index: number;
    /** what was wrong with it */
    why: "inaccurate" | "too_close" | "past_start";
  }[];
}

/** Area of a free shape from widths measured square to a line, equally far apart. */
export interface AreaOffsetsArgs {
  /** distance from one offset to the next [m] */
  spacing_m: number;
  /** the widths in order, 2 to 400; both ends included (0 where the shape comes to a point), except for sum, where each stands in the middle of a strip as wide as the spacing */
  offsets_m: readonly number[];
  /** trapezoid (ends count half, the default), simpson (odd number of offsets) or sum (the handbooks' sum times spacing, for widths from the middle of equal strips or ends of 0) */
  method?: "trapezoid" | "simpson" | "sum";
}

export interface AreaOffsetsValue {
  /** area [m2] */
  area_m2: number;
  /** likely error, from the published "within 5 %" taken as two standard deviations [m2] */
  sd_m2: number;
  /** corners [x, y] over the line, drawn straight from offset to offset, sized to the area for simpson; null where an offset between the ends is 0 */
  outline_m: [number, number][] | null;
}

/** Area inside an outline of straight edges, less its holes. */
export interface AreaOutlineArgs {
  /** corners [x, y] in order round the edge, in metres; 3 to 400, the first may be repeated last */
  points_m: readonly (readonly [number, number])[];
  /** such lists of corners, one for each bed, tree or building cut out; up to 40 */
  holes_m?: readonly (readonly (readonly [number, number])[])[];
  /** round obstacles cut out, up to 40 */
  circles_m?: readonly {
    /** middle, across [m] */
    x_m: number;
    /** middle, up [m] */
    y_m: number;
    /** radius [m] */
    radius_m: number;
  }[];
  /** how far a corner is likely off along each axis, on its own [m] */
  corner_error_m?: number;
}

export interface AreaOutlineValue {
  /** area [m2] */
  area_m2: number;
  /** length of all edges, those of holes and round obstacles included [m] */
  perimeter_m: number;
  /** length of the outer edge alone [m] */
  outer_perimeter_m: number;
  /** the holes, and the round obstacles as 24 corners of the same area */
  holes_m: [number, number][][];
  /** likely error, one standard deviation; null where no corner error is given [m2] */
  sd_m2: number | null;
}

/** Area of a roundish shape from distances to its edge, taken from one inner point at equal angles. */
export interface AreaRadiiArgs {
  /** the distances in order, 3 to 360 of them */
  radii_m: readonly number[];
  /** mean (the handbooks' circle of the mean radius, the default) or sectors (a sector for each) */
  method?: "mean" | "sectors";
}

export interface AreaRadiiValue {
  /** area [m2] */
  area_m2: number;
  /** likely error: how unevenly the radii lie, and 2 % on each of them [m2] */
  sd_m2: number;
  /** corners [x, y] round the inner point, the first radius upwards and the others clockwise, drawn evenly from radius to radius and sized to the area */
  outline_m: [number, number][];
}

/** Area of ground pieced together from shapes, some of them cut out. */
export interface AreaShapesArgs {
  /** the shapes, 1 to 40 */
  parts: readonly {
    /** rectangle, triangle, circle, ellipse or trapezoid */
    shape: "rectangle" | "triangle" | "circle" | "ellipse" | "trapezoid";
    /** true to add the shape, false to cut it out; added when not said */
    add?: boolean;
    /** of a rectangle or ellipse [m] */
    length_m?: number;
    /** of a rectangle or ellipse [m] */
    width_m?: number;
    /** of a triangle [m] */
    base_m?: number;
    /** of a triangle or trapezoid [m] */
    height_m?: number;
    /** first side of a triangle, in place of base and height [m] */
    a_m?: number;
    /** second side [m] */
    b_m?: number;
    /** third side [m] */
    c_m?: number;
    /** of a circle [m] */
    radius_m?: number;
    /** of a trapezoid [m] */
    side_a_m?: number;
    /** of a trapezoid [m] */
    side_b_m?: number;
  }[];
  /** how far one measured length is likely off; 0.02 is assumed and said so [share] */
  length_error_share?: number;
}

export interface AreaShapesValue {
  /** area [m2] */
  area_m2: number;
  /** its likely error, one standard deviation [m2] */
  sd_m2: number;
  /** true where the error rests on the assumed 0.02 */
  estimated: boolean;
  /** corners [x, y] of a single shape, drawn even where its lengths leave it open, a curve as corners with its area; null where several shapes are added or cut out */
  outline_m: [number, number][] | null;
}

/** Sides of an outline: from corner to corner, a rounded edge cut where it has turned a quarter. A corner is a turn of more than 30 degrees. Edge 0 runs from the first corner to the second; the last one closes the outline. */
export interface AreaSidesArgs {
  /** corners [x, y] in order round the edge, in metres; 3 to 400 */
  points_m: readonly (readonly [number, number])[];
}

export interface AreaSidesValue {
  /** the sides in order round the edge */
  sides: {
    /** its number, from 1 [sides] */
    number: number;
    /** its edges */
    edges: number[];
    /** its length [m] */
    length_m: number;
  }[];
}

/** Area of several zones together. */
export interface AreaTotalArgs {
  /** the zones; none have no area */
  zones: readonly {
    /** the zone, once only */
    id: string;
    /** its area [m2] */
    area_m2: number;
  }[];
}

export interface AreaTotalValue {
  /** all of them [m2] */
  area_m2: number;
}

/** Area traced on a picture of a plan, in metres by one or more distances known on it. The scale is the mean of what each known distance gives, each weighted by how sure it is: its own share of error, and the pointing at its two ends. Where they differ by more than that, the error grows with it. */
export interface AreaTraceArgs {
  /** corners [x, y] on the picture, y downwards, 3 to 400; the first may be repeated last */
  points_px: readonly (readonly [number, number])[];
  /** the known distances, 1 to 20 */
  known: readonly {
    /** first end, across [px] */
    x1: number;
    /** first end, down [px] */
    y1: number;
    /** second end, across [px] */
    x2: number;
    /** second end, down [px] */
    y2: number;
    /** how far apart they are on the ground [m] */
    distance_m: number;
  }[];
  /** such lists of corners, one for each bed or building cut out; up to 40 */
  holes_px?: readonly (readonly (readonly [number, number])[])[];
  /** how far one known distance is likely off; 0.02 is assumed and said so [share] */
  distance_error_share?: number;
  /** how far a corner is likely pointed wrong; 3 when not said [px] */
  pointing_px?: number;
  /** where north points on the picture, clockwise from up [deg] */
  north_px_deg?: number;
}

export interface AreaTraceValue {
  /** area [m2] */
  area_m2: number;
  /** its likely error, one standard deviation [m2] */
  sd_m2: number;
  /** corners [x, y] from the first corner, y up; turned so that up is north where north is told */
  points_m: [number, number][];
  /** the holes' corners alike */
  holes_m: [number, number][][];
  /** length of all edges, those of the holes included [m] */
  perimeter_m: number;
  /** scale of the picture [m/px] */
  metres_per_px: number;
  /** its likely error [share] */
  scale_sd_share: number;
  /** bearing of up, which is 0 where north is told; else null [deg] */
  north_deg: number | null;
}

/** The line walked so far, by the same choice of fixes as the area's; one fix is enough, and it may be a bad one. */
export interface AreaTrackArgs {
  /** the fixes in order, 1 to 5000 */
  fixes: readonly {
    /** latitude, north positive [deg] */
    lat: number;
    /** longitude, east positive [deg] */
    lon: number;
    /** accuracy as the phone states it [m] */
    accuracy_m: number;
  }[];
  /** worst accuracy taken; 10 when not said [m] */
  worst_accuracy_m?: number;
}

export interface AreaTrackValue {
  /** [x, y] east and north of the first kept fix */
  points_m: [number, number][];
  /** length of the line [m] */
  length_m: number;
  /** [x, y] of the last fix, kept or not; null while none is kept */
  here_m: [number, number] | null;
  /** lat and lon of the first kept fix; null while none is kept */
  origin: {
    /** latitude, north positive [deg] */
    lat: number;
    /** longitude, east positive [deg] */
    lon: number;
  } | null;
  /** every fix left out */
  left_out: {
    /** its place in the list, from 0 [place] */
    index: number;
    /** what was wrong with it */
    why: "inaccurate" | "too_close" | "past_start";
  }[];
}

/** The ledger's second line: nitrogen of all feeds of each zone that is free on a day, beside what was put down. */
export interface FeedingAvailableArgs {
  /** feeds of all zones, up to 500 */
  feeds: readonly {
    /** the zone fed */
    zone: string;
    /** day it was put down */
    applied: string;
    /** nitrogen put down [kg/m2] */
    n_kg_m2: number;
    /** slow-release share of it [share] */
    slow_n_share: number;
    /** kind of its slow nitrogen */
    source: "soluble" | "sulfur_coated" | "polymer_coated" | "condensed" | "ibdu" | "natural";
    /** as of `feeding.release` [share] */
    free_in_ten_weeks_share?: number;
  }[];
  /** soil of every day up to today at least, none left out; a feed before them counts as of their first */
  days: readonly {
    /** the day */
    date: string;
    /** mean soil temperature [C] */
    soil_c: number;
  }[];
  /** the day asked about */
  today: string;
}

export interface FeedingAvailableValue {
  /** each zone that was fed by then */
  zones: {
    /** the zone */
    zone_id: string;
    /** nitrogen put down in the days told of [kg/m2] */
    put_down_kg_m2: number;
    /** nitrogen that comes free today [kg/m2] */
    free_today_kg_m2: number;
    /** nitrogen that has come free, today with it [kg/m2] */
    free_kg_m2: number;
    /** nitrogen that has not [kg/m2] */
    left_kg_m2: number;
  }[];
  /** each of the days, zone by zone */
  daily: {
    /** the zone */
    zone_id: string;
    /** the day */
    date: string;
    /** nitrogen that comes free on it [kg/m2] */
    n_kg_m2: number;
  }[];
}

/** Whether a product can burn a zone today, by `limits.check`: its quick nitrogen, the grass, heat and drought. Salt-prone is a product whose nitrogen is quick: it lies on the leaf as a soluble salt. Nitrogen of unknown release counts as quick, but that of a natural product as slow. */
export interface FeedingBurnArgs {
  /** what is about to be put down */
  job: {
    /** the zone */
    zone: string;
    /** the product */
    product?: string;
    /** nitrogen per area; not known when not said [kg/m2] */
    n_kg_m2?: number;
    /** slow-release share of it [share] */
    slow_n_share?: number;
    /** kind of its slow nitrogen */
    source?: "soluble" | "sulfur_coated" | "polymer_coated" | "condensed" | "ibdu" | "natural";
    /** whether it is watered in */
    watered_in?: boolean;
  };
  /** the zones, as `limits.check` takes them */
  zones: LimitsCheckArgs["zones"];
  /** rules as `limits.rules` gives them */
  rules: LimitsCheckArgs["rules"];
  /** the day */
  today: string;
  /** key of the place, likewise */
  place?: string;
  /** days of weather, likewise */
  days?: LimitsCheckArgs["days"];
  /** jobs done before it */
  before?: readonly {
    /** the job */
    id: string;
    /** its day */
    date: string;
    /** its zone */
    zone: string;
    /** nitrogen per area [kg/m2] */
    n_kg_m2?: number;
    /** slow-release share of it [share] */
    slow_n_share?: number;
    /** sort of product */
    sort?: string;
    /** its product */
    product?: string;
  }[];
  /** whether the person is new to it */
  beginner?: boolean;
}

export interface FeedingBurnValue {
  /** yes where a rule speaks against it, careful where an overlap or a dry day is enough, else no */
  can_burn: "yes" | "careful" | "no";
  /** whether its nitrogen is mostly quick */
  salt_prone: boolean;
  /** the answer in plain words: what to do and why */
  says: string;
  /** whether a beginner is told to begin with a gentle product */
  begin_gentle: boolean;
  /** its quick nitrogen; null where not known [kg/m2] */
  quick_n_kg_m2: number | null;
  /** quick nitrogen that may go on at once; null where no rule says [kg/m2] */
  most_kg_m2: number | null;
  /** kinds of rule that speak against it, as `limits.check` has them */
  reasons: string[];
  /** who says so */
  source: string;
}

/** From when to when the colour of a feed is expected. The soonest day goes by what people see (7 to 12 days for a natural feed once soil is over 55 F), the latest by the published release, which is slow until the 60s F. So the range is wide in cool soil, and narrow in warm. */
export interface FeedingGreenUpArgs {
  /** kind of its slow nitrogen */
  source: "soluble" | "sulfur_coated" | "polymer_coated" | "condensed" | "ibdu" | "natural";
  /** slow-release share of its nitrogen [share] */
  slow_n_share: number;
  /** day it was put down */
  applied: string;
  /** soil of every day from then on, measured or forecast, none left out; days before it do no harm */
  days: readonly {
    /** the day */
    date: string;
    /** mean soil temperature [C] */
    soil_c: number;
  }[];
}

export interface FeedingGreenUpValue {
  /** the soonest day, null where it waits beyond the days told */
  from: string | null;
  /** the latest day, null where it lies beyond the days told */
  to: string | null;
  /** what it goes by */
  why: "quick" | "slow" | "waits" | "not_known";
  /** the same in a sentence */
  says: string;
  /** days to the soonest; null likewise [day] */
  least_days: number | null;
  /** days to the latest; null likewise [day] */
  most_days: number | null;
}

/** Share of its best growth that a temperature allows. */
export interface FeedingGrowthPotentialArgs {
  /** mean temperature of a day or a month [C] */
  mean_c: number;
  /** season of the grass */
  turf: "cool" | "warm";
}

export interface FeedingGrowthPotentialValue {
  /** 0 to 1 [share] */
  potential: number;
  /** good from a half, slowed down to a tenth, else nearly stopped */
  reading: "good" | "slowed" | "nearly_stopped";
}

/** How many weeks a feed lasts until the next one is due, at least and at most. */
export interface FeedingLastsArgs {
  /** kind of its slow nitrogen */
  source: "soluble" | "sulfur_coated" | "polymer_coated" | "condensed" | "ibdu" | "natural";
  /** slow-release share of its nitrogen; none when not said, but a natural one is slow [share] */
  slow_n_share?: number;
}

export interface FeedingLastsValue {
  /** weeks at least [weeks] */
  least_weeks: number;
  /** weeks at most [weeks] */
  most_weeks: number;
  /** quick under a fifth slow, slow from a half or natural, part between */
  lasting: "quick" | "part" | "slow";
}

/** Nitrogen a zone has had in the calendar year of today, up to a day ahead. A day, since clocks and time zones stand apart; what is dated later has not been done, as in `record.totals`. Nitrogen of unknown slow-release share counts as quick: the cautious side. */
export interface FeedingLedgerArgs {
  /** feedings of any zone and year, up to 5000 */
  entries: readonly {
    /** day of the feeding */
    date: string;
    /** the zone fed */
    zone: string;
    /** nitrogen per area [kg/m2] */
    n_kg_m2: number;
    /** slow-release share of it [share] */
    slow_share?: number;
  }[];
  /** the zone asked about */
  zone: string;
  /** the day asked about */
  today: string;
  /** the ceilings that apply, none of them needed */
  ceilings: {
    /** for the year [kg/m2] */
    n_year_kg_m2?: number;
    /** for one day [kg/m2] */
    n_once_kg_m2?: number;
    /** for the quick part on one day [kg/m2] */
    n_quick_once_kg_m2?: number;
  };
}

export interface FeedingLedgerValue {
  /** nitrogen so far this year [kg/m2] */
  n_year_kg_m2: number;
  /** the part known to be slow-release [kg/m2] */
  slow_n_year_kg_m2: number;
  /** what the year's ceiling leaves, null without a ceiling; never below 0 [kg/m2] */
  left_kg_m2: number | null;
  /** each ceiling passed */
  breaches: {
    /** which one, as it is named among the ceilings */
    ceiling: "n_year_kg_m2" | "n_once_kg_m2" | "n_quick_once_kg_m2";
    /** what it allows [kg/m2] */
    limit_kg_m2: number;
    /** what was put down [kg/m2] */
    n_kg_m2: number;
    /** day it was passed */
    date: string;
  }[];
  /** days the zone was fed this year [days] */
  feedings: number;
}

/** Nitrogen that each month's growth asks for; an aim to be shared out, not a permission. */
export interface FeedingMonthNeedsArgs {
  /** means of the twelve months, January first */
  monthly_mean_c: readonly number[];
  /** season of the grass */
  turf: "cool" | "warm";
  /** nitrogen of a month of the best growth [kg/m2] */
  n_max_month_kg_m2: number;
}

export interface FeedingMonthNeedsValue {
  /** nitrogen of each month, January first */
  n_kg_m2: number[];
  /** nitrogen of the year [kg/m2] */
  n_year_kg_m2: number;
  /** growth potential of each month */
  potential: number[];
}

/** Nitrogen of one feed that comes free on each day, by its kind and the warmth of the soil. Its quick part is spread over four weeks. Coats and IBDU let go evenly, by days of warm soil. What microbes let go (urea forms, natural) comes first order, next to nothing under 10 to 13 C. */
export interface FeedingReleaseArgs {
  /** nitrogen put down [kg/m2] */
  n_kg_m2: number;
  /** slow-release share of it [share] */
  slow_n_share: number;
  /** kind of its slow nitrogen */
  source: "soluble" | "sulfur_coated" | "polymer_coated" | "condensed" | "ibdu" | "natural";
  /** day it was put down */
  applied: string;
  /** soil of every day from then on, none left out; days before it do no harm */
  days: readonly {
    /** the day */
    date: string;
    /** mean soil temperature [C] */
    soil_c: number;
  }[];
  /** share of a natural product free after ten warm weeks: 0.7 manure or feather meal, 0.6 biosolids, 0.2 hog waste; 0.6 when not said [share] */
  free_in_ten_weeks_share?: number;
}

export interface FeedingReleaseValue {
  /** each day from the feed on */
  daily: {
    /** the day */
    date: string;
    /** nitrogen that comes free on it [kg/m2] */
    n_kg_m2: number;
  }[];
  /** nitrogen that has come free in all [kg/m2] */
  free_kg_m2: number;
  /** nitrogen that has not [kg/m2] */
  left_kg_m2: number;
  /** what it does on the last day */
  state: "quick" | "waits" | "frees" | "used";
  /** the same in a sentence */
  says: string;
}

/** Nitrogen to aim at in a year on each zone; an aim to plan by, never more than `limits.ceilings` allows. Low is the lowest figure printed for the grass, high the lowest of the printed ranges' ends, middle lies halfway. */
export interface FeedingYearlyAimArgs {
  /** the zones, up to 1000 */
  zones: readonly {
    /** the zone, once only */
    id: string;
    /** key of its grass */
    grass?: string;
    /** sun, part_shade or shade */
    sun?: string;
    /** published ranges of the year for its grass */
    year_rows?: readonly {
      /** the least of the range [kg/m2] */
      low_kg_m2?: number;
      /** the most of the range [kg/m2] */
      high_kg_m2?: number;
      /** keys of what it is printed in */
      sources?: readonly string[];
    }[];
  }[];
  /** how green it is to be */
  level: "low" | "middle" | "high";
  /** whether they are left on the grass; no when not said */
  clippings?: boolean;
  /** how much less then; a quarter when not said, which is the most [share] */
  less_share?: number;
}

export interface FeedingYearlyAimValue {
  /** each zone */
  zones: {
    /** the zone */
    zone_id: string;
    /** nitrogen to aim at; null where nothing is published [kg/m2] */
    n_year_kg_m2: number | null;
    /** the same for low, with shade and clippings [kg/m2] */
    low_kg_m2: number | null;
    /** the same for middle [kg/m2] */
    middle_kg_m2: number | null;
    /** the same for high [kg/m2] */
    high_kg_m2: number | null;
    /** what shade and clippings leave of the printed figure [share] */
    share: number;
  }[];
}

/** Bulk density of a product from a measure of it, filled level and weighed. */
export interface HopperDensityArgs {
  /** weight of the product in the measure, without the measure [kg] */
  sample_kg: number;
  /** volume of the measure [m3] */
  sample_m3: number;
}

export interface HopperDensityValue {
  /** mass of the loose product per volume [kg/m3] */
  bulk_density_kg_m3: number;
}

/** How often a hopper is filled to put down a mass. */
export interface HopperFillsArgs {
  /** product to put down [kg] */
  mass_kg: number;
  /** what a full hopper holds [kg] */
  capacity_kg: number;
}

export interface HopperFillsValue {
  /** fills, the last one perhaps not full; 0 for nothing [fills] */
  fills: number;
}

/** Level at which a mass stands in the hopper. */
export interface HopperLevelArgs {
  /** inside length at the rim [m] */
  top_length_m: number;
  /** inside width at the rim [m] */
  top_width_m: number;
  /** inside length at the floor [m] */
  bottom_length_m: number;
  /** inside width at the floor [m] */
  bottom_width_m: number;
  /** inside height [m] */
  height_m: number;
  /** mass in the hopper, no more than it holds [kg] */
  mass_kg: number;
  /** mass of the loose product per volume [kg/m3] */
  bulk_density_kg_m3: number;
}

export interface HopperLevelValue {
  /** height of the level as a share of the hopper's [share] */
  level_share: number;
  /** mass of a level-full hopper [kg] */
  capacity_kg: number;
}

/** Mass in the hopper at a level, with its likely error and what the hopper holds. */
export interface HopperMassArgs {
  /** inside length at the rim [m] */
  top_length_m: number;
  /** inside width at the rim [m] */
  top_width_m: number;
  /** inside length at the floor [m] */
  bottom_length_m: number;
  /** inside width at the floor [m] */
  bottom_width_m: number;
  /** inside height [m] */
  height_m: number;
  /** height of the level as a share of the hopper's [share] */
  level_share: number;
  /** mass of the loose product per volume [kg/m3] */
  bulk_density_kg_m3: number;
}

export interface HopperMassValue {
  /** mass below the level [kg] */
  mass_kg: number;
  /** likely error, 8 % of what is there [kg] */
  sd_kg: number;
  /** mass of a level-full hopper [kg] */
  capacity_kg: number;
}

/** What to put down: the label's rate, a wanted nitrogen, or bags over this ground; never what no label could allow. */
export interface LabelAimArgs {
  /** the aim as chosen */
  aim: {
    /** label, nitrogen or bag */
    kind: "label" | "nitrogen" | "bag";
    /** nitrogen wanted, for kind nitrogen [kg/m2] */
    n_kg_m2?: number;
    /** bags to put down, for kind bag [bags] */
    bags?: number;
  };
  /** ground to cover [m2] */
  area_m2: number;
  /** net weight of one bag [kg] */
  net_kg: number;
  /** ground one bag covers by its label; needed for kind label [m2] */
  coverage_m2?: number;
  /** nitrogen on the label; needed for kind nitrogen [%] */
  n_percent?: number;
  /** phosphate, P2O5, on the label [%] */
  p2o5_percent?: number;
  /** sort of the product */
  sort?: string;
}

export interface LabelAimValue {
  /** product per area [kg/m2] */
  target_kg_m2: number;
  /** product for the ground [kg] */
  mass_kg: number;
  /** what a scale may show of it, since none can be set finer than 2 % [kg] */
  load_most_kg: number;
  /** the same in bags, not rounded [bags] */
  bags: number;
  /** nitrogen per area, null if the label's nitrogen is unknown [kg/m2] */
  n_kg_m2: number | null;
  /** phosphate per area, null if the label's is unknown [kg/m2] */
  p2o5_kg_m2: number | null;
  /** aim over label rate, null if the coverage is unknown [share] */
  label_share: number | null;
  /** false, since an aim over the label is refused; null if the coverage is unknown */
  over_label: boolean | null;
}

/** Sets of up to four zones that suit one bag, best first. A set a little larger than the coverage gets a little less than the label's rate from the whole bag. A set a little smaller gets the label's rate, and the rest stays in the bag: the whole bag would be over the label. */
export interface LabelMatchArgs {
  /** ground one bag covers by its label [m2] */
  coverage_m2: number;
  /** the zones to choose from, 1 to 30 */
  zones: readonly {
    /** the zone */
    id: string;
    /** its area [m2] */
    area_m2: number;
  }[];
  /** how far below the label's rate a set may come, or how much of the bag may stay in it; 0.05 when not said [share] */
  tolerance_share?: number;
  /** net weight of the bag, for what stays in it [kg] */
  net_kg?: number;
}

export interface LabelMatchValue {
  /** up to 12 sets of zones */
  choices: {
    /** its zones */
    ids: string[];
    /** their ground [m2] */
    area_m2: number;
    /** rate over label rate, never over 1 [share] */
    rate_share: number;
    /** share of the bag, staying in it [share] */
    left_share: number;
    /** the same as a mass; null without a net weight [kg] */
    left_kg: number | null;
  }[];
}

/** Product, whole bags and money an area takes. */
export interface LabelNeededArgs {
  /** ground to cover [m2] */
  area_m2: number;
  /** product per area [kg/m2] */
  rate_kg_m2: number;
  /** net weight of one bag [kg] */
  net_kg: number;
  /** price of one bag [money] */
  price?: number;
}

export interface LabelNeededValue {
  /** product the area takes [kg] */
  mass_kg: number;
  /** whole bags to buy [bags] */
  bags: number;
  /** what is left of the last bag [kg] */
  left_over_kg: number;
  /** money for the whole bags, null if no price is known [money] */
  cost: number | null;
}

/** Money for one kilogram of the nitrogen in a bag, to compare bags by. */
export interface LabelNitrogenPriceArgs {
  /** price of one bag [money] */
  price: number;
  /** net weight of the bag [kg] */
  net_kg: number;
  /** nitrogen on the label [%] */
  n_percent: number;
}

export interface LabelNitrogenPriceValue {
  /** money per kilogram of nitrogen [money/kg] */
  price_per_kg_n: number;
}

/** Nitrogen, phosphate and potash per area; what the label does not say stays unknown (null). */
export interface LabelNutrientsArgs {
  /** product per area [kg/m2] */
  rate_kg_m2: number;
  /** nitrogen on the label [%] */
  n_percent: number;
  /** phosphate, P2O5, on the label [%] */
  p2o5_percent?: number;
  /** potash, K2O, on the label [%] */
  k2o_percent?: number;
  /** slow-release share of the nitrogen [share] */
  slow_n_share?: number;
}

export interface LabelNutrientsValue {
  /** nitrogen per area [kg/m2] */
  n_kg_m2: number;
  /** phosphate per area, null if unknown [kg/m2] */
  p2o5_kg_m2: number | null;
  /** potash per area, null if unknown [kg/m2] */
  k2o_kg_m2: number | null;
  /** phosphorus per area, null if unknown [kg/m2] */
  p_kg_m2: number | null;
  /** potassium per area, null if unknown [kg/m2] */
  k_kg_m2: number | null;
  /** slow-release nitrogen per area, null if unknown [kg/m2] */
  slow_n_kg_m2: number | null;
}

/** Product rate of a label: net weight spread over the coverage. */
export interface LabelRateArgs {
  /** net weight of the bag [kg] */
  net_kg: number;
  /** ground one bag covers by its label [m2] */
  coverage_m2: number;
}

export interface LabelRateValue {
  /** product per area [kg/m2] */
  rate_kg_m2: number;
}

/** Product rate that brings a wanted amount of nitrogen. */
export interface LabelRateForNitrogenArgs {
  /** nitrogen wanted per area [kg/m2] */
  n_kg_m2: number;
  /** nitrogen on the label [%] */
  n_percent: number;
}

export interface LabelRateForNitrogenValue {
  /** product per area [kg/m2] */
  rate_kg_m2: number;
}

/** What may go on each zone at most, at once and in a year; the lowest published figure where no place is given. */
export interface LimitsCeilingsArgs {
  /** the zones, up to 1000 */
  zones: readonly {
    /** the zone, once only */
    id: string;
    /** key of its grass */
    grass?: string;
    /** sun, part_shade or shade */
    sun?: string;
    /** published ranges of the year for its grass */
    year_rows?: readonly {
      /** the most of the range [kg/m2] */
      high_kg_m2?: number;
      /** keys of what it is printed in */
      sources?: readonly string[];
    }[];
  }[];
  /** published figures for one feed */
  once: readonly {
    /** the place it holds for */
    where?: string;
    /** quick nitrogen at once at most [kg/m2] */
    quick_kg_m2?: number;
    /** nitrogen at once at most [kg/m2] */
    total_kg_m2?: number;
    /** keys of what it is printed in */
    sources?: readonly string[];
  }[];
  /** published figures for phosphate */
  phosphate?: readonly {
    /** what it holds for */
    per: "once" | "year";
    /** phosphate at most [kg/m2] */
    kg_m2?: number;
    /** keys of what it is printed in */
    sources?: readonly string[];
  }[];
  /** published figures for lime at once */
  lime?: readonly {
    /** lime at most [kg/m2] */
    kg_m2?: number;
    /** keys of what it is printed in */
    sources?: readonly string[];
  }[];
  /** the place, as `where` of the rows names it; not known when not said */
  place?: string;
}

export interface LimitsCeilingsValue {
  /** what may go on each zone */
  zones: {
    /** the zone */
    zone_id: string;
    /** nitrogen of the year at most; null where nothing is published [kg/m2] */
    n_year_kg_m2: number | null;
    /** nitrogen of one feed at most, likewise [kg/m2] */
    n_once_kg_m2: number | null;
    /** its quick part at most, likewise [kg/m2] */
    n_quick_once_kg_m2: number | null;
    /** phosphate at once at most, likewise [kg/m2] */
    p2o5_once_kg_m2: number | null;
    /** phosphate of the year at most, likewise [kg/m2] */
    p2o5_year_kg_m2: number | null;
  }[];
  /** lime at once at most, null where nothing is published [kg/m2] */
  lime_once_kg_m2: number | null;
}

/** Which rules a plan, a log, or both together break. It knows no planner: only jobs, ground and rules. Of the rules of one kind (and grass) the strictest of the place holds; where the place is not known the strictest of all. Nitrogen of unknown release counts as quick. Weather that is not known speaks against nothing. */
export interface LimitsCheckArgs {
  /** jobs planned or done, a row a zone, up to 5000 */
  jobs: readonly {
    /** the job; the same on each of its zones */
    id: string;
    /** day it is to be done */
    date: string;
    /** its zone */
    zone: string;
    /** sort of product, as a record has it; fertilizer when not said */
    sort?: string;
    /** its product */
    product?: string;
    /** product per area [kg/m2] */
    rate_kg_m2?: number;
    /** nitrogen per area; not known when not said, none for what brings none [kg/m2] */
    n_kg_m2?: number;
    /** phosphate per area [kg/m2] */
    p2o5_kg_m2?: number;
    /** slow-release share of its nitrogen; none when not said [share] */
    slow_n_share?: number;
    /** whether it is watered in */
    watered_in?: boolean;
    /** ground it keeps clear of water [m] */
    clear_m?: number;
    /** whether a drop spreader or an edge deflector is used */
    guarded?: boolean;
    /** a soil test asks for its phosphate, or it is for seeding */
    phosphate_needed?: boolean;
    /** least days between two uses by its label [day] */
    interval_days?: number;
    /** most uses in a year by its label [uses] */
    uses_year?: number;
    /** most of the product in a year by its label [kg/m2] */
    year_kg_m2?: number;
    /** most of it at once by its label [kg/m2] */
    label_kg_m2?: number;
    /** days from it to sowing by its label [day] */
    seed_wait_days?: number;
  }[];
  /** the zones of the jobs; what else is known of one may stand there too */
  zones: readonly {
    /** the zone, once only */
    id: string;
    /** key of its grass */
    grass?: string;
    /** season of the grass, cool or warm; where not said heat counts as for cool */
    turf?: string;
    /** whether it runs down to water */
    near_water?: boolean;
    /** what stays clear of water by its label or local rule [m] */
    setback_m?: number;
    /** whether it lies in shade */
    shade?: boolean;
    /** day it was last sown */
    sown?: string;
    /** days or moments it was mown since */
    mows?: readonly string[];
    /** whether it is watered in dry weather */
    watered?: boolean;
  }[];
  /** rules as `limits.rules` gives them */
  rules: readonly {
    /** what it is about */
    kind: "all_days" | "all_once" | "closed" | "cold" | "drought" | "frozen" | "gentle_once" | "heat" | "lime_nitrogen" | "lime_once" | "lime_twice" | "pesticide_ban" | "phosphate" | "phosphate_once" | "phosphate_year" | "pre_after_seed" | "pre_twice" | "quick_days" | "quick_once" | "saturated" | "seed_after_pre" | "slow_least" | "spacing_quick" | "spacing_slow" | "summer_ban" | "water" | "water_in" | "year" | "young";
    /** its name in the answer; its kind when not said */
    id?: string;
    /** key of the place it holds for; everywhere when not said */
    where?: string;
    /** the grass it holds for, or unknown; any when not said */
    grass?: string;
    /** the sort of product it bans; any when not said */
    sort?: string;
    /** most at once, over its days, or in a year [kg/m2] */
    most_kg_m2?: number;
    /** days between, or that it is added up over [day] */
    over_days?: number;
    /** years a soil test counts [year] */
    within_years?: number;
    /** phosphorus in the soil up to which a test asks for more [mg/kg] */
    p_mg_kg?: number;
    /** temperature it turns at [C] */
    limit_c?: number;
    /** rain it turns at [mm] */
    limit_mm?: number;
    /** ground kept clear of water [m] */
    clear_m?: number;
    /** the same with a drop spreader or an edge deflector [m] */
    guarded_m?: number;
    /** slow-release share from which a feed counts as slow [share] */
    least_slow_share?: number;
    /** first closed day of every year, as 11-16 */
    from?: string;
    /** last closed day, as 02-29 */
    to?: string;
    /** never passed, whatever the place allows */
    cap?: boolean;
    /** does not hold where the place is not known */
    only_here?: boolean;
    /** the strictest of all, since the place is not known */
    assumed?: boolean;
    /** does not hold */
    off?: boolean;
    /** who printed it, or entered by you; common practice when not said */
    source?: string;
    /** the same as a list, the first counts */
    sources?: readonly string[];
    /** as of when */
    date?: string;
    /** how it is printed */
    printed?: string;
  }[];
  /** key of the place; not known when not said */
  place?: string;
  /** soil tests; what else one says may stand there too */
  soil_tests?: readonly {
    /** day of the sample */
    date: string;
    /** its zone; the whole yard when not said */
    zone?: string;
    /** phosphorus found [mg/kg] */
    p_mg_kg?: number;
    /** how the lab drew it out; the figure counts for mehlich_3, or where not said */
    p_method?: string;
    /** whether its report asks for phosphate */
    phosphate_needed?: boolean;
  }[];
  /** days of weather, past and forecast, in any order */
  days?: readonly {
    /** the day */
    date: string;
    /** mean soil temperature [C] */
    soil_c?: number;
    /** mean air temperature [C] */
    mean_c?: number;
    /** rain [mm] */
    rain_mm?: number;
  }[];
  /** what labels say, for jobs that name the product */
  products?: readonly {
    /** the product, once only */
    id: string;
    /** as of a job [day] */
    interval_days?: number;
    /** as of a job [uses] */
    uses_year?: number;
    /** as of a job [kg/m2] */
    year_kg_m2?: number;
    /** as of a job [kg/m2] */
    label_kg_m2?: number;
    /** as of a job [day] */
    seed_wait_days?: number;
  }[];
}

export interface LimitsCheckValue {
  /** every rule that is broken, by day, in the order of the jobs */
  breaches: {
    /** the job that breaks it */
    job: string;
    /** the rule, by its id */
    rule: string;
    /** what it is about, as of the rules, and label_interval, label_uses, label_year, label_rate */
    kind: "all_days" | "all_once" | "closed" | "cold" | "drought" | "frozen" | "gentle_once" | "heat" | "label_interval" | "label_rate" | "label_uses" | "label_year" | "lime_nitrogen" | "lime_once" | "lime_twice" | "pesticide_ban" | "phosphate" | "phosphate_once" | "phosphate_year" | "pre_after_seed" | "pre_twice" | "quick_days" | "quick_once" | "saturated" | "seed_after_pre" | "slow_least" | "spacing_quick" | "spacing_slow" | "summer_ban" | "water" | "water_in" | "year" | "young";
    /** the zone */
    zone: string;
    /** day of the job */
    date: string;
    /** what was found; null where nothing is measured [number] */
    figure: number | null;
    /** what the rule allows, likewise [number] */
    ceiling: number | null;
    /** unit of both, likewise */
    unit: string | null;
    /** who says so: a source, label, common practice, or entered by you */
    source: string;
    /** as of when, where the rule says it */
    since: string | null;
    /** what to do and why, in plain words without figures of a unit */
    says: string;
    /** days of the rule, where it has some [day] */
    days: number | null;
    /** other jobs that count in it */
    others: string[];
    /** the day from which it would be right, null where waiting alone does not help */
    right_from: string | null;
    /** which answers would loosen it: place, local_rule, soil_test, slow_share, setback, mows, watered */
    loosened_by: string[];
    /** the same as sentences */
    loosens: string[];
  }[];
  /** how many rules held [rules] */
  rules: number;
  /** that this is not the law, in a sentence */
  not_the_law: string;
}

/** The rules that hold in a yard, for `limits.check`: printed ones of its place, and the household's own instead. Where the place is not known, or none of its rules are, the strictest of all places hold; in the south their closed dates do not, since all of them are northern. A rule of one's own takes the place of every printed one of its kind (and grass); one that is off takes it away. What a label says is no rule: `limits.check` reads it from the product. */
export interface LimitsRulesArgs {
  /** printed rules, as fixtures/published/places.json has them */
  rules: LimitsCheckArgs["rules"];
  /** the places there are, likewise */
  places: readonly {
    /** the place, once only */
    key: string;
    /** what it is called */
    name?: string;
    /** its country */
    country?: string;
    /** the place it lies in, whose rules it has too */
    within?: string;
    /** a place with no rules here: the strictest hold */
    unlisted?: boolean;
    /** whether it lies in the southern half of the globe */
    southern?: boolean;
    /** keys of what it is printed in */
    sources?: readonly string[];
  }[];
  /** key of the household's place; not known when not said */
  place?: string;
  /** rules the household entered itself, or turned off; as those printed */
  own_rules?: readonly {
    /** what it is about, as `limits.check` has it */
    kind: string;
    /** the grass it holds for */
    grass?: string;
    /** the sort of product it bans */
    sort?: string;
    /** as `limits.check` takes it; so with the rest [kg/m2] */
    most_kg_m2?: number;
    /** as above [day] */
    over_days?: number;
    /** as above [year] */
    within_years?: number;
    /** as above [mg/kg] */
    p_mg_kg?: number;
    /** as above [C] */
    limit_c?: number;
    /** as above [mm] */
    limit_mm?: number;
    /** as above [m] */
    clear_m?: number;
    /** as above [m] */
    guarded_m?: number;
    /** as above [share] */
    least_slow_share?: number;
    /** first closed day of every year, as 11-16 */
    from?: string;
    /** last closed day */
    to?: string;
    /** day it was entered */
    date?: string;
    /** a note of where it stands */
    printed?: string;
    /** whether the printed rules of its kind do not hold here */
    off?: boolean;
  }[];
  /** grasses with what each takes in a year, as fixtures/published/grasses.json has them */
  grasses?: readonly {
    /** the grass */
    key: string;
    /** printed ranges of the year */
    nitrogen_year_rows?: readonly {
      /** the most of the range [kg/m2] */
      high_kg_m2?: number;
      /** keys of what it is printed in */
      sources?: readonly string[];
    }[];
  }[];
  /** printed ranges of lawns in general, for zones whose grass is not known */
  general?: readonly {
    /** the most of the range [kg/m2] */
    high_kg_m2?: number;
    /** keys of what it is printed in */
    sources?: readonly string[];
  }[];
  /** whether the yard lies in the southern half, where the place does not say so */
  southern?: boolean;
  /** whether the person is new to it: then the strictest quick nitrogen holds anywhere */
  beginner?: boolean;
}

export interface LimitsRulesValue {
  /** the rules that hold, by kind */
  rules: {
    /** its name */
    id: string;
    /** what it is about, as `limits.check` has it */
    kind: "all_days" | "all_once" | "closed" | "cold" | "drought" | "frozen" | "gentle_once" | "heat" | "lime_nitrogen" | "lime_once" | "lime_twice" | "pesticide_ban" | "phosphate" | "phosphate_once" | "phosphate_year" | "pre_after_seed" | "pre_twice" | "quick_days" | "quick_once" | "saturated" | "seed_after_pre" | "slow_least" | "spacing_quick" | "spacing_slow" | "summer_ban" | "water" | "water_in" | "year" | "young";
    /** the grass it holds for, or null */
    grass: string | null;
    /** the sort of product it bans, or null */
    sort: string | null;
    /** as `limits.check` takes it, or null; so with the rest [kg/m2] */
    most_kg_m2: number | null;
    /** as above [day] */
    over_days: number | null;
    /** as above [year] */
    within_years: number | null;
    /** as above [mg/kg] */
    p_mg_kg: number | null;
    /** as above [C] */
    limit_c: number | null;
    /** as above [mm] */
    limit_mm: number | null;
    /** as above [m] */
    clear_m: number | null;
    /** as above [m] */
    guarded_m: number | null;
    /** as above [share] */
    least_slow_share: number | null;
    /** first closed day of every year, as 11-16, or null */
    from: string | null;
    /** last closed day, or null */
    to: string | null;
    /** who printed it, common practice, or entered by you */
    source: string;
    /** as of when, or null */
    date: string | null;
    /** how it is printed, or null */
    printed: string | null;
    /** the strictest of all, since the place or its rule is not known */
    assumed: boolean;
  }[];
  /** the place and what it lies in, by key; none where it is not known */
  places: string[];
  /** whether rules of the place are known */
  state: "known" | "unlisted" | "unknown";
  /** the same in a sentence */
  says: string;
  /** that this is not the law, in a sentence */
  not_the_law: string;
}

/** What stays clear of water in each zone, and the ground left to treat. The setback somebody entered for a zone (from the label or the local rule) holds. Else that of the place, where it has one: the narrower one that it prints for a drop spreader or a shut edge deflector only if one is used. Where the place is not known the widest published figure holds, guarded or not. Where the edges at the water are marked on the outline, all ground nearer to them than the setback is left out; else a strip as long as the edge was entered. */
export interface LimitsSetbackArgs {
  /** the zones, 1 to 60 */
  zones: readonly {
    /** the zone, once only */
    id: string;
    /** its area [m2] */
    area_m2: number;
    /** whether it runs down to water; no when not said */
    near_water?: boolean;
    /** length of its edge at the water; not known when not said [m] */
    water_edge_m?: number;
    /** its corners [x, y] in order round the edge; 3 to 400 */
    outline_m?: readonly (readonly [number, number])[];
    /** what is cut out of the outline, each a list of corners */
    holes_m?: readonly (readonly (readonly [number, number])[])[];
    /** round obstacles cut out, up to 40 */
    circles_m?: readonly {
      /** middle, across [m] */
      x_m: number;
      /** middle, up [m] */
      y_m: number;
      /** radius [m] */
      radius_m: number;
    }[];
    /** its edges at the water, 0 from the first corner to the second, up to 400; they hold before the length */
    water_edges?: readonly number[];
    /** what stays clear by its label or local rule [m] */
    setback_m?: number;
  }[];
  /** published setbacks */
  rows: readonly {
    /** the place it holds for */
    where?: string;
    /** what stays clear [m] */
    setback_m: number;
    /** what stays clear of a drop spreader or a shut deflector, where that is printed [m] */
    guarded_m?: number;
    /** keys of what it is printed in */
    sources?: readonly string[];
  }[];
  /** whether a drop spreader or an edge deflector is used; no when not said */
  guarded?: boolean;
  /** the place, as `where` of the rows names it; not known when not said */
  place?: string;
}

export interface LimitsSetbackValue {
  /** what stays clear in each zone */
  zones: {
    /** the zone */
    zone_id: string;
    /** what stays clear; null away from water [m] */
    setback_m: number | null;
    /** ground left out; null where neither edges nor their length are known [m2] */
    out_m2: number | null;
    /** whether the edges at the water are marked, so that the plan of strips stays clear of them */
    drawn: boolean;
    /** ground left to treat [m2] */
    area_m2: number;
  }[];
  /** the widest of them, null where no zone is at water [m] */
  setback_m: number | null;
  /** ground left out in all [m2] */
  out_m2: number;
  /** ground left to treat in all [m2] */
  area_m2: number;
}

/** Height to cut to now on the way to the height wanted. */
export interface MowingCutArgs {
  /** height of the grass now [mm] */
  height_mm: number;
  /** height of cut wanted [mm] */
  target_mm: number;
  /** highest setting of the mower; 115 when not said [mm] */
  highest_mm?: number;
  /** one of the two cuts that may take more than a third */
  exception?: "dormant_warm" | "renovation";
  /** season of the grass; dormant_warm is for warm-season grass only */
  turf?: "cool" | "warm";
}

export interface MowingCutValue {
  /** height to cut to now, never above the grass [mm] */
  cut_to_mm: number;
  /** share of the blade that takes off [share] */
  removed_share: number;
  /** share that a cut straight to the height wanted takes, allowed or not [share] */
  straight_share: number;
  /** true when one cut may go straight to the target */
  allowed: boolean;
  /** height of the grass at which the target takes just a third [mm] */
  mow_at_mm: number;
  /** height that leaves two thirds [mm] */
  lowest_mm: number;
  /** true where the grass is no higher than the height wanted: nothing to cut */
  too_short: boolean;
  /** true where the mower's highest setting would take more than a third */
  beyond_mower: boolean;
  /** the exception this cut is made under; null where it takes no more than a third */
  exception: string | null;
}

/** When each zone of the yard will want cutting, as its own heights have taught. A cut whose height was not written down is taken to be at the height wanted, and believed less. A height read before a cut, or between cuts, teaches how fast the zone grows. Feeds and the water that rain and waterings bring are told to the same belief. A day whose rain nobody told makes no drought. */
export interface MowingForecastArgs {
  /** the zones, up to 200 */
  zones: readonly {
    /** zone */
    id: string;
    /** season of its grass, nothing where the grass is not known */
    turf?: "cool" | "warm" | null;
    /** height kept here; only heat and shade ask for more; within the grass's range where not said [mm] */
    target_mm?: number;
    /** lowest height for this grass [mm] */
    low_mm?: number;
    /** highest height for it [mm] */
    high_mm?: number;
    /** true where it stands in shade */
    shade?: boolean;
    /** its soil as written down; loam where it is none that is printed */
    soil?: string;
  }[];
  /** mows of the log that stand, in any order; may be empty */
  mows: readonly {
    /** day of the cut */
    date: string;
    /** zones that were cut */
    zone_ids: readonly string[];
    /** height it was cut to [mm] */
    cut_height_mm?: number;
    /** height it was found to be cut to, measured; it stands before the other [mm] */
    cut_mm?: number;
    /** height before the cut [mm] */
    height_before_mm?: number;
    /** likely error of that; 3 by ruler when not said [mm] */
    error_mm?: number;
  }[];
  /** heights read without a cut */
  heights?: readonly {
    /** day the height was read */
    date: string;
    /** zones it was read on */
    zone_ids: readonly string[];
    /** height of the grass [mm] */
    height_mm: number;
    /** likely error of it; 3 by ruler when not said [mm] */
    error_mm?: number;
  }[];
  /** feeds of the log that stand, those of half a year before the days with them */
  feeds?: readonly {
    /** day it was spread */
    date: string;
    /** zones that got so much */
    zone_ids: readonly string[];
    /** its nitrogen [kg/m2] */
    n_kg_m2: number;
    /** slow-release share of it; none when not said [share] */
    slow_share?: number;
  }[];
  /** waterings of the log that stand */
  waterings?: readonly {
    /** day it was watered */
    date: string;
    /** zones that got so much */
    zone_ids: readonly string[];
    /** water given [mm] */
    watered_mm: number;
  }[];
  /** past days and days to come, as weather.join answers them; may be empty */
  days: readonly {
    /** the day */
    date: string;
    /** mean temperature of the air [C] */
    mean_c: number;
    /** likely error of it [K] */
    sd_c?: number;
    /** lowest temperature [C] */
    min_c?: number;
    /** highest temperature [C] */
    max_c?: number;
    /** rain; a day without it makes no drought [mm] */
    rain_mm?: number;
    /** water a short grass would use; by latitude from the temperatures where not said [mm] */
    et0_mm?: number;
    /** share of its water that the grass gets; it stands before what rain tells [share] */
    water_share?: number;
  }[];
  /** latitude, south negative [deg] */
  latitude_deg?: number;
  /** the day asked about */
  today: string;
}

export interface MowingForecastValue {
  /** by zone id what is expected */
  zones: Record<string, {
    /** whether there is a forecast, else what is missing */
    known: "forecast" | "no_grass" | "no_height" | "no_mow" | "no_weather";
    /** height of cut wanted; null where neither it nor the grass's range is known [mm] */
    target_mm: number | null;
    /** height of the grass at which a cut to that takes just a third; null without a forecast [mm] */
    mow_at_mm: number | null;
    /** day of the last cut, null where there is none */
    cut: string | null;
    /** height it was cut to, or was taken to be; null without one [mm] */
    cut_mm: number | null;
    /** true where that height was not written down */
    cut_taken: boolean;
    /** heights learnt from [count] */
    looks: number;
    /** last day on which a cut is likely to take no more than a third */
    mow_by: string | null;
    /** the same but for 1 chance in 10 */
    earliest: string | null;
    /** the same but for 9 chances in 10 */
    latest: string | null;
    /** days since mow_by; 0 up to it [day] */
    late_days: number;
    /** what a cut to the height wanted would take today [share] */
    takes_share: number | null;
    /** how the coming week lets it grow */
    state: "good" | "slowed" | "nearly_stopped" | null;
    /** share of its water that it gets in the coming week; null where its days tell no rain [share] */
    water_share: number | null;
    /** feeds still at work today, the latest first */
    feeds: {
      /** day it was spread */
      date: string;
      /** what it adds to today's growth [mm] */
      adds_mm: number;
    }[];
    /** first day that lets it grow again, where the coming week does not */
    growing_again: string | null;
    /** growth of today, null without a forecast [mm] */
    growth_mm_day: { low: number; mid: number; high: number } | null;
    /** height at the end of each day from today on, six weeks at most */
    height_mm: {
      /** the day */
      date: string;
      /** 1 in 10 below [mm] */
      low: number;
      /** expected [mm] */
      mid: number;
      /** 1 in 10 above [mm] */
      high: number;
    }[];
  }>;
}

/** Height to cut to now, within the range of the grass. */
export interface MowingHeightArgs {
  /** season of the grass */
  turf: "cool" | "warm";
  /** lowest height for this grass, or for this household [mm] */
  low_mm: number;
  /** highest height for it [mm] */
  high_mm: number;
  /** mean temperature of the last week; cool-season grass is cut higher in heat [C] */
  recent_mean_c?: number;
  /** true where it stands in shade */
  shade?: boolean;
  /** true where it wilts or rests in drought */
  drought?: boolean;
  /** past days, as weather.join answers them; the week up to today is taken where recent_mean_c is not said */
  days?: readonly {
    /** the day */
    date: string;
    /** mean temperature of the air [C] */
    mean_c?: number;
  }[];
  /** the day asked about; wanted with days */
  today?: string;
  /** height this household keeps; only heat, shade and drought may ask for more [mm] */
  own_mm?: number;
}

export interface MowingHeightValue {
  /** height to cut to [mm] */
  target_mm: number;
  /** what decided it, the strongest reason first */
  why: string[];
  /** true where wilted grass is better not mown at all */
  rest: boolean;
}

/** What heights read so far tell of how fast a lawn grows. */
export interface MowingLearnArgs {
  /** season of the grass */
  turf: "cool" | "warm";
  /** heights read after cuts, in any order; may be empty */
  seen: readonly {
    /** day of the cut before */
    cut: string;
    /** height it was cut to [mm] */
    cut_mm: number;
    /** day the height was read, before any cut of that day */
    looked: string;
    /** height of the grass [mm] */
    height_mm: number;
    /** likely error of that height; 3 by ruler when not said [mm] */
    error_mm?: number;
  }[];
  /** every day from the first cut on, up to the last look at least */
  days: readonly {
    /** the day */
    date: string;
    /** mean temperature of the air [C] */
    mean_c: number;
    /** likely error of it; 0 when not said [K] */
    sd_c?: number;
    /** share of its water that the grass got; all when not said [share] */
    water_share?: number;
  }[];
  /** feeds of this lawn, those of two months before the first cut with them */
  feeds?: readonly {
    /** day it was spread */
    date: string;
    /** its nitrogen [kg/m2] */
    n_kg_m2: number;
    /** slow-release share of it; none when not said [share] */
    slow_share?: number;
  }[];
  /** what an earlier call answered; looks up to its day are in it already */
  belief?: {
    /** season of the grass it is of */
    turf: "cool" | "warm";
    /** last look in it, null before the first */
    day: string | null;
    /** looks in it [count] */
    looks: number;
    /** its state */
    numbers: readonly number[];
  };
}

export interface MowingLearnValue {
  /** hand it to mowing.next and to the next mowing.learn */
  belief: {
    /** season of the grass */
    turf: "cool" | "warm";
    /** last look in it, null before the first */
    day: string | null;
    /** looks in it [count] */
    looks: number;
    /** its state */
    numbers: number[];
  };
  /** growth on the last day given, 80 % likely between low and high [mm] */
  growth_mm_day: { low: number; mid: number; high: number };
}

/** The height a look at the grass tells, and its likely error: both ways of looking can be learnt from. */
export interface MowingLookArgs {
  /** a ruler in the grass, or "about one notch over the last cut" */
  by: "ruler" | "over_notch";
  /** what the ruler says; wanted with ruler [mm] */
  height_mm?: number;
  /** height of the last cut; wanted with over_notch [mm] */
  cut_mm?: number;
  /** the mower's notches; half an inch is taken where no notch is above the cut */
  notches?: readonly {
    /** what stands beside the notch */
    name: string;
    /** height it cuts at, measured with a ruler on level ground [mm] */
    notch_mm: number;
  }[];
}

export interface MowingLookValue {
  /** height of the grass [mm] */
  height_mm: number;
  /** likely error of it [mm] */
  error_mm: number;
}

/** When the grass will have grown so high that a cut to the height wanted takes a third. */
export interface MowingNextArgs {
  /** season of the grass */
  turf: "cool" | "warm";
  /** height of cut wanted [mm] */
  target_mm: number;
  /** day of the last cut, or of the last look since */
  cut: string;
  /** height it was cut to, or height seen [mm] */
  cut_mm: number;
  /** every day from the cut on, past ones and forecast ones, and beyond them the climate's */
  days: readonly {
    /** the day */
    date: string;
    /** mean temperature of the air [C] */
    mean_c: number;
    /** likely error of it: of a forecast day, or of the climate [K] */
    sd_c?: number;
    /** share of its water that the grass gets; all when not said [share] */
    water_share?: number;
  }[];
  /** what mowing.learn answered; without it the forecast is a wide one */
  belief?: MowingLearnArgs["belief"];
  /** likely error of cut_mm; 2 when not said [mm] */
  error_mm?: number;
  /** feeds of this lawn, those of two months before with them */
  feeds?: readonly {
    /** day it was spread */
    date: string;
    /** its nitrogen [kg/m2] */
    n_kg_m2: number;
    /** slow-release share of it; none when not said [share] */
    slow_share?: number;
  }[];
  /** day asked about; the first day after the cut when not said */
  today?: string;
}

export interface MowingNextValue {
  /** height at which a cut to the height wanted takes a third [mm] */
  mow_at_mm: number;
  /** last day on which it is likely no higher; null where that is beyond the days given */
  mow_by: string | null;
  /** the same but for 1 chance in 10 */
  earliest: string | null;
  /** the same but for 9 chances in 10 */
  latest: string | null;
  /** days from the cut until it is that high, as likely sooner as later [day] */
  after_days: number | null;
  /** the same, 1 in 10 sooner [day] */
  earliest_after_days: number | null;
  /** the same, 1 in 10 later [day] */
  latest_after_days: number | null;
  /** height at the end of each day */
  height_mm: {
    /** the day */
    date: string;
    /** 1 in 10 below [mm] */
    low: number;
    /** expected [mm] */
    mid: number;
    /** 1 in 10 above [mm] */
    high: number;
    /** what a cut to the height wanted would take then [share] */
    removed_share: number;
  }[];
  /** how the coming week lets it grow */
  state: "good" | "slowed" | "nearly_stopped";
  /** first day of the list after the coming week that lets it grow, where that week does not */
  growing_again: string | null;
}

/** The lowest notch that cuts no lower than a height wanted: rather a little too long than a third too short. */
export interface MowingNotchArgs {
  /** height of cut wanted [mm] */
  height_mm: number;
  /** the mower's notches */
  notches: readonly {
    /** what stands beside the notch */
    name: string;
    /** height it cuts at, measured with a ruler on level ground [mm] */
    notch_mm: number;
  }[];
}

export interface MowingNotchValue {
  /** the notch to set */
  name: string | null;
  /** height it cuts at; null where every notch cuts lower [mm] */
  notch_mm: number | null;
  /** how much higher than wanted that is [mm] */
  over_mm: number | null;
}

/** Whether the blade wants sharpening. */
export interface MowingSharpenArgs {
  /** mows with this mower, in any order; may be empty */
  mows: readonly {
    /** the day */
    date: string;
    /** minutes mown; a mow without them counts for the season only [minute] */
    minutes?: number;
  }[];
  /** day asked about */
  today: string;
  /** day it was last sharpened; else all mows since the first count */
  sharpened?: string;
  /** hours of use between sharpenings, as the mower's manual says; 10 when not said [h] */
  hours_between?: number;
}

export interface MowingSharpenValue {
  /** hours of use since, of the mows whose minutes are known [h] */
  hours: number;
  /** mows since whose minutes are not known: the hours are at least those said [count] */
  untimed: number;
  /** until it is due by use, 0 where it is [h] */
  hours_left: number;
  /** true where it is due */
  due: boolean;
  /** what makes it due */
  why: "hours" | "season" | "not_due";
  /** day it is due by the season; null where nothing is known to count from */
  due_on: string | null;
}

/** Which zones to mow on the next mowing night, in the order of need, and which can wait for the one after. */
export interface MowingTonightArgs {
  /** zones with their forecasts */
  zones: readonly {
    /** zone */
    id: string;
    /** height of cut wanted [mm] */
    target_mm: number;
    /** heights as mowing.next answers them, from today on */
    height_mm: readonly {
      /** the day */
      date: string;
      /** height expected [mm] */
      mid: number;
      /** 1 in 10 above [mm] */
      high: number;
    }[];
    /** as mowing.next answers it */
    state?: string;
  }[];
  /** the household's mowing nights, Monday 1 */
  weekdays: readonly number[];
  /** day asked about */
  today: string;
  /** forecast of the coming days */
  weather?: readonly {
    /** the day */
    date: string;
    /** rain [mm] */
    rain_mm?: number;
    /** lowest temperature [C] */
    min_c?: number;
  }[];
}

export interface MowingTonightValue {
  /** the first mowing night from today on that the weather allows; null where none is in three weeks */
  night: string | null;
  /** the one after it */
  next_night: string | null;
  /** true where that first night is today */
  is_tonight: boolean;
  /** the mowing nights of three weeks */
  nights: {
    /** the day */
    date: string;
    /** what keeps from mowing then */
    why: "open" | "rain" | "frost";
  }[];
  /** the zones, the neediest first */
  zones: {
    /** zone */
    id: string;
    /** true where it should be cut on that night */
    due: boolean;
    /** why it is due or not */
    why: "overgrown" | "cannot_wait" | "may_not_wait" | "can_wait" | "resting" | "no_forecast";
    /** height to cut to on that night; null where no height is known [mm] */
    cut_to_mm: number | null;
    /** what a cut to the height wanted would take on that night [share] */
    taken_share: number | null;
    /** what it would take if it waits for the night after [share] */
    skipped_share: number | null;
  }[];
}

/** The cuts that bring long grass down to the height wanted; asked anew after each, from what was really cut. */
export interface MowingWayDownArgs {
  /** height of the grass now [mm] */
  height_mm: number;
  /** height of cut wanted [mm] */
  target_mm: number;
  /** growth between the cuts; none when not said [mm] */
  growth_mm_day?: number;
  /** days from cut to cut, of which whole ones count; 3 when not said [day] */
  days_between?: number;
  /** highest setting of the mower; 115 when not said [mm] */
  highest_mm?: number;
  /** the mower's notches; else any height can be set */
  notches?: readonly {
    /** what stands beside the notch */
    name: string;
    /** height it cuts at [mm] */
    notch_mm: number;
  }[];
  /** days since the last cut, after which the first is made at the same pace; else it is today [day] */
  since_days?: number;
  /** the household's mowing nights, Monday 1: every cut but one of today is on one of them, at least 2 days after the cut before, or days_between where that is less */
  weekdays?: readonly number[];
  /** the day of today, which nights are counted from; wanted with weekdays */
  today?: string;
}

export interface MowingWayDownValue {
  /** the cuts, the first today unless the last is too near; none where it is no higher than wanted */
  steps: {
    /** days from today [day] */
    day: number;
    /** height before the cut [mm] */
    from_mm: number;
    /** height to cut to [mm] */
    to_mm: number;
    /** share of the blade that takes [share] */
    removed_share: number;
    /** the notch to set */
    notch: string | null;
  }[];
  /** true where the last cut is to the height wanted, or its notch */
  reaches: boolean;
  /** true where no setting of the mower is high enough for the first cut */
  beyond_mower: boolean;
  /** how many [cuts] */
  cuts: number;
}

/** Warnings to be answered before a job: what would clash once it is in the log, and from which day it would not. */
export interface RecordBeforeArgs {
  /** what is about to be put down */
  job: {
    /** its product */
    product_id: string;
    /** sort of the product */
    sort: string;
    /** moment it is to be done */
    at: string;
    /** who does it */
    by?: string;
    /** slow-release share of its nitrogen; none of it when not said [share] */
    slow_n_share?: number;
    /** a soil test asks for its phosphate, or it is for seeding */
    phosphate_needed?: boolean;
    /** product per area [kg/m2] */
    rate_kg_m2?: number;
    /** the zones it is for */
    zones: readonly {
      /** the zone */
      zone_id: string;
      /** nitrogen for it, where known [kg/m2] */
      n_kg_m2?: number;
      /** phosphate for it, where known [kg/m2] */
      p2o5_kg_m2?: number;
    }[];
  };
  /** the log, as `record.clashes` takes it */
  entries: RecordClashesArgs["entries"];
  /** products with what their labels say, likewise */
  products?: RecordClashesArgs["products"];
  /** zones with their ceilings, likewise */
  ceilings?: RecordClashesArgs["ceilings"];
  /** lime at once at most [kg/m2] */
  lime_once_kg_m2?: number;
}

export interface RecordBeforeValue {
  /** what speaks against it, the label first */
  warnings: {
    /** stays the same while it is about the same */
    key: string;
    /** as `record.clashes` has them, less same_job and step_twice, which are about the log, and phosphate_once, lime_once */
    kind: "interval" | "pre_twice" | "seed_after_pre" | "pre_after_seed" | "young" | "lime_twice" | "lime_nitrogen" | "quick" | "all_n" | "phosphate" | "nitrogen" | "phosphate_once" | "lime_once";
    /** true where no label says it */
    assumed: boolean;
    /** days that should lie between; null unless two lie too near [day] */
    interval_days: number | null;
    /** days it was added up over; null unless it was [day] */
    window_days: number | null;
    /** what is allowed; null unless it is too much [kg/m2] */
    ceiling_kg_m2: number | null;
    /** where that is printed */
    source: string;
    /** the day from which it would be right on all the zones, null where only less or another product would be */
    right_from: string | null;
    /** the zones it is about */
    zones: {
      /** the zone */
      zone_id: string;
      /** day of the job before, null where there was none */
      date: string | null;
      /** days since then, likewise [day] */
      days_between: number | null;
      /** what would be down; null unless it is too much [kg/m2] */
      amount_kg_m2: number | null;
      /** the day from which it would be right on this zone; null as above */
      right_from: string | null;
    }[];
  }[];
}

/** For each job taken, whether the log says that it is done, by whomever. Done by an entry that names it (watering has no entry of its own), or by entries of that job and day that together cover its zones; one that names no zones is of the whole yard. A zone that got nothing is not covered. Lime and seed feed nothing. */
export interface RecordClaimsArgs {
  /** jobs taken */
  claims: readonly {
    /** the job taken, once only */
    id: string;
    /** what is to be done */
    job: "mow" | "feed" | "spray" | "water" | "other";
    /** for which day */
    day: string;
    /** its zones; none for the whole yard */
    zone_ids?: readonly string[];
  }[];
  /** the log in any order; other fields may stand among these */
  entries: readonly {
    /** the entry, once only */
    id: string;
    /** mow, spread, pass, observation, stock_count or tray_test */
    kind: string;
    /** moment it was done; its day is as written, by the clock of who did it */
    occurred_at: string;
    /** struck out */
    void?: boolean;
    /** its zones */
    zone_ids?: readonly string[];
    /** sort of the product */
    sort?: string;
    /** nitrogen on the product's label [%] */
    n_percent?: number;
    /** product put down; 0 is nothing [kg] */
    used_kg?: number;
    /** of a spreading job, for each zone what it got */
    zones?: readonly {
      /** the zone */
      zone_id: string;
      /** product on it; 0 is nothing [kg] */
      used_kg?: number;
    }[];
    /** the job taken that it names */
    claim_id?: string;
  }[];
  /** every zone there is, for jobs of the whole yard */
  yard?: readonly string[];
}

export interface RecordClaimsValue {
  /** by id of the job taken */
  claims: Record<string, {
    /** whether it is done */
    done: boolean;
    /** entries that did it, or a part of it, in the order done */
    entry_ids: string[];
    /** its zones that nobody has done yet */
    open_zone_ids: string[];
  }>;
}

/** Entries that do not go together, each clash under a key that stays the same until another entry joins it. Whoever did them. Too near: interval (a product again before the days of its label, or, where none are entered, two feeds less than 7 days apart), pre_twice, seed_after_pre, pre_after_seed, young (a weed spray on new grass), lime_twice and lime_nitrogen. Too much: quick (quick nitrogen over any 28 days against the ceiling of one feed), all_n (all nitrogen over any 42 days likewise), phosphate (over any 365 days) and nitrogen (in the calendar year, or in the last 365 days). same_job: two people noted a mow of one zone on one day. step_twice: a step of the season plan was done by more than one entry, whatever its kind. What lies more than a year back is no longer asked about (a mow: 14 days), nor what is dated more than a day ahead, which has not been done. */
export interface RecordClashesArgs {
  /** spreading jobs and mows in any order; other entries and fields may stand among them */
  entries: readonly {
    /** the entry, once only */
    id: string;
    /** mow, spread, pass, observation, stock_count or tray_test */
    kind: string;
    /** moment it was done */
    occurred_at: string;
    /** who did it */
    by?: string;
    /** step of the season plan that it does */
    step_id?: string;
    /** struck out */
    void?: boolean;
    /** zones it was done on */
    zone_ids?: readonly string[];
    /** product of a spreading job */
    product_id?: string;
    /** sort of the product */
    sort?: string;
    /** slow-release share of its nitrogen; none of it when not said [share] */
    slow_n_share?: number;
    /** a soil test asked for its phosphate, or it was for seeding */
    phosphate_needed?: boolean;
    /** of a spreading job, for each zone what it got */
    zones?: readonly {
      /** the zone */
      zone_id: string;
      /** nitrogen on it; null if unknown [kg/m2] */
      n_kg_m2?: number | null;
      /** nitrogen where most of it fell, where known [kg/m2] */
      n_most_kg_m2?: number | null;
      /** phosphate on it, where known [kg/m2] */
      p2o5_kg_m2?: number | null;
      /** product on it, where known; only whether it is 0 is read [kg] */
      used_kg?: number | null;
    }[];
  }[];
  /** the day asked about */
  today: string;
  /** products with what their labels say */
  products?: readonly {
    /** the product, once only */
    id: string;
    /** least days between applications [day] */
    interval_days?: number;
  }[];
  /** zones with their ceilings, as `limits.ceilings` gives them; each may be left out */
  ceilings?: readonly {
    /** the zone, once only */
    zone_id: string;
    /** nitrogen of the year at most [kg/m2] */
    n_year_kg_m2?: number | null;
    /** nitrogen of one feed at most [kg/m2] */
    n_once_kg_m2?: number | null;
    /** its quick part at most [kg/m2] */
    n_quick_once_kg_m2?: number | null;
    /** phosphate at once at most [kg/m2] */
    p2o5_once_kg_m2?: number | null;
    /** phosphate of the year at most [kg/m2] */
    p2o5_year_kg_m2?: number | null;
  }[];
}

export interface RecordClashesValue {
  /** newest first */
  clashes: {
    /** stays the same until another entry joins */
    key: string;
    /** what clashes */
    kind: "interval" | "pre_twice" | "seed_after_pre" | "pre_after_seed" | "young" | "lime_twice" | "lime_nitrogen" | "quick" | "all_n" | "phosphate" | "nitrogen" | "same_job" | "step_twice";
    /** the entries in the order done */
    entry_ids: string[];
    /** the zones it is about */
    zone_ids: string[];
    /** day of the latest */
    date: string;
    /** the product; null where two met */
    product_id: string | null;
    /** days between them; null unless two lie too near [day] */
    days_between: number | null;
    /** days that should lie between; null likewise [day] */
    interval_days: number | null;
    /** true where no label says the days */
    assumed: boolean;
    /** nitrogen of the year; null unless kind is nitrogen [kg/m2] */
    n_year_kg_m2: number | null;
    /** what was added up; null unless it is too much [kg/m2] */
    amount_kg_m2: number | null;
    /** what it passed; null likewise [kg/m2] */
    ceiling_kg_m2: number | null;
    /** days it was added up over; null unless it was [day] */
    window_days: number | null;
    /** where the rule is printed */
    source: string;
  }[];
}

/** When each zone is due for a cut, counted from its last mow. Twice a week is a cut every 3.5 days: due from the third day on, overdue after the fourth. In general a zone is due once the days between cuts, rounded down, have passed, and overdue once they have passed rounded up. A last mow more than a day ahead of today has not been done and says nothing. */
export interface RecordDueArgs {
  /** the zones, up to 1000 */
  zones: readonly {
    /** the zone */
    id: string;
    /** day of its last mow, or nothing if never mown */
    last_mow?: string | null;
    /** days between cuts; twice a week when not said [day] */
    mow_every_days?: number;
  }[];
  /** the day asked about */
  today: string;
}

export interface RecordDueValue {
  /** by zone id when each is due */
  zones: Record<string, {
    /** day it is due; null if it was never mown */
    due_on: string | null;
    /** days since then; 0 while it is not due [day] */
    overdue_days: number;
    /** how it stands */
    state: "never" | "ok" | "due" | "overdue";
    /** days since its last mow; null if never [day] */
    days_since: number | null;
    /** true where twice a week was taken */
    assumed: boolean;
  }>;
}

/** Zones to keep off now, each until the latest of what was put down on it allows it again. Hours count from the moment the entry was written, for a spreading job its end. Where a label states no hours, a day is taken (`assumed`); 0 hours on a label are none. Seed without hours keeps nobody off. `until_watered` says that it holds, besides, until the product is watered in and dry, which no clock knows. A pass counts as a spreading job does, so that a zone is kept off while the spreading job goes on. */
export interface RecordKeepOffArgs {
  /** spreading jobs and passes in any order; other entries and fields may stand among them */
  entries: readonly {
    /** the entry, once only */
    id: string;
    /** mow, spread, pass, observation, stock_count or tray_test */
    kind: string;
    /** moment it was done */
    occurred_at: string;
    /** struck out */
    void?: boolean;
    /** zones a pass was walked on */
    zone_ids?: readonly string[];
    /** product of a spreading job or pass */
    product_id?: string;
    /** sort of the product */
    sort?: string;
    /** product put down; 0 is nothing [kg] */
    used_kg?: number;
    /** of a spreading job, for each zone what it got */
    zones?: readonly {
      /** the zone */
      zone_id: string;
      /** nitrogen on it; null if unknown [kg/m2] */
      n_kg_m2?: number | null;
    }[];
  }[];
  /** the moment asked about */
  now: string;
  /** products with what their labels say */
  products?: readonly {
    /** the product, once only */
    id: string;
    /** hours to keep off [h] */
    keep_off_hours?: number;
    /** unsaid, water_in or keep_dry */
    water_in?: string;
  }[];
}

export interface RecordKeepOffValue {
  /** by zone id, only those to keep off now */
  zones: Record<string, {
    /** the end, in universal time */
    until: string;
    /** when it was put down */
    put_down_at: string;
    /** hours to keep off [h] */
    hours: number;
    /** true where no label says the hours */
    assumed: boolean;
    /** true where it ends with watering in */
    until_watered: boolean;
    /** the product; null if it is not known */
    product_id: string | null;
    /** the entry that says so */
    entry_id: string;
  }>;
  /** seconds until the first of them is over; null where there is none [s] */
  over_in_s: number | null;
}

/** Totals of the book per zone and per product; struck-out entries do not count. The year is today's calendar year by the date each entry was written down with. A `spread` carries what was put down; its `pass` entries are the learning history and are counted, not added again. What is dated more than a day ahead of today has not been done: it counts nowhere and is named. */
export interface RecordTotalsArgs {
  /** the entries in any order; other fields than these may stand in them */
  entries: readonly {
    /** the entry, once only */
    id: string;
    /** mow, spread, pass, observation, stock_count, tray_test, reading, soil_test or bought */
    kind: string;
    /** moment it was done */
    occurred_at: string;
    /** zones it was done on */
    zone_ids?: readonly string[];
    /** struck out */
    void?: boolean;
    /** product of a spreading job, pass, purchase or count */
    product_id?: string;
    /** sort of the product a spreading job put down, such as fertilizer or seed */
    sort?: string;
    /** product a spreading job put down [kg] */
    used_kg?: number;
    /** product a count found [kg] */
    left_kg?: number;
    /** weight of a purchase; it stands before its bags [kg] */
    bought_kg?: number;
    /** bags of a purchase [bags] */
    bags?: number;
    /** net weight of one of them [kg] */
    net_kg?: number;
    /** of a spreading job, for each zone what it got */
    zones?: readonly {
      /** the zone */
      zone_id: string;
      /** nitrogen on it; null if unknown [kg/m2] */
      n_kg_m2?: number | null;
    }[];
  }[];
  /** the day asked about */
  today: string;
}

export interface RecordTotalsValue {
  /** by zone id what it had */
  zones: Record<string, {
    /** day of its last mow; null if there was none */
    last_mow: string | null;
    /** day of its last feed; null likewise */
    last_feed: string | null;
    /** nitrogen of this year, as far as entered [kg/m2] */
    n_year_kg_m2: number;
    /** passes walked on it [passes] */
    passes: number;
    /** feeds of this year whose nitrogen nobody entered [feeds] */
    n_unknown_feeds: number;
  }>;
  /** by product id what there is */
  products: Record<string, {
    /** put down since it was counted, without a count since it was first bought [kg] */
    used_since_count_kg: number;
    /** bought since it was counted [kg] */
    bought_since_kg: number;
    /** what was counted; null without a count [kg] */
    counted_kg: number | null;
    /** when; null likewise */
    counted_at: string | null;
    /** what is left; null where it was neither counted nor bought; below 0 where more was used than there was [kg] */
    left_kg: number | null;
  }>;
  /** ids of entries dated more than a day ahead, which count nowhere */
  ahead: string[];
}

/** What season.build takes, from a household's book, its wishes, its place and published tables. Aims and ceilings go by grass, the jobs of the year by the skeleton that suits the climate. What cannot be planned is named with the field it lacks, or the rule that bars it. */
export interface SeasonArgumentsArgs {
  /** the zones, up to 1000 */
  zones: readonly {
    /** the zone, once only */
    id: string;
    /** its area [m2] */
    area_m2?: number;
    /** key of its grass */
    grass?: string;
    /** sun, part_shade or shade */
    sun?: string;
    /** what it is used for */
    use?: string;
    /** whether water is near */
    near_water?: boolean;
    /** a group of its own, by hand */
    apart?: boolean;
  }[];
  /** the products of the shed, as season.gather takes them */
  products: SeasonGatherArgs["products"];
  /** the log, as record.totals takes it */
  entries: readonly {
  }[];
  /** the place's usual year */
  climate: {
    /** means of the twelve months, January first */
    monthly_mean_c?: readonly number[];
    /** mean of the warmest month, where the twelve are not known [C] */
    warmest_c?: number;
    /** mean of the coldest month, with it [C] */
    coldest_c?: number;
    /** true where January is warm; asked for only with these two */
    southern?: boolean;
  };
  /** the day of planning */
  today: string;
  /** what is published */
  tables: {
    /** grasses, as fixtures/published/grasses.json has them */
    grasses: readonly {
      /** the grass */
      key: string;
      /** its season */
      season: "cool" | "warm";
      /** printed ranges of the year, as feeding.yearly_aim takes them */
      nitrogen_year_rows: readonly {
      }[];
    }[];
    /** printed ranges of lawns in general */
    general: readonly {
    }[];
    /** printed rules, as limits.rules takes them */
    rules: LimitsRulesArgs["rules"];
    /** the places there are, likewise */
    places: LimitsRulesArgs["places"];
    /** the skeletons of the year, as fixtures/published/season_a.json has the first */
    seasons: readonly {
      /** its letter */
      key: string;
      /** its rows */
      jobs: readonly {
      }[];
    }[];
  };
  /** key of the household's place; not known when not said */
  place?: string;
  /** rules the household entered itself, or turned off */
  own_rules?: LimitsRulesArgs["own_rules"];
  /** what the household wishes, as its plan record says it */
  wishes?: {
    /** how green it is to be; middle when not said */
    level?: "low" | "middle" | "high";
    /** what becomes of them; they stay when not said */
    clippings?: "left" | "collected";
    /** money to spend at most [money] */
    budget?: number;
    /** evenings a week [evenings] */
    evenings_week?: number;
    /** minutes of one [min] */
    minutes_evening?: number;
    /** only feeds that are mostly slow */
    only_gentle?: boolean;
    /** months in which nothing is done, January being 1 */
    skip_months?: readonly number[];
  };
  /** steps of the plan that stands, up to 2000 */
  steps?: readonly {
    /** its first day */
    from_on: string;
    /** its last day */
    to_on: string;
    /** its zones */
    zones?: readonly string[];
    /** its product */
    product?: string;
    /** what it is */
    job: "feed" | "pre_emergent" | "overseed" | "lime" | "aerate" | "soil_test" | "other";
    /** whether it stays where it is */
    locked?: boolean;
    /** how it stands; planned when not said */
    state?: "planned" | "done" | "put_off";
  }[];
}

export interface SeasonArgumentsValue {
  /** what season.build and season.read take */
  plan: {
    /** ground that is fed alike */
    groups: SeasonGatherValue["groups"];
    /** what a plan may use */
    products: SeasonGatherValue["products"];
    /** the place's usual year */
    climate: {
      /** means of the twelve months, January first */
      monthly_mean_c?: number[];
      /** mean of the warmest month [C] */
      warmest_c?: number;
      /** mean of the coldest month [C] */
      coldest_c?: number;
      /** true where January is warm */
      southern?: boolean;
      /** what is done in a year */
      jobs: {
        /** its name */
        job: string;
        /** what it is */
        sort: string;
        /** the season of grass it is for */
        turf: "cool" | "warm";
        /** when it opens */
        opens: {
          /** what it goes by */
          measure: string;
          /** on the way up or down */
          way?: string;
          /** temperature [C] */
          edge_c?: number;
          /** share of the best growth [share] */
          edge_potential?: number;
          /** month of the northern year [month] */
          month?: number;
          /** so many days after that [day] */
          shift_days?: number;
        };
        /** when it closes */
        closes: {
          /** what it goes by */
          measure: string;
          /** on the way up or down */
          way?: string;
          /** temperature [C] */
          edge_c?: number;
          /** share of the best growth [share] */
          edge_potential?: number;
          /** month of the northern year [month] */
          month?: number;
          /** so many days after that [day] */
          shift_days?: number;
        };
        /** its share of the year's nitrogen by yearly aim */
        shares?: {
          /** yearly aim [lb/1000 ft2] */
          aim_lb_kft2: number;
          /** share of the year [share] */
          share: number;
        }[];
      }[];
    };
    /** what holds at the place */
    rules: {
      /** spans of days on which nothing is spread */
      closed: {
        /** first day */
        first: string;
        /** last day */
        last: string;
      }[];
    };
    /** what the household would like */
    wishes: {
      /** evenings a week [evenings] */
      evenings_week?: number;
      /** minutes of one [min] */
      evening_minutes?: number;
      /** money to spend at most [money] */
      spend_most?: number;
      /** only feeds that are mostly slow */
      gentle_only: boolean;
      /** spans of days in which nothing is to be done */
      skip: {
        /** first day */
        first: string;
        /** last day */
        last: string;
      }[];
      /** what a step that is not in the present plan counts for more [money] */
      moved_cost?: number;
      /** steps of the present plan, where there are any */
      present?: {
        /** day of the step */
        date: string;
        /** the group */
        group: string;
        /** its product */
        product?: string;
        /** its job, where it is a dated one */
        job?: string;
      }[];
    };
    /** what was put down in the last 365 days, group by group */
    done: SeasonGatherValue["done"];
    /** steps that stay where they are */
    locked: SeasonGatherValue["locked"];
    /** the day of planning */
    today: string;
  };
  /** the rules that hold, as limits.check takes them */
  rules: LimitsRulesValue["rules"];
  /** whether rules of the place are known */
  state: "known" | "unlisted" | "unknown";
  /** zones no plan can take */
  lacking_zones: SeasonGatherValue["lacking_zones"];
  /** products no plan can take */
  lacking_products: SeasonGatherValue["lacking_products"];
  /** products that a rule of the place keeps out */
  barred_products: {
    /** the product */
    id: string;
    /** the kind of rule */
    rule: "pesticide_ban" | "slow_least";
  }[];
  /** products whose price nobody entered */
  unpriced: string[];
  /** entries of the last 365 days whose nitrogen nobody entered */
  unknown: string[];
}

/** Which rules give where no plan can keep them all: a model to be solved first, then read with its values. */
export interface SeasonBlockedArgs {
  /** as season.build takes them */
  groups: SeasonBuildArgs["groups"];
  /** likewise */
  products: SeasonBuildArgs["products"];
  /** likewise */
  climate: SeasonBuildArgs["climate"];
  /** likewise */
  rules: SeasonBuildArgs["rules"];
  /** likewise */
  wishes: SeasonBuildArgs["wishes"];
  /** likewise */
  done: SeasonBuildArgs["done"];
  /** likewise */
  locked: SeasonBuildArgs["locked"];
  /** the day of planning */
  today: string;
  /** values of the columns of this model, in their order */
  solution?: readonly number[];
}

export interface SeasonBlockedValue {
  /** columns and rows as season.build gives them; its cost is what all rules together give */
  model: {
    /** unknowns */
    columns: {
      /** what it stands for */
      name: string;
      /** least value [value] */
      low: number;
      /** greatest value [value] */
      high: number;
      /** what one of it costs [value] */
      cost: number;
      /** whether it must be whole */
      integer: boolean;
    }[];
    /** what must hold */
    rows: {
      /** what it is about */
      name: string;
      /** least sum; null where there is none [value] */
      low: number | null;
      /** greatest sum, likewise [value] */
      high: number | null;
      /** pairs of a column's place and its factor */
      terms: [number, number][];
    }[];
  };
  /** the rules that give, where a solution was handed in */
  gives: {
    /** the rule */
    name: string;
    /** the same as a sentence, with groups and products by their ids */
    says: string;
    /** how much, in the rule's own unit [value] */
    by: number;
  }[];
}

/** A season as a mixed-integer model: what may be done when, what it costs, what must hold; and a first plan. */
export interface SeasonBuildArgs {
  /** ground that is fed alike, up to 12 */
  groups: readonly {
    /** the group, once only */
    id: string;
    /** its area [m2] */
    area_m2: number;
    /** season of its grass */
    turf: "cool" | "warm";
    /** its zones */
    zones?: readonly string[];
    /** nitrogen of a year, shared out by the windows of climate.jobs [kg/m2] */
    aim_n_kg_m2?: number;
    /** nitrogen asked for in each week, in place of that */
    need_n_kg_m2?: readonly number[];
    /** nitrogen at once at most, held over any six weeks [kg/m2] */
    n_once_kg_m2?: number;
    /** its quick part at most, held over any four weeks [kg/m2] */
    n_quick_once_kg_m2?: number;
    /** nitrogen of a year at most [kg/m2] */
    n_year_kg_m2?: number;
    /** whether phosphate may go on, by a soil test or at sowing; not when not said */
    phosphate?: boolean;
    /** dated jobs that are wanted: pre_emergent, overseed, lime, aerate, soil_test */
    jobs?: readonly string[];
    /** minutes one job takes; by its area when not said [min] */
    job_minutes?: number;
  }[];
  /** what is in the shed or can be bought, up to 24 */
  products: readonly {
    /** the product, once only */
    id: string;
    /** what it is */
    sort: "fertilizer" | "pre_emergent" | "post_emergent" | "lime" | "seed" | "other";
    /** weight of a bag [kg] */
    net_kg: number;
    /** price of a bag [money] */
    price: number;
    /** nitrogen on the label [%] */
    n_percent?: number;
    /** slow-release share of it; none when not said [share] */
    slow_n_share?: number;
    /** kind of nitrogen; soluble when not said */
    source?: "soluble" | "sulfur_coated" | "polymer_coated" | "condensed" | "ibdu" | "natural";
    /** phosphate on the label [%] */
    p2o5_percent?: number;
    /** the label's rate, the most at once [kg/m2] */
    rate_kg_m2: number;
    /** what is in the shed [kg] */
    stock_kg?: number;
    /** least days between uses by the label [day] */
    interval_days?: number;
    /** days from this pre-emergent to seeding; the longest published when not said [day] */
    wait_days?: number;
  }[];
  /** the place's usual year */
  climate: {
    /** usual mean of each day, 1 January first, 29 February among them */
    daily_mean_c?: readonly number[];
    /** means of the twelve months instead, January first */
    monthly_mean_c?: readonly number[];
    /** mean of the warmest month, where the twelve are not known [C] */
    warmest_c?: number;
    /** mean of the coldest month, with it [C] */
    coldest_c?: number;
    /** true where January is warm; asked for only with these two */
    southern?: boolean;
    /** what is done in a year, rows of a skeleton as season.windows and season.needs take them */
    jobs?: readonly {
      /** its name */
      job: string;
      /** what it is */
      sort?: string;
      /** the season of grass it is for */
      turf?: "cool" | "warm";
      /** when it opens */
      opens: {
      };
      /** when it closes */
      closes: {
      };
      /** its share of the year's nitrogen by yearly aim */
      shares?: readonly {
      }[];
    }[];
  };
  /** what holds at the place */
  rules: {
    /** spans of days on which nothing is spread */
    closed?: readonly {
      /** first day */
      first: string;
      /** last day */
      last: string;
    }[];
  };
  /** what the household would like */
  wishes: {
    /** weeks in which feeds may begin; half_month when not said */
    grid?: "half_month" | "weekly";
    /** steps near which every week may be one, and only near them */
    near?: readonly {
      /** the group */
      group: string;
      /** day of the step */
      date: string;
    }[];
    /** how many weeks are planned; a year when not said [weeks] */
    weeks?: number;
    /** evenings a week; 2 when not said [evenings] */
    evenings_week?: number;
    /** minutes of one; 120 when not said [min] */
    evening_minutes?: number;
    /** what an evening is worth; 2 when not said [money] */
    evening_cost?: number;
    /** money to spend at most [money] */
    spend_most?: number;
    /** only feeds that are mostly slow */
    gentle_only?: boolean;
    /** spans of days in which nothing is to be done */
    skip?: readonly {
      /** first day */
      first: string;
      /** last day */
      last: string;
    }[];
    /** what a kilogram of nitrogen missed counts for; three times the dearest when not said [money/kg] */
    missed_cost_kg_n?: number;
    /** what a job left out counts for; 60 when not said [money] */
    job_missed_cost?: number;
    /** what a step that is not in the present plan counts for more [money] */
    moved_cost?: number;
    /** steps of the present plan */
    present?: readonly {
      /** the group */
      group: string;
      /** day of the step */
      date: string;
      /** its product */
      product?: string;
      /** its job, where it is a dated one */
      job?: string;
    }[];
    /** whether every job asked for must have its week */
    must?: boolean;
  };
  /** feeds and pre-emergents put down in the last year */
  done: readonly {
    /** day */
    date: string;
    /** the group */
    group: string;
    /** the product */
    product?: string;
    /** nitrogen that came with it [kg/m2] */
    n_kg_m2: number;
    /** slow-release share of that [share] */
    slow_n_share?: number;
    /** how much of it [kg/m2] */
    rate_kg_m2?: number;
  }[];
  /** steps that stay where they are */
  locked: readonly {
    /** day of the step */
    date: string;
    /** the group */
    group: string;
    /** its product */
    product?: string;
    /** its job, where it is a dated one */
    job?: string;
  }[];
  /** the day of planning; weeks begin on its Monday */
  today: string;
}

export interface SeasonBuildValue {
  /** for a solver that finds the cheapest values of its columns */
  model: {
    /** unknowns */
    columns: {
      /** what it stands for */
      name: string;
      /** least value [value] */
      low: number;
      /** greatest value [value] */
      high: number;
      /** what one of it costs [money] */
      cost: number;
      /** whether it must be whole */
      integer: boolean;
    }[];
    /** what must hold */
    rows: {
      /** what it is about */
      name: string;
      /** least sum; null where there is none [value] */
      low: number | null;
      /** greatest sum, likewise [value] */
      high: number | null;
      /** pairs of a column's place and its factor */
      terms: [number, number][];
      /** the same as a sentence */
      says: string;
      /** whether a person could change it; else it ties columns together */
      rule: boolean;
    }[];
  };
  /** values of a first plan, one a column; rules it breaks are those that wishes made impossible */
  start: number[];
  /** weeks planned [weeks] */
  weeks: number;
  /** nitrogen that the groups ask for, added [kg/m2] */
  n_kg_m2: number;
}

/** What season.build takes, out of a household's book; what cannot be planned is named with the field it lacks. Zones become groups that are fed alike, labels products, the log of the last 365 days what is done. Zones are fed alike where grass, sun, use, water, what may go on and the jobs wanted are the same, and where what was put down on them in the last 42 days fell in the same weeks. */
export interface SeasonGatherArgs {
  /** the zones, up to 1000 */
  zones: readonly {
    /** the zone, once only */
    id: string;
    /** its area [m2] */
    area_m2?: number;
    /** season of its grass */
    turf?: "cool" | "warm";
    /** key of its grass */
    grass?: string;
    /** sun, part_shade or shade */
    sun?: string;
    /** what it is used for */
    use?: string;
    /** whether water is near */
    near_water?: boolean;
    /** whether phosphate may go on */
    phosphate?: boolean;
    /** dated jobs that are wanted, as season.build takes them */
    jobs?: readonly string[];
    /** a group of its own, by hand */
    apart?: boolean;
    /** nitrogen of a year [kg/m2] */
    aim_n_kg_m2?: number;
    /** nitrogen at once at most [kg/m2] */
    n_once_kg_m2?: number;
    /** its quick part at most [kg/m2] */
    n_quick_once_kg_m2?: number;
    /** nitrogen of a year at most [kg/m2] */
    n_year_kg_m2?: number;
  }[];
  /** the products of the shed, up to 500 */
  products: readonly {
    /** the product, once only */
    id: string;
    /** what it is */
    sort?: "fertilizer" | "pre_emergent" | "post_emergent" | "lime" | "seed" | "other";
    /** weight of a bag [kg] */
    net_kg?: number;
    /** ground a bag covers by its label [m2] */
    coverage_m2?: number;
    /** price of a bag [money] */
    price?: number;
    /** what is left, as record.totals tells it; below 0 counts as nothing [kg] */
    left_kg?: number;
    /** nitrogen on the label [%] */
    n_percent?: number;
    /** phosphate on the label [%] */
    p2o5_percent?: number;
    /** slow-release share of its nitrogen [share] */
    slow_n_share?: number;
    /** kind of nitrogen */
    source?: "soluble" | "sulfur_coated" | "polymer_coated" | "condensed" | "ibdu" | "natural";
    /** least days between uses by the label [day] */
    interval_days?: number;
    /** days from this pre-emergent to seeding [day] */
    wait_days?: number;
  }[];
  /** the log, as record.totals takes it */
  entries: readonly {
  }[];
  /** the day of planning */
  today: string;
  /** steps of the plan that stands, up to 2000 */
  steps?: readonly {
    /** day of the step */
    date: string;
    /** its zones */
    zones: readonly string[];
    /** its product */
    product?: string;
    /** its job, where it is a dated one */
    job?: string;
    /** whether it stays where it is */
    locked?: boolean;
  }[];
}

export interface SeasonGatherValue {
  /** ground that is fed alike, the largest first, named by the first of its zones by id */
  groups: {
    /** the group */
    id: string;
    /** its zones */
    zones: string[];
    /** its area [m2] */
    area_m2: number;
    /** season of its grass */
    turf: "cool" | "warm";
    /** whether phosphate may go on */
    phosphate: boolean;
    /** dated jobs that are wanted */
    jobs: string[];
    /** nitrogen of a year, where it was said [kg/m2] */
    aim_n_kg_m2?: number;
    /** nitrogen at once at most, likewise [kg/m2] */
    n_once_kg_m2?: number;
    /** its quick part at most, likewise [kg/m2] */
    n_quick_once_kg_m2?: number;
    /** nitrogen of a year at most, likewise [kg/m2] */
    n_year_kg_m2?: number;
  }[];
  /** what a plan may use */
  products: {
    /** the product */
    id: string;
    /** what it is */
    sort: "fertilizer" | "pre_emergent" | "post_emergent" | "lime" | "seed" | "other";
    /** weight of a bag [kg] */
    net_kg: number;
    /** price of a bag, the dearest of the others taken where nobody entered one [money] */
    price: number;
    /** the label's rate [kg/m2] */
    rate_kg_m2: number;
    /** what is in the shed [kg] */
    stock_kg: number;
    /** nitrogen on the label, where it was said [%] */
    n_percent?: number;
    /** phosphate, likewise [%] */
    p2o5_percent?: number;
    /** slow-release share, likewise [share] */
    slow_n_share?: number;
    /** kind of nitrogen, likewise */
    source?: "soluble" | "sulfur_coated" | "polymer_coated" | "condensed" | "ibdu" | "natural";
    /** least days between uses, likewise [day] */
    interval_days?: number;
    /** days to seeding, likewise [day] */
    wait_days?: number;
  }[];
  /** what was put down in the last 365 days, group by group */
  done: {
    /** day */
    date: string;
    /** the group */
    group: string;
    /** nitrogen that came with it, the most that a zone of the group had [kg/m2] */
    n_kg_m2: number;
    /** the product, where it is known */
    product?: string;
    /** slow-release share of its nitrogen, likewise [share] */
    slow_n_share?: number;
  }[];
  /** steps from today on that stay where they are, by group */
  locked: {
    /** day of the step */
    date: string;
    /** the group */
    group: string;
    /** its product */
    product?: string;
    /** its job */
    job?: string;
  }[];
  /** all steps from today on, by group */
  present: {
    /** day of the step */
    date: string;
    /** the group */
    group: string;
    /** its product */
    product?: string;
    /** its job */
    job?: string;
  }[];
  /** zones no plan can take */
  lacking_zones: {
    /** the zone */
    id: string;
    /** the field it lacks */
    lacks: "area_m2" | "turf";
  }[];
  /** products no plan can take */
  lacking_products: {
    /** the product */
    id: string;
    /** the field it lacks */
    lacks: "sort" | "net_kg" | "coverage_m2" | "n_percent";
  }[];
  /** products whose price nobody entered */
  unpriced: string[];
  /** entries of the last 365 days whose nitrogen nobody entered; it counts as none */
  unknown: string[];
}

/** Which rules a step breaks on its new days, by itself or with what was done and what is planned (limits.check). It is held to them on its first and on its last day, other steps on their first. Of coming weather the usual year is known, so that heat and frost speak; rain is not. */
export interface SeasonMovedArgs {
  /** the step and its new days */
  move: {
    /** the step */
    step: string;
    /** its new first day */
    from: string;
    /** its new last day */
    to: string;
  };
  /** steps of the plan, as season.sheet takes them */
  steps: SeasonSheetArgs["steps"];
  /** what labels say; what else one says may stand there too */
  products: readonly {
    /** the product */
    id: string;
    /** what it is; by the job of the step when not said */
    sort?: string;
    /** weight of a bag [kg] */
    net_kg?: number;
    /** ground a bag covers: with its weight the most at once [m2] */
    coverage_m2?: number;
    /** nitrogen on the label [%] */
    n_percent?: number;
    /** phosphate on the label [%] */
    p2o5_percent?: number;
    /** slow-release share of its nitrogen [share] */
    slow_n_share?: number;
    /** least days between two uses by its label [day] */
    interval_days?: number;
    /** most uses in a year by its label [uses] */
    uses_year?: number;
    /** most of it in a year by its label [kg/m2] */
    year_kg_m2?: number;
    /** days from it to sowing by its label [day] */
    seed_wait_days?: number;
  }[];
  /** the log, as record.clashes takes it */
  entries: RecordClashesArgs["entries"];
  /** the zones, as limits.check takes them */
  zones: LimitsCheckArgs["zones"];
  /** rules as limits.rules gives them */
  rules: LimitsCheckArgs["rules"];
  /** the day of moving */
  today: string;
  /** key of the place; not known when not said */
  place?: string;
  /** soil tests, as limits.check takes them */
  soil_tests?: LimitsCheckArgs["soil_tests"];
  /** the place's usual year, as season.sheet takes it */
  climate?: {
    /** usual mean of each day, 1 January first, 29 February among them */
    daily_mean_c?: readonly number[];
    /** means of the twelve months instead, January first */
    monthly_mean_c?: readonly number[];
    /** mean of the warmest month, where the twelve are not known [C] */
    warmest_c?: number;
    /** mean of the coldest month, with it [C] */
    coldest_c?: number;
    /** true where January is warm; asked for only with these two */
    southern?: boolean;
  };
}

export interface SeasonMovedValue {
  /** rules the step breaks, or makes another break; one row for zones that break it alike */
  breaches: {
    /** the step or entry that breaks it */
    job: string;
    /** whether that is the step moved */
    own: boolean;
    /** other steps and entries that count in it */
    others: string[];
    /** the zones */
    zones: string[];
    /** the rule, by its id */
    rule: string;
    /** what it is about, as limits.check has it */
    kind: "all_days" | "all_once" | "closed" | "cold" | "drought" | "frozen" | "gentle_once" | "heat" | "label_interval" | "label_rate" | "label_uses" | "label_year" | "lime_nitrogen" | "lime_once" | "lime_twice" | "pesticide_ban" | "phosphate" | "phosphate_once" | "phosphate_year" | "pre_after_seed" | "pre_twice" | "quick_days" | "quick_once" | "saturated" | "seed_after_pre" | "slow_least" | "spacing_quick" | "spacing_slow" | "summer_ban" | "water" | "water_in" | "year" | "young";
    /** the day it is broken on */
    date: string;
    /** what was found; null where nothing is measured [number] */
    figure: number | null;
    /** what the rule allows, likewise [number] */
    ceiling: number | null;
    /** unit of both, likewise */
    unit: string | null;
    /** who says so */
    source: string;
    /** as of when, where the rule says it */
    since: string | null;
    /** what to do and why, in plain words */
    says: string;
    /** the day from which it would be right, null where waiting alone does not help */
    right_from: string | null;
    /** which answers would loosen it, as sentences */
    loosens: string[];
  }[];
  /** whether its last day would lie before today */
  past: boolean;
  /** that this is not the law, in a sentence */
  not_the_law: string;
}

/** Nitrogen that should be there for the grass in each week, of the aim for a year. */
export interface SeasonNeedsArgs {
  /** the place's usual year */
  climate: {
    /** usual mean of each day, 1 January first, 29 February among them */
    daily_mean_c?: readonly number[];
    /** means of the twelve months instead, January first */
    monthly_mean_c?: readonly number[];
    /** mean of the warmest month, where the twelve are not known [C] */
    warmest_c?: number;
    /** mean of the coldest month, with it [C] */
    coldest_c?: number;
    /** true where January is warm; asked for only with these two */
    southern?: boolean;
  };
  /** what is done in a year, as season.windows takes it; of them the feeds count */
  jobs: readonly {
    /** its name */
    job: string;
    /** what it is; a feed is one that says so */
    sort?: string;
    /** the season of grass it is for; any when not said */
    turf?: "cool" | "warm";
    /** when it opens */
    opens: {
    };
    /** when it closes */
    closes: {
    };
    /** its share of the year by yearly aim, straight lines between them */
    shares?: readonly {
      /** yearly aim, in the pounds per 1,000 ft2 it is printed in [lb/1000 ft2] */
      aim_lb_kft2: number;
      /** share of the year's nitrogen [share] */
      share: number;
    }[];
  }[];
  /** a day of the first week, which begins on a Monday */
  first: string;
  /** how many weeks [weeks] */
  weeks: number;
  /** season of the grass */
  turf: "cool" | "warm";
  /** nitrogen of a year [kg/m2] */
  aim_n_kg_m2: number;
}

export interface SeasonNeedsValue {
  /** each week */
  weeks: {
    /** its place, the first being 0 [place] */
    week: number;
    /** its Monday */
    date: string;
    /** nitrogen it asks for [kg/m2] */
    n_kg_m2: number;
    /** growth potential of its middle [share] */
    potential: number;
  }[];
  /** nitrogen of all these weeks [kg/m2] */
  n_kg_m2: number;
  /** the feeding windows */
  windows: {
    /** its name */
    job: string;
    /** first day; null where the year never has it */
    opens: string | null;
    /** last day */
    closes: string | null;
    /** its share of the year at this aim [share] */
    share: number;
    /** nitrogen of the whole window [kg/m2] */
    n_kg_m2: number;
  }[];
}

/** A plan from the values a solver found: its steps with their reasons, bags, cost and how good it is known to be. */
export interface SeasonReadArgs {
  /** ground that is fed alike, up to 12 */
  groups: readonly {
    /** the group, once only */
    id: string;
    /** its area [m2] */
    area_m2: number;
    /** season of its grass */
    turf: "cool" | "warm";
    /** its zones */
    zones?: readonly string[];
    /** nitrogen of a year, shared out by the windows of climate.jobs [kg/m2] */
    aim_n_kg_m2?: number;
    /** nitrogen asked for in each week, in place of that */
    need_n_kg_m2?: readonly number[];
    /** nitrogen at once at most, held over any six weeks [kg/m2] */
    n_once_kg_m2?: number;
    /** its quick part at most, held over any four weeks [kg/m2] */
    n_quick_once_kg_m2?: number;
    /** nitrogen of a year at most [kg/m2] */
    n_year_kg_m2?: number;
    /** whether phosphate may go on, by a soil test or at sowing; not when not said */
    phosphate?: boolean;
    /** dated jobs that are wanted: pre_emergent, overseed, lime, aerate, soil_test */
    jobs?: readonly string[];
    /** minutes one job takes; by its area when not said [min] */
    job_minutes?: number;
  }[];
  /** what is in the shed or can be bought, up to 24 */
  products: readonly {
    /** the product, once only */
    id: string;
    /** what it is */
    sort: "fertilizer" | "pre_emergent" | "post_emergent" | "lime" | "seed" | "other";
    /** weight of a bag [kg] */
    net_kg: number;
    /** price of a bag [money] */
    price: number;
    /** nitrogen on the label [%] */
    n_percent?: number;
    /** slow-release share of it; none when not said [share] */
    slow_n_share?: number;
    /** kind of nitrogen; soluble when not said */
    source?: "soluble" | "sulfur_coated" | "polymer_coated" | "condensed" | "ibdu" | "natural";
    /** phosphate on the label [%] */
    p2o5_percent?: number;
    /** the label's rate, the most at once [kg/m2] */
    rate_kg_m2: number;
    /** what is in the shed [kg] */
    stock_kg?: number;
    /** least days between uses by the label [day] */
    interval_days?: number;
    /** days from this pre-emergent to seeding; the longest published when not said [day] */
    wait_days?: number;
  }[];
  /** the place's usual year */
  climate: {
    /** usual mean of each day, 1 January first, 29 February among them */
    daily_mean_c?: readonly number[];
    /** means of the twelve months instead, January first */
    monthly_mean_c?: readonly number[];
    /** mean of the warmest month, where the twelve are not known [C] */
    warmest_c?: number;
    /** mean of the coldest month, with it [C] */
    coldest_c?: number;
    /** true where January is warm; asked for only with these two */
    southern?: boolean;
    /** what is done in a year, rows of a skeleton as season.windows and season.needs take them */
    jobs?: readonly {
      /** its name */
      job: string;
      /** what it is */
      sort?: string;
      /** the season of grass it is for */
      turf?: "cool" | "warm";
      /** when it opens */
      opens: {
      };
      /** when it closes */
      closes: {
      };
      /** its share of the year's nitrogen by yearly aim */
      shares?: readonly {
      }[];
    }[];
  };
  /** what holds at the place */
  rules: {
    /** spans of days on which nothing is spread */
    closed?: readonly {
      /** first day */
      first: string;
      /** last day */
      last: string;
    }[];
  };
  /** what the household would like */
  wishes: {
    /** weeks in which feeds may begin; half_month when not said */
    grid?: "half_month" | "weekly";
    /** steps near which every week may be one, and only near them */
    near?: readonly {
      /** the group */
      group: string;
      /** day of the step */
      date: string;
    }[];
    /** how many weeks are planned; a year when not said [weeks] */
    weeks?: number;
    /** evenings a week; 2 when not said [evenings] */
    evenings_week?: number;
    /** minutes of one; 120 when not said [min] */
    evening_minutes?: number;
    /** what an evening is worth; 2 when not said [money] */
    evening_cost?: number;
    /** money to spend at most [money] */
    spend_most?: number;
    /** only feeds that are mostly slow */
    gentle_only?: boolean;
    /** spans of days in which nothing is to be done */
    skip?: readonly {
      /** first day */
      first: string;
      /** last day */
      last: string;
    }[];
    /** what a kilogram of nitrogen missed counts for; three times the dearest when not said [money/kg] */
    missed_cost_kg_n?: number;
    /** what a job left out counts for; 60 when not said [money] */
    job_missed_cost?: number;
    /** what a step that is not in the present plan counts for more [money] */
    moved_cost?: number;
    /** steps of the present plan */
    present?: readonly {
      /** the group */
      group: string;
      /** day of the step */
      date: string;
      /** its product */
      product?: string;
      /** its job, where it is a dated one */
      job?: string;
    }[];
    /** whether every job asked for must have its week */
    must?: boolean;
  };
  /** feeds and pre-emergents put down in the last year */
  done: readonly {
    /** day */
    date: string;
    /** the group */
    group: string;
    /** the product */
    product?: string;
    /** nitrogen that came with it [kg/m2] */
    n_kg_m2: number;
    /** slow-release share of that [share] */
    slow_n_share?: number;
    /** how much of it [kg/m2] */
    rate_kg_m2?: number;
  }[];
  /** steps that stay where they are */
  locked: readonly {
    /** day of the step */
    date: string;
    /** the group */
    group: string;
    /** its product */
    product?: string;
    /** its job, where it is a dated one */
    job?: string;
  }[];
  /** the day of planning; weeks begin on its Monday */
  today: string;
  /** values of the columns of season.build, in their order */
  solution: readonly number[];
  /** what no plan could cost less than, by the solver [money] */
  bound?: number;
  /** whether the solver was stopped before it was done */
  stopped?: boolean;
}

export interface SeasonReadValue {
  /** what to do, in order */
  steps: {
    /** week of the plan, the first being 0 [place] */
    week: number;
    /** its Monday, or today */
    date: string;
    /** what it is */
    sort: "feed" | "pre_emergent" | "overseed" | "lime" | "aerate" | "soil_test";
    /** its row in climate.jobs; null for a feed */
    job: string | null;
    /** the product; null where none is chosen or needed */
    product: string | null;
    /** the group */
    group: string;
    /** its zones */
    zones: string[];
    /** product on the whole group [kg] */
    kg: number;
    /** product rate [kg/m2] */
    rate_kg_m2: number;
    /** day until which a feed serves; null for other jobs */
    until: string | null;
    /** whether it was locked */
    locked: boolean;
    /** why it is where it is */
    why: {
      /** the reason */
      why: "need" | "locked" | "now" | "fed_until" | "closed" | "skipped" | "not_growing" | "heat" | "not_green" | "cold" | "no_need_before" | "dearer_sooner" | "in_shed" | "only_one" | "cheapest_nitrogen" | "fits_whole" | "window";
      /** from when, where that matters */
      since: string | null;
      /** until when, likewise */
      until: string | null;
      /** nitrogen it is for, likewise [kg/m2] */
      n_kg_m2: number | null;
    }[];
  }[];
  /** jobs asked for that found no week */
  left_out: {
    /** the group */
    group: string;
    /** its row in climate.jobs */
    job: string;
    /** what it is */
    sort: "pre_emergent" | "overseed" | "lime" | "aerate" | "soil_test";
  }[];
  /** feeds that no week of a group can take */
  unused: {
    /** the group */
    group: string;
    /** the product */
    product: string;
    /** what keeps it out */
    why: "not_gentle" | "phosphate" | "no_week" | "too_strong" | "little_need";
    /** the label's rate [kg/m2] */
    rate_kg_m2: number;
    /** what the ceilings leave of it at once, at most; null where they are not asked [kg/m2] */
    most_kg_m2: number | null;
  }[];
  /** what to buy */
  bags: {
    /** the product */
    product: string;
    /** whole bags [bags] */
    bags: number;
    /** their weight [kg] */
    kg: number;
    /** their price [money] */
    price: number;
  }[];
  /** what is left at the end */
  left_over: {
    /** the product */
    product: string;
    /** how much [kg] */
    kg: number;
  }[];
  /** parts of what the plan costs */
  cost: {
    /** bags [money] */
    bought: number;
    /** what leftovers lose in worth [money] */
    left_over: number;
    /** evenings, by what one is worth [money] */
    evenings: number;
    /** nitrogen missed, by what it counts for [money] */
    missed: number;
  };
  /** what the solver compared plans by [money] */
  weighed_cost: number;
  /** what no plan could cost less than; null where not told [money] */
  bound: number | null;
  /** how far the two are apart, over the cost [share] */
  gap_share: number | null;
  /** how good the plan is known to be */
  says: "best" | "near_best" | "may_be_better" | "stopped" | "unknown";
  /** nitrogen that groups ask for and do not get [kg] */
  missed_n_kg: number;
  /** evenings it takes [evenings] */
  evenings: number;
}

/** What is drawn of a year: for each group its need, the nitrogen free and put down week by week, and its steps. Need is the yearly aim by the windows of the year (season.needs), free nitrogen that of every feed by its kind and the usual soil (feeding.release). Planned feeds count from their first day, or from today where that has passed. */
export interface SeasonSheetArgs {
  /** ground that is fed alike, as season.gather answers it; what else one says may stand there too */
  groups: readonly {
    /** the group, once only */
    id: string;
    /** its zones */
    zones: readonly string[];
    /** season of its grass */
    turf?: "cool" | "warm";
    /** nitrogen of a year; no need is drawn where not said [kg/m2] */
    aim_n_kg_m2?: number;
  }[];
  /** the zones; what else one says may stand there too */
  zones: readonly {
    /** the zone */
    id: string;
    /** its area [m2] */
    area_m2?: number;
  }[];
  /** what labels say; what else one says may stand there too */
  products: readonly {
    /** the product */
    id: string;
    /** nitrogen on the label [%] */
    n_percent?: number;
    /** slow-release share of it [share] */
    slow_n_share?: number;
    /** kind of nitrogen; soluble when not said */
    source?: "soluble" | "sulfur_coated" | "polymer_coated" | "condensed" | "ibdu" | "natural";
    /** weight of a bag [kg] */
    net_kg?: number;
  }[];
  /** steps of the plan that stands, up to 2000 */
  steps: readonly {
    /** the step */
    id: string;
    /** what is done */
    job: string;
    /** its zones */
    zones: readonly string[];
    /** its first day */
    from: string;
    /** its last day */
    to: string;
    /** its product */
    product?: string;
    /** product per area [kg/m2] */
    rate_kg_m2?: number;
    /** whether it stays where it is */
    locked?: boolean;
    /** planned when not said */
    state?: "planned" | "done" | "put_off";
  }[];
  /** what was put down, group by group, as season.gather answers it */
  done: readonly {
    /** day */
    date: string;
    /** the group */
    group: string;
    /** nitrogen per area [kg/m2] */
    n_kg_m2: number;
    /** the product */
    product?: string;
    /** slow-release share of its nitrogen [share] */
    slow_n_share?: number;
  }[];
  /** a day of the first week, which begins on a Monday */
  first: string;
  /** the day of drawing */
  today: string;
  /** the place's usual year, as season.build takes it; without it neither need nor free nitrogen is known */
  climate?: {
    /** usual mean of each day, 1 January first, 29 February among them */
    daily_mean_c?: readonly number[];
    /** means of the twelve months instead, January first */
    monthly_mean_c?: readonly number[];
    /** mean of the warmest month, where the twelve are not known [C] */
    warmest_c?: number;
    /** mean of the coldest month, with it [C] */
    coldest_c?: number;
    /** true where January is warm; asked for only with these two */
    southern?: boolean;
    /** what is done in a year, rows of a skeleton as season.needs takes them */
    jobs?: readonly {
    }[];
  };
  /** weeks drawn; 53 when not said [weeks] */
  weeks?: number;
}

export interface SeasonSheetValue {
  /** each week drawn */
  weeks: {
    /** its Monday */
    date: string;
  }[];
  /** where a month begins */
  months: {
    /** the month [month] */
    month: number;
    /** weeks from the first Monday to its first day [weeks] */
    week: number;
  }[];
  /** weeks from the first Monday to today, null where it is not drawn [weeks] */
  today_week: number | null;
  /** the most there is of anything in a week, so that all bands have one scale [kg/m2] */
  top_n_kg_m2: number;
  /** products of the bars, in the order they are first put down */
  products: string[];
  /** each group in its order; ground of no group last, where it has steps */
  bands: {
    /** the group, empty for ground of none */
    group: string;
    /** its zones */
    zones: string[];
    /** nitrogen asked for in each week, null where it is not known */
    need_n_kg_m2: number[] | null;
    /** nitrogen that comes free in each week, likewise */
    free_n_kg_m2: number[] | null;
    /** what is put down */
    bars: {
      /** its place, the first being 0 [place] */
      week: number;
      /** the day */
      date: string;
      /** the product, null where the log does not name it */
      product: string | null;
      /** the step of the plan, null for what was done */
      step: string | null;
      /** nitrogen put down [kg/m2] */
      n_kg_m2: number;
      /** nitrogen of the bars under it in that week [kg/m2] */
      under_n_kg_m2: number;
    }[];
    /** its steps, by day */
    flags: {
      /** the step */
      step: string;
      /** what is done */
      job: string;
      /** its place, the first being 0 [place] */
      week: number;
      /** first day */
      from: string;
      /** last day */
      to: string;
      /** its product */
      product: string | null;
      /** nitrogen per area [kg/m2] */
      n_kg_m2: number;
      /** product for this ground; null where rate or area is not known [kg] */
      kg: number | null;
      /** the same in bags [bags] */
      bags: number | null;
      /** whether it stays where it is */
      locked: boolean;
      /** how it stands */
      state: "planned" | "done" | "put_off";
      /** still planned though its days have passed */
      late: boolean;
      /** weeks it may be moved back, not before this week [weeks] */
      earlier_weeks: number;
      /** weeks it may be moved on, not past the last week [weeks] */
      later_weeks: number;
    }[];
  }[];
  /** nitrogen of these weeks, group by group */
  sums: {
    /** the group */
    group: string;
    /** asked for, null where it is not known [kg/m2] */
    need_n_kg_m2: number | null;
    /** put down and to be put down [kg/m2] */
    put_n_kg_m2: number;
    /** that comes free, null where it is not known [kg/m2] */
    free_n_kg_m2: number | null;
  }[];
}

/** The shopping list of a season: what steps take of each product, what the shed has of it, whole bags for the rest. What is in the shed goes to the earliest steps. A bag is wanted by the first step that it does not last for. */
export interface SeasonShoppingArgs {
  /** steps still to be done that put something down, up to 2000 */
  steps: readonly {
    /** the step, once only */
    id: string;
    /** first day of its window */
    date: string;
    /** its zones */
    zones?: readonly string[];
    /** its product */
    product: string;
    /** product per area [kg/m2] */
    rate_kg_m2?: number;
  }[];
  /** the zones, up to 1000 */
  zones: readonly {
    /** the zone, once only */
    id: string;
    /** its area [m2] */
    area_m2?: number;
  }[];
  /** the products of the shed, up to 500 */
  products: readonly {
    /** the product, once only */
    id: string;
    /** weight of a bag [kg] */
    net_kg?: number;
    /** price of a bag [money] */
    price?: number;
    /** nitrogen on the label [%] */
    n_percent?: number;
    /** what is left, as record.totals tells it; below 0 counts as nothing [kg] */
    left_kg?: number;
  }[];
}

export interface SeasonShoppingValue {
  /** those that steps take, the one wanted first before the others */
  products: {
    /** the product */
    id: string;
    /** its steps, the earliest first */
    steps: string[];
    /** what they take together [kg] */
    need_kg: number;
    /** of that out of the shed [kg] */
    shed_kg: number;
    /** what is missing [kg] */
    buy_kg: number;
    /** whole bags to buy [bags] */
    bags: number;
    /** weight of those bags [kg] */
    bags_kg: number;
    /** what is left when all of its steps are done [kg] */
    over_kg: number;
    /** money for the bags, null if no price is known [money] */
    cost: number | null;
    /** day on which the first bag is wanted, null where none is */
    by: string | null;
  }[];
  /** money for all bags whose price is known [money] */
  cost: number;
  /** products to buy whose price nobody entered */
  unpriced: string[];
  /** what a kilogram of nitrogen costs in each product, the cheapest first */
  nitrogen: {
    /** the product */
    id: string;
    /** money per kilogram of nitrogen [money/kg] */
    price_per_kg_n: number;
  }[];
  /** steps that cannot be counted */
  lacking: {
    /** the step */
    id: string;
    /** what nobody entered */
    lacks: "product" | "net_kg" | "rate_kg_m2" | "zones" | "area_m2";
  }[];
}

/** The skeleton of a year that is offered for each season of grass, by the warmth of the place's months. South of the equator it is that of the south. Warm-season grass has one of its own where it may never be scalped. Cool-season grass is told apart by frost in the coldest month and heat in the warmest, as climates are: cold winters, mild winters with hot summers, mild winters with mild summers. */
export interface SeasonSkeletonArgs {
  /** the place's usual year, as warmth.climate takes it */
  climate: {
    /** means of the twelve months, January first */
    monthly_mean_c?: readonly number[];
    /** mean of the warmest month, where the twelve are not known [C] */
    warmest_c?: number;
    /** mean of the coldest month, with it [C] */
    coldest_c?: number;
    /** true where January is warm; asked for only with these two */
    southern?: boolean;
  };
  /** the zones of the yard */
  ground: readonly {
    /** season of its grass */
    turf: "cool" | "warm";
    /** key of its grass */
    grass?: string;
  }[];
}

export interface SeasonSkeletonValue {
  /** one for each season of grass in the yard */
  offered: {
    /** season of the grass */
    turf: "cool" | "warm";
    /** the skeleton's letter */
    key: "a" | "b" | "c" | "d" | "e" | "f";
    /** what tells */
    why: "southern" | "cold_winter" | "hot_summer" | "mild" | "never_scalped" | "warm_season";
  }[];
  /** mean of the warmest month [C] */
  warmest_c: number;
  /** mean of the coldest month [C] */
  coldest_c: number;
}

/** Dates of each job's window, the next one that is still open on the first day or opens after it. */
export interface SeasonWindowsArgs {
  /** the place's usual year */
  climate: {
    /** usual mean of each day, 1 January first, 29 February among them */
    daily_mean_c?: readonly number[];
    /** means of the twelve months instead, January first */
    monthly_mean_c?: readonly number[];
    /** mean of the warmest month, where the twelve are not known [C] */
    warmest_c?: number;
    /** mean of the coldest month, with it [C] */
    coldest_c?: number;
    /** true where January is warm; asked for only with these two */
    southern?: boolean;
  };
  /** what is done in a year */
  jobs: readonly {
    /** its name */
    job: string;
    /** when it opens */
    opens: {
      /** what it goes by */
      measure: "soil" | "air" | "growth" | "frost" | "month" | "opened";
      /** on the way up, after the coldest day, or down, after the warmest */
      way?: "up" | "down";
      /** temperature, of soil or air [C] */
      edge_c?: number;
      /** share of the best growth [share] */
      edge_potential?: number;
      /** month of the northern year, of its first day [month] */
      month?: number;
      /** so many days after that, or before it [day] */
      shift_days?: number;
    };
    /** when it closes */
    closes: {
      /** what it goes by */
      measure: "soil" | "air" | "growth" | "frost" | "month" | "opened";
      /** on the way up or down */
      way?: "up" | "down";
      /** temperature, of soil or air [C] */
      edge_c?: number;
      /** share of the best growth [share] */
      edge_potential?: number;
      /** month of the northern year, of its first day [month] */
      month?: number;
      /** so many days after that, or before it [day] */
      shift_days?: number;
    };
  }[];
  /** the first day asked about */
  first: string;
  /** season of the grass */
  turf: "cool" | "warm";
}

export interface SeasonWindowsValue {
  /** of each job, in their order */
  windows: {
    /** its name */
    job: string;
    /** whether such a year has it */
    state: "dated" | "never";
    /** first day; null where the year never has it */
    opens: string | null;
    /** first day, were the soil as much warmer or cooler as its likely error */
    opens_early: string | null;
    /** the same the other way */
    opens_late: string | null;
    /** last day */
    closes: string | null;
    /** last day, were the soil as much off */
    closes_early: string | null;
    /** the same the other way */
    closes_late: string | null;
  }[];
  /** whether the year is coldest in the middle of the calendar's */
  southern: boolean;
  /** likely error of the soil's temperature [K] */
  soil_sd_c: number;
}

/** Close a pass, or with `goes_on` the stretch of it walked at the present setting. At the end of a pass the balance runs from its start, on the way from where the present setting began. A stretch of less than half a square metre is none: what its reading differs belongs to the stretch before. */
export interface SpreadClosePassArgs {
  /** the stretch at the present setting */
  stretch: {
    /** its setting [dial] */
    dial: number;
    /** what there was when it began, pours since included [kg] */
    there_kg: number;
    /** likely error of that, where it was a reading [kg] */
    there_sd_kg?: number;
    /** ground of the pass covered before it [m2] */
    from_m2?: number;
  };
  /** how the rest was measured: scale, level or handfuls */
  measured: "scale" | "level" | "handfuls";
  /** ground the pass has covered [m2] */
  covered_m2: number;
  /** product there was when the pass began; needed at its end [kg] */
  start_kg?: number;
  /** likely error of that, where it was a reading [kg] */
  start_sd_kg?: number;
  /** extra product poured in on the way of the pass [kg] */
  added_kg?: number;
  /** the stretches before, in order, as the log takes them */
  parts?: readonly {
    /** setting of the stretch [dial] */
    dial: number;
    /** its ground [m2] */
    area_m2: number;
    /** product put down on it [kg] */
    used_kg: number;
    /** how what it left was measured */
    measured: "scale" | "level" | "handfuls";
    /** what it left [kg] */
    left_kg: number;
  }[];
  /** what is left, where it was weighed or is known as a mass [kg] */
  left_kg?: number;
  /** handfuls left in the hopper [handfuls] */
  handfuls?: number;
  /** what one of them weighs [kg] */
  handful_kg?: number;
  /** where a level was read: the hopper's inner measures, the level and the density */
  level?: {
    /** inside length at the rim [m] */
    top_length_m: number;
    /** inside width at the rim [m] */
    top_width_m: number;
    /** inside length at the floor [m] */
    bottom_length_m: number;
    /** inside width at the floor [m] */
    bottom_width_m: number;
    /** inside height [m] */
    height_m: number;
    /** height of the level as a share of the hopper's [share] */
    level_share: number;
    /** mass of the loose product per volume [kg/m3] */
    bulk_density_kg_m3: number;
  };
  /** what is left besides, in the bag [kg] */
  in_bag_kg?: number;
  /** ground the pass has to cover [m2] */
  ground_m2?: number;
  /** it ran out; counts only where ground was left */
  ran_out?: boolean;
  /** the pass goes on: a check on the way */
  goes_on?: boolean;
}

export interface SpreadClosePassValue {
  /** put down by the pass; null while it goes on [kg] */
  used_kg: number | null;
  /** what is left of everything [kg] */
  left_kg: number;
  /** its likely error [kg] */
  left_sd_kg: number;
  /** put down over ground covered; null while it goes on or where none is covered [kg/m2] */
  rate_kg_m2: number | null;
  /** put down at the present setting [kg] */
  stretch_kg: number;
  /** ground covered at it [m2] */
  stretch_m2: number;
  /** the stretches with this one; empty at the end of a pass of one setting */
  parts: {
    /** its setting [dial] */
    dial: number;
    /** its ground [m2] */
    area_m2: number;
    /** product put down on it [kg] */
    used_kg: number;
    /** how what it left was measured */
    measured: "scale" | "level" | "handfuls";
    /** what it left [kg] */
    left_kg: number;
  }[];
  /** whether this stretch stands among them by itself */
  closed: boolean;
  /** whether it ran out before the ground was covered */
  ran_out: boolean;
}

/** Every figure of a finished job: the whole of it against the target, and each zone's share. */
export interface SpreadFinishArgs {
  /** what the job set out with */
  plan: {
    /** product loaded at the start [kg] */
    load_kg: number;
    /** product the target takes [kg] */
    target_kg: number;
    /** passes planned [passes] */
    passes: number;
  };
  /** the zones in the order walked, 1 to 60 */
  zones: readonly {
    /** the zone */
    id: string;
    /** its area [m2] */
    area_m2: number;
  }[];
  /** its passes in the log, in the order walked, up to 20; other fields may stand in them */
  passes: readonly {
    /** product the pass put down [kg] */
    used_kg: number;
    /** product it left, hopper and bag together [kg] */
    left_kg: number;
    /** ground it covered, from the start of the first zone [m2] */
    area_m2: number;
    /** product poured in on the way [kg] */
    added_kg?: number;
    /** ground it left out, such as scorched strips; not counted in its area_m2 */
    out?: readonly {
      /** the zone */
      zone_id: string;
      /** ground of it left out [m2] */
      area_m2: number;
    }[];
    /** its stretches in order, where the setting was changed on the way */
    parts?: readonly {
      /** ground of the stretch [m2] */
      area_m2: number;
      /** product put down on it [kg] */
      used_kg: number;
    }[];
  }[];
  /** nitrogen on the label [%] */
  n_percent?: number;
  /** phosphate, P2O5, on the label [%] */
  p2o5_percent?: number;
}

export interface SpreadFinishValue {
  /** product put down in all [kg] */
  used_kg: number;
  /** put down over the target; null where the target is nothing [share] */
  share_of_target: number | null;
  /** left over, hopper and bag together [kg] */
  left_kg: number;
  /** loaded in all, pours included [kg] */
  loaded_kg: number;
  /** product over the ground of all zones [kg/m2] */
  rate_kg_m2: number;
  /** what each zone got */
  zones: SpreadingSplitValue["zones"];
  /** ids of the zones that got something; where nothing came out at all, of all of them */
  reached: string[];
}

/** What there is once product was poured in, from the bag beside or as extra product. Extra product counts towards the target: more than that is refused, but for what a scale cannot be set finer than. What comes from the bag changes what is in the hopper, not what there is. */
export interface SpreadPourArgs {
  /** what the job set out with */
  plan: {
    /** product loaded at the start [kg] */
    load_kg: number;
    /** product the target takes [kg] */
    target_kg: number;
    /** passes planned [passes] */
    passes: number;
  };
  /** its passes in the log, in the order walked, up to 100; other fields may stand in them */
  passes: readonly {
    /** product the pass put down [kg] */
    used_kg: number;
    /** product it left, hopper and bag together [kg] */
    left_kg: number;
    /** ground it covered [m2] */
    area_m2: number;
    /** product poured in on the way [kg] */
    added_kg?: number;
  }[];
  /** the pass being walked */
  on_foot: {
    /** what there was when this setting began, pours since included [kg] */
    there_kg: number;
    /** what the expected level counts from, pours since included [kg] */
    base_kg: number;
    /** product poured in on its way so far [kg] */
    added_kg?: number;
  };
  /** extra product poured in now [kg] */
  added_kg?: number;
  /** what is still in the bag; as before when not said [kg] */
  in_bag_kg?: number;
}

export interface SpreadPourValue {
  /** extra product poured in on the way of this pass, this pour included [kg] */
  added_kg: number;
  /** what there was when this setting began, with it [kg] */
  there_kg: number;
  /** what the expected level counts from, with it [kg] */
  base_kg: number;
  /** loaded for the job so far, with it [kg] */
  loaded_kg: number;
  /** of the target not loaded yet, after it [kg] */
  may_add_kg: number;
}

/** Every sum of a job that is under way, from its draft and its passes in the log. */
export interface SpreadStandingArgs {
  /** what the job set out with */
  plan: {
    /** product loaded at the start [kg] */
    load_kg: number;
    /** product the target takes [kg] */
    target_kg: number;
    /** passes planned [passes] */
    passes: number;
  };
  /** its passes in the log, in the order walked, up to 100; other fields may stand in them */
  passes: readonly {
    /** product the pass put down [kg] */
    used_kg: number;
    /** product it left, hopper and bag together [kg] */
    left_kg: number;
    /** ground it covered [m2] */
    area_m2: number;
    /** product poured in on the way [kg] */
    added_kg?: number;
    /** it ran out before its end */
    ran_out?: boolean;
    /** nothing came out, so that it is walked again */
    nothing_came?: boolean;
    /** its stretches in order, where the setting was changed on the way */
    parts?: readonly {
      /** ground of the stretch [m2] */
      area_m2: number;
      /** product put down on it [kg] */
      used_kg: number;
    }[];
  }[];
  /** the pass being walked */
  on_foot?: {
    /** product poured in on its way [kg] */
    added_kg?: number;
    /** what should be there now, hopper and bag together [kg] */
    expected_kg?: number;
    /** of that not yet in the hopper [kg] */
    in_bag_kg?: number;
    /** ground it has covered [m2] */
    covered_m2?: number;
    /** ground it has to cover [m2] */
    ground_m2?: number;
  };
  /** the hopper's inner measures, all or none */
  hopper?: {
    /** inside length at the rim [m] */
    top_length_m: number;
    /** inside width at the rim [m] */
    top_width_m: number;
    /** inside length at the floor [m] */
    bottom_length_m: number;
    /** inside width at the floor [m] */
    bottom_width_m: number;
    /** inside height [m] */
    height_m: number;
  };
  /** mass of the loose product per volume [kg/m3] */
  bulk_density_kg_m3?: number;
}

export interface SpreadStandingValue {
  /** put down by all passes so far [kg] */
  used_kg: number;
  /** in hopper and bag by the last reading, before the first pass the load [kg] */
  left_kg: number;
  /** loaded for the job so far, all pours included [kg] */
  loaded_kg: number;
  /** of the target not loaded yet [kg] */
  may_add_kg: number;
  /** put down over the target; null where the target is nothing [share] */
  share_of_target: number | null;
  /** passes still to walk as planned, none once one ran out [passes] */
  passes_to_go: number;
  /** for each pass how it stands */
  passes: {
    /** put down by the pass [kg] */
    used_kg: number;
    /** ground it covered [m2] */
    covered_m2: number;
    /** put down over that [kg/m2] */
    rate_kg_m2: number;
    /** what there was where its last stretch began [kg] */
    there_kg: number;
    /** ground of the pass covered before that [m2] */
    from_m2: number;
  }[];
  /** ground the pass on foot has still to cover; null where it is not known [m2] */
  to_go_m2: number | null;
  /** what should be in the hopper now, without the bag; null where it is not known [kg] */
  hopper_kg: number | null;
  /** the level at which that should stand; null where measures or density are not known, or it holds less [share] */
  level_share: number | null;
}

/** Look at the hopper part way through a pass: go on as set, or change the setting for the rest. */
export interface SpreadingCheckArgs {
  /** the spreader's dial, as for spreading.start */
  dial: SpreadingStartArgs["dial"];
  /** what is spread, as for spreading.start */
  product: SpreadingStartArgs["product"];
  /** product per area, all passes together; no strip is set to get more [kg/m2] */
  target_kg_m2: number;
  /** ground each pass covers [m2] */
  area_m2: number;
  /** past passes with this spreader, oldest first, without this one, as for spreading.start */
  history: SpreadingStartArgs["history"];
  /** product there is now [kg] */
  now_kg: number;
  /** ground covered since the pass, or this part of it, began; without what gets no more, where the gate was shut, as swath.tour counts it [m2] */
  area_done_m2: number;
  /** ground of this pass still to cover, likewise [m2] */
  area_to_go_m2: number;
  /** setting walked so far [dial] */
  dial_now: number;
  /** likely error of what there is now [kg] */
  now_sd_kg?: number;
  /** what there was when the pass, or this part of it, began; aim x area when not said [kg] */
  left_kg?: number;
  /** likely error of that, where it was a reading [kg] */
  left_sd_kg?: number;
  /** passes still to walk, this one included; 1 when not said [passes] */
  passes_to_go?: number;
  /** what the strips still to walk lack per area, all passes together. Only where each part of the ground is dialled for what it lacks itself; what there was over all ground when not said [kg/m2] */
  missing_kg_m2?: number;
  /** put down by the passes before this one, on all of the ground [kg] */
  used_kg?: number;
  /** stretches that got no more after a pass before, as for spreading.next; what lies on them is not held against the rest of the ground */
  out?: SpreadingNextArgs["out"];
  /** the whole aim over the label's rate, as label.aim answers; 1 when not said [share] */
  label_share?: number;
  /** distance between tracks of this job [m] */
  swath_m?: number;
  /** walking speed of this job [m/s] */
  speed_m_s?: number;
}

export interface SpreadingCheckValue {
  /** setting for the strips still to walk, a whole click [dial] */
  dial: number;
  /** keep, lower or higher; close where nothing should or can go down on them; stop where the part walked is scorched but the rest may have its share: the setting is then for the rest */
  advice: "keep" | "lower" | "higher" | "close" | "stop";
  /** why, in a sentence */
  reason: string;
  /** what should be left by now, from past passes [kg] */
  expected_now_kg: number;
  /** low and high of it; 90 % lie between them [kg] */
  expected_now_range_kg: { low: number; high: number };
  /** low, mid and high of what will be left of this pass at the new setting [kg] */
  likely_end_kg: { low: number; mid: number; high: number };
  /** the same at the setting walked so far [kg] */
  likely_end_as_is_kg: { low: number; mid: number; high: number };
  /** that what there is ends before these strips do, at the new setting [share] */
  chance_of_running_out: number;
  /** product per area on the part walked [kg/m2] */
  rate_so_far_kg_m2: number;
  /** what lies on the part walked, passes before counted in, over the label's rate [share] */
  label_share: number;
  /** that is above 150 %, and not by what the readings may be off; that ground gets no more */
  scorched: boolean;
  /** low, mid and high of what the strips still to walk get at the new setting [kg/m2] */
  rate_kg_m2: { low: number; mid: number; high: number };
  /** the same at the setting walked so far [kg/m2] */
  rate_as_is_kg_m2: { low: number; mid: number; high: number };
}

/** What every setting of the dial is expected to put down, with the past passes as points. */
export interface SpreadingCurveArgs {
  /** the spreader's dial, as for spreading.start */
  dial: SpreadingStartArgs["dial"];
  /** what is spread, as for spreading.start */
  product: SpreadingStartArgs["product"];
  /** past passes with this spreader, oldest first, as for spreading.start */
  history: SpreadingStartArgs["history"];
  /** distance between tracks to show it for [m] */
  swath_m?: number;
  /** walking speed to show it for [m/s] */
  speed_m_s?: number;
}

export interface SpreadingCurveValue {
  /** for every click, or about 60 of them, what it puts down */
  points: {
    /** the click [dial] */
    dial: number;
    /** low, mid and high of its rate; 90 % of passes lie between low and high [kg/m2] */
    rate_kg_m2: { low: number; mid: number; high: number };
  }[];
  /** every pass of the history */
  past: {
    /** its place in the history, from 0 [place] */
    index: number;
    /** its setting; null where the pass cannot be read [dial] */
    dial: number | null;
    /** what it put down, brought to this swath, speed and bulk density; null where no rate can be taken from it [kg/m2] */
    rate_kg_m2: number | null;
    /** the same as measured then; null where the pass cannot be read [kg/m2] */
    measured_kg_m2: number | null;
    /** whether it was of this product */
    same_product: boolean;
    /** chance of having been bad; null where not weighed [share] */
    bad_chance: number | null;
    /** why it was not learned from; null where it was */
    left_out: "bad" | "damp" | "off_dial" | "too_old" | "unmeasured" | "unreadable" | null;
  }[];
  /** passes learned from [passes] */
  passes_used: number;
  /** high over low less 1, its median over the clicks that surely flow; smaller is surer [share] */
  band_share: number;
  /** how far up the band reaches from its middle, which is as far down as a factor [share] */
  within_share: number;
}

/** Setting of the next pass, from what is left; the pass just walked belongs to the history. */
export interface SpreadingNextArgs {
  /** the spreader's dial, as for spreading.start */
  dial: SpreadingStartArgs["dial"];
  /** what is spread, as for spreading.start */
  product: SpreadingStartArgs["product"];
  /** product per area, all passes together; no pass is set to put down more [kg/m2] */
  target_kg_m2: number;
  /** ground each pass covers [m2] */
  area_m2: number;
  /** past passes with this spreader, oldest first, as for spreading.start */
  history: SpreadingStartArgs["history"];
  /** product left for the passes still to walk [kg] */
  left_kg: number;
  /** passes still to walk, this one included [passes] */
  passes_to_go: number;
  /** likely error of what is left [kg] */
  left_sd_kg?: number;
  /** what the ground still lacks per area; all that is left when not said [kg/m2] */
  missing_kg_m2?: number;
  /** put down so far by this application; what is in hand beyond what the ground lacks stays there [kg] */
  used_kg?: number;
  /** stretches that get no more, such as scorched strips, up to 800; they are taken out of area_m2 */
  out?: readonly {
    /** ground of the stretch [m2] */
    area_m2: number;
    /** what of used_kg lies on it [kg] */
    used_kg: number;
  }[];
  /** passes of the whole application; not used in the sum [passes] */
  passes?: number;
  /** distance between tracks of this job [m] */
  swath_m?: number;
  /** walking speed of this job [m/s] */
  speed_m_s?: number;
}

export interface SpreadingNextValue {
  /** setting of the next pass, a whole click [dial] */
  dial: number;
  /** share of what is left that this pass should put down [share] */
  share: number;
  /** what this pass should put down per area [kg/m2] */
  aim_kg_m2: number;
  /** low, mid and high of what the setting may put down; 90 % lie between low and high [kg/m2] */
  rate_kg_m2: { low: number; mid: number; high: number };
  /** low and high of the settings at which the aim may truly lie, with a chance of 90 % [dial] */
  dial_likely: { low: number; high: number };
  /** low, mid and high of what will be left after it; 90 % lie between low and high [kg] */
  left_kg: { low: number; mid: number; high: number };
  /** that what is left ends before the ground does [share] */
  chance_of_running_out: number;
  /** places in the history of the passes marked bad, or more likely bad than not */
  bad_passes: number[];
  /** every pass that was learned from and flowed */
  bad_chances: {
    /** its place in the history, from 0 [place] */
    index: number;
    /** chance of having been bad [share] */
    chance: number;
  }[];
  /** same_product, other_product or nothing_known */
  basis: "same_product" | "other_product" | "nothing_known";
  /** past passes not learned from; unmeasured: it used no more than its readings may be off */
  left_out: {
    /** its place in the history, from 0 [place] */
    index: number;
    /** why it was left out */
    why: "bad" | "damp" | "off_dial" | "too_old" | "unmeasured" | "unreadable";
    /** what could not be read of it, where that is why */
    error?: EngineError;
  }[];
  /** walk; stop where even the first click that flows would put down too much; blocked where nothing came fully open. Without walk the dial stays closed */
  advice: "walk" | "stop" | "blocked" | "by_hand";
  /** why this setting, in a sentence */
  reason: string;
  /** this is the last pass, and more than 15 % of the aim, and enough to meter, is likely to be missing after it, so that one more is advised */
  further_pass: boolean;
}

/** Share out what a job put down among its zones, for the log entry. A pass covers the zones in the order walked, so where it ended early or ran out the zones after that got none of it, and a stretch walked at another setting counts with its own rate. Without passes, used_kg is shared by area: as if all of it had gone down evenly. */
export interface SpreadingSplitArgs {
  /** the zones in the order walked, 1 to 60 */
  zones: readonly {
    /** the zone */
    id: string;
    /** its area [m2] */
    area_m2: number;
  }[];
  /** product put down on all of them evenly; only where no passes are given [kg] */
  used_kg?: number;
  /** what was walked, up to 20; a pass on which nothing came used 0 kg */
  passes?: readonly {
    /** product the pass put down [kg] */
    used_kg: number;
    /** ground it covered, from the start of the first zone [m2] */
    area_m2: number;
    /** ground it left out, such as scorched strips; not counted in its area_m2 */
    out?: readonly {
      /** the zone */
      zone_id: string;
      /** ground of it left out [m2] */
      area_m2: number;
    }[];
    /** its stretches in order, where the setting was changed on the way */
    parts?: readonly {
      /** ground of the stretch [m2] */
      area_m2: number;
      /** product put down on it [kg] */
      used_kg: number;
    }[];
  }[];
  /** nitrogen on the label [%] */
  n_percent?: number;
  /** phosphate, P2O5, on the label [%] */
  p2o5_percent?: number;
}

export interface SpreadingSplitValue {
  /** what each zone got */
  zones: {
    /** the zone */
    zone_id: string;
    /** its area [m2] */
    area_m2: number;
    /** product put down on it [kg] */
    used_kg: number;
    /** the most of it one pass covered [m2] */
    covered_m2: number;
    /** product over all of it [kg/m2] */
    rate_kg_m2: number;
    /** nitrogen over all of it; null where the label's percent is unknown [kg/m2] */
    n_kg_m2: number | null;
    /** the most nitrogen any of its ground got; null likewise [kg/m2] */
    n_most_kg_m2: number | null;
    /** phosphate over all of it; null likewise [kg/m2] */
    p2o5_kg_m2: number | null;
  }[];
  /** product put down in all [kg] */
  used_kg: number;
  /** product over the ground of all zones [kg/m2] */
  rate_kg_m2: number;
}

/** First setting of an application, and in how many passes to walk it. */
export interface SpreadingStartArgs {
  /** the spreader's dial */
  dial: {
    /** number when closed [dial] */
    lowest: number;
    /** number when fully open [dial] */
    highest: number;
    /** one click [dial] */
    step: number;
  };
  /** what is spread */
  product: {
    /** the product */
    id: string;
    /** fertilizer, pre_emergent, post_emergent, lime, seed or other. Seed and lime are other materials: what fertilizer taught says little of them, and until one is met its start is lower */
    sort?: string;
    /** mass of the loose product per volume [kg/m3] */
    bulk_density_kg_m3?: number;
    /** fine, medium or coarse */
    granules?: string;
  };
  /** product per area, all passes together [kg/m2] */
  target_kg_m2: number;
  /** ground to cover [m2] */
  area_m2: number;
  /** past passes with this spreader, oldest first, up to 400; the last 30 are learned from, but so that each product keeps its latest */
  history: readonly {
    /** the product of that pass */
    product: string;
    /** its sort, as product.sort */
    sort?: string;
    /** its setting [dial] */
    dial: number;
    /** ground it covered [m2] */
    area_m2: number;
    /** product it put down [kg] */
    used_kg: number;
    /** scale, level or handfuls */
    measured: "scale" | "level" | "handfuls";
    /** what was left after it; says how far off a level or handfuls may be [kg] */
    left_kg?: number;
    /** what the reading at its start said there was, where that was a reading: after the pass before, or at a check; its error is this pass's too [kg] */
    before_left_kg?: number;
    /** how that was read: scale, level or handfuls */
    before_measured?: "scale" | "level" | "handfuls";
    /** the hopper ran empty; area_m2 is then the ground really covered */
    ran_out?: boolean;
    /** nothing came out at this setting; nothing else says so */
    nothing_came?: boolean;
    /** not to be learned from */
    bad?: boolean;
    /** the product was damp; not learned from either */
    damp?: boolean;
    /** of that product then [kg/m3] */
    bulk_density_kg_m3?: number;
    /** of that product then */
    granules?: string;
    /** distance between tracks then [m] */
    swath_m?: number;
    /** walking speed then [m/s] */
    speed_m_s?: number;
  }[];
  /** passes to walk; as advised when not said [passes] */
  passes?: number;
  /** distance between tracks of this job [m] */
  swath_m?: number;
  /** walking speed of this job [m/s] */
  speed_m_s?: number;
}

export interface SpreadingStartValue {
  /** setting to start at, a whole click [dial] */
  dial: number;
  /** 3 where this spreader has not met this product, else 2; fewer where each would be too little to meter, below 0.5 lb per 1,000 ft2 [passes] */
  passes_advised: number;
  /** passes it is worked out for: as asked, but no more than can be metered [passes] */
  passes: number;
  /** share of the aim this pass should put down [share] */
  share: number;
  /** what this pass should put down per area [kg/m2] */
  aim_kg_m2: number;
  /** low, mid and high of what the setting may put down; 90 % lie between low and high [kg/m2] */
  rate_kg_m2: { low: number; mid: number; high: number };
  /** low and high of the settings at which the aim may truly lie, with a chance of 90 % [dial] */
  dial_likely: { low: number; high: number };
  /** low, mid and high of what will be left of the whole load; 90 % lie between low and high [kg] */
  left_kg: { low: number; mid: number; high: number };
  /** that the whole load ends before the ground does [share] */
  chance_of_running_out: number;
  /** same_product, other_product or nothing_known */
  basis: "same_product" | "other_product" | "nothing_known";
  /** past passes not learned from; unmeasured: it used no more than its readings may be off */
  left_out: {
    /** its place in the history, from 0 [place] */
    index: number;
    /** why it was left out */
    why: "bad" | "damp" | "off_dial" | "too_old" | "unmeasured" | "unreadable";
    /** what could not be read of it, where that is why */
    error?: EngineError;
  }[];
  /** walk; stop where even the first click that flows would put down too much; blocked where nothing came fully open. Without walk the dial stays closed */
  advice: "walk" | "stop" | "blocked" | "by_hand";
  /** why this setting, in a sentence */
  reason: string;
}

/** What the passes of one job changed about what is known of a setting. */
export interface SpreadingTaughtArgs {
  /** the spreader's dial, as for spreading.start */
  dial: SpreadingStartArgs["dial"];
  /** what was spread, as for spreading.start */
  product: SpreadingStartArgs["product"];
  /** past passes with this spreader, oldest first, those of the job last, as for spreading.start */
  history: SpreadingStartArgs["history"];
  /** how many of the last passes belong to the job [passes] */
  walked: number;
  /** place in the history of the first pass to compare with; all earlier ones when not said [place] */
  since?: number;
  /** distance between tracks of the job [m] */
  swath_m?: number;
  /** walking speed of the job [m/s] */
  speed_m_s?: number;
}

export interface SpreadingTaughtValue {
  /** the setting most passes of the job used, of two the later [dial] */
  dial: number;
  /** low, mid and high of what it put down by the passes compared with; null at a first job [kg/m2] */
  before: { low: number; mid: number; high: number } | null;
  /** low, mid and high by all passes, the job's own among them [kg/m2] */
  after: { low: number; mid: number; high: number };
  /** what the job put down over what was expected before, less 1; null at a first job [share] */
  change_share: number | null;
  /** high over low less 1 before; null at a first job [share] */
  band_before: number | null;
  /** high over low less 1 after [share] */
  band_after: number;
  /** first, freer, tighter or as_before */
  says: "first" | "freer" | "tighter" | "as_before";
  /** the same in a sentence */
  reason: string;
}

/** What a pass put down, from what there was, what was poured in on the way and what is left. */
export interface SpreadingUsedArgs {
  /** product there was when the pass began [kg] */
  start_kg: number;
  /** how the rest was measured: scale, level or handfuls */
  measured: "scale" | "level" | "handfuls";
  /** likely error of what there was, where that was itself a reading; more may then be left than there was by it, up to three such errors [kg] */
  start_sd_kg?: number;
  /** what is left, where it was weighed or is known as a mass [kg] */
  left_kg?: number;
  /** handfuls left in the hopper [handfuls] */
  handfuls?: number;
  /** what one of them weighs [kg] */
  handful_kg?: number;
  /** what is left in the hopper by its level [kg] */
  hopper_kg?: number;
  /** likely error of that; 8 % of it when not said [kg] */
  hopper_sd_kg?: number;
  /** what is left besides, in the bag [kg] */
  in_bag_kg?: number;
  /** what was poured in on the way and was not there at the start [kg] */
  added_kg?: number;
  /** what the pass should have put down [kg] */
  aim_kg?: number;
}

export interface SpreadingUsedValue {
  /** what the pass put down; 0 where more is left than there was by the reading before [kg] */
  used_kg: number;
  /** what is left of everything, as read [kg] */
  left_kg: number;
  /** its likely error [kg] */
  left_sd_kg: number;
  /** what was put down over what should have been; null without an aim [share] */
  share_of_aim: number | null;
}

/** Rows of a walk over several zones, numbered across all of them, with the ground and product still to go. A zone without an outline is one row, or as many equal strips as the walker counts there. Ground counts as done in proportion to the length walked within its zone, product in proportion to the ground done. Ground that gets no more is walked over with the gate shut: it counts neither as done nor as to go. Ground nearer to an edge at the water than the setback is not walked: edge strips run along it as along an edge. */
export interface SwathTourArgs {
  /** the zones in the order walked, 1 to 60 */
  zones: readonly {
    /** id of the zone, each once */
    id: string;
    /** its area on record, less what stays clear of water [m2] */
    area_m2: number;
    /** its corners [x, y] in order round the edge */
    outline_m?: readonly (readonly [number, number])[];
    /** what is cut out of the outline, each a list of corners */
    holes_m?: readonly (readonly (readonly [number, number])[])[];
    /** heading of its strips, 0 along +y, clockwise; that of fewest when not said [deg] */
    heading_deg?: number;
    /** strips the walker counts in it, where it has no outline [strips] */
    strips?: number;
    /** its edges at the water, 0 from the first corner to the second, up to 400 */
    water_edges?: readonly number[];
    /** how far the ground walked stays from them; 0 when not said [m] */
    setback_m?: number;
  }[];
  /** distance from one track to the next [m] */
  swath_m: number;
  /** plain (when not said), offset by half a swath from that, or crossed: square to the heading */
  pattern?: "plain" | "offset" | "crossed";
  /** strips walked round each edge first; 1 when not said [strips] */
  header_strips?: number;
  /** walking speed [m/s] */
  speed_m_s?: number;
  /** product in the hopper at the start, or once covered_m2 was walked [kg] */
  load_kg?: number;
  /** product this pass should put down [kg/m2] */
  rate_kg_m2?: number;
  /** ground walked before load_kg was there; none when not said [m2] */
  covered_m2?: number;
  /** rows of earlier passes that get no more, such as scorched strips, up to 1000 */
  out?: readonly {
    /** zone the row lies in */
    zone_id: string;
    /** its corners; without them the ground is found by from_m2 and to_m2 */
    points_m?: readonly (readonly [number, number])[];
    /** ground walked over before the row, as walked_m2 [m2] */
    from_m2: number;
    /** ground walked over once it is walked [m2] */
    to_m2: number;
  }[];
}

export interface SwathTourValue {
  /** every row in the order walked */
  rows: {
    /** zone the row lies in */
    zone_id: string;
    /** header, strip, or whole for a zone without an outline */
    kind: "header" | "strip" | "whole";
    /** number of the row, from 1 across all zones [rows] */
    number: number;
    /** number of the row within its zone, from 1 [rows] */
    of_zone: number;
    /** its corners in the zone's own metres; null for a whole zone */
    points_m: [number, number][] | null;
    /** its length; null for a whole zone [m] */
    length_m: number | null;
    /** ground walked over after the row, with the gate open or shut [m2] */
    walked_m2: number;
    /** ground of the row that gets no more [m2] */
    out_m2: number;
    /** ground done after the row [m2] */
    done_area_m2: number;
    /** ground still to go after it [m2] */
    to_go_area_m2: number;
    /** product that should be left after it; null without load or rate, and before covered_m2 [kg] */
    left_kg: number | null;
  }[];
  /** for each zone how it is walked */
  zones: {
    /** id of the zone */
    zone_id: string;
    /** heading of its strips; null without an outline [deg] */
    heading_deg: number | null;
    /** how many strips [strips] */
    strips: number;
    /** how many header strips [strips] */
    headers: number;
    /** ground of it that gets no more [m2] */
    out_m2: number;
    /** way within the zone; null without an outline [m] */
    distance_m: number | null;
    /** time for it; null without an outline or a speed [min] */
    minutes: number | null;
    /** turns from one strip into the next [turns] */
    turns: number;
    /** share of its ground within half a swath of a row; null without an outline [share] */
    covered_share: number | null;
    /** share of its ground under two rows or more; null without an outline [share] */
    doubled_share: number | null;
    /** share that a rotary throws over its edge; null without an outline or headers [share] */
    over_edge_share: number | null;
    /** where some of it stays clear of water the ground left, its edges and those of its holes; null elsewhere */
    ground_m: [number, number][][] | null;
  }[];
  /** way within all zones with an outline [m] */
  distance_m: number;
  /** time for it; null without a speed [min] */
  minutes: number | null;
  /** rows in all [rows] */
  strips_total: number;
  /** the zones' shares together; null where no zone has one [share] */
  over_edge_share: number | null;
  /** area of all zones [m2] */
  area_m2: number;
  /** ground of all zones that gets no more [m2] */
  out_m2: number;
}

/** Widest distance between tracks that still spreads evenly, from what trays across the swath caught. */
export interface SwathTrayTestArgs {
  /** what each tray caught, left to right as the walker sees it, 3 to 200 trays */
  catches_g: readonly number[];
  /** distance from the middle of one tray to the next [m] */
  tray_spacing_m: number;
  /** back_and_forth (every second pass comes the other way) or circuit (all passes the same way) */
  pattern: "back_and_forth" | "circuit";
  /** unevenness still taken; 0.15 when not said [share] */
  cv_limit_share?: number;
  /** show the pattern of tracks this many trays apart; the widest's when not said [trays] */
  trays_apart?: number;
}

export interface SwathTrayTestValue {
  /** for each distance between tracks its unevenness and mean catch */
  by_spacing: {
    /** distance between tracks, a whole number of tray distances [m] */
    spacing_m: number;
    /** unevenness: standard deviation over mean of the overlapped pattern [share] */
    cv_share: number;
    /** mean catch of the overlapped pattern [g] */
    mean_g: number;
  }[];
  /** widest distance between tracks within the limit and the half-catch swath, two trays at least; null where there is none, or the pattern is cut off [m] */
  widest_m: number | null;
  /** the same by the limit alone [m] */
  widest_by_limit_m: number | null;
  /** true where an end tray caught over half of the most: trays are missing outside */
  cut_off: boolean;
  /** its unevenness [share] */
  cv_at_widest: number | null;
  /** the overlapped pattern over one repeat, from the leftmost tray of a pass on */
  overlapped_g: number[];
  /** true where tracks one tray closer than the widest would be over the limit */
  touchy: boolean;
  /** distance between the two places where the catch is half of that in the middle [m] */
  half_catch_m: number | null;
  /** what lies left of the middle as a share of all; 0.5 is even [share] */
  lopsided_share: number;
}

/** Strips to walk over one zone: round its edges first, then to and fro, and what should be left after each. With header strips a strip ends where their band begins; where it meets an edge aslant it runs on by up to half a swath so that its whole width reaches the band. Without header strips it ends at the outline. */
export interface SwathWalkPlanArgs {
  /** corners [x, y] in order round the edge; 3 to 400 */
  outline_m: readonly (readonly [number, number])[];
  /** distance from one track to the next [m] */
  swath_m: number;
  /** such lists of corners, one for each bed, tree or building cut out; up to 40 */
  holes_m?: readonly (readonly (readonly [number, number])[])[];
  /** heading of the strips, 0 along +y, clockwise; that of fewest strips when not said [deg] */
  heading_deg?: number;
  /** plain (when not said), offset by half a swath from that, or crossed: square to the heading */
  pattern?: "plain" | "offset" | "crossed";
  /** strips walked round each edge first; 1 when not said [strips] */
  header_strips?: number;
  /** walking speed [m/s] */
  speed_m_s?: number;
  /** product in the hopper at the start [kg] */
  load_kg?: number;
  /** product this pass should put down [kg/m2] */
  rate_kg_m2?: number;
}

export interface SwathWalkPlanValue {
  /** heading of the strips [deg] */
  heading_deg: number;
  /** the parallel strips in the order and direction walked */
  strips: {
    /** start of the strip [m] */
    x1: number;
    /** start of the strip [m] */
    y1: number;
    /** end of the strip [m] */
    x2: number;
    /** end of the strip [m] */
    y2: number;
    /** its length [m] */
    length_m: number;
    /** product that should be left after it; null without load or rate [kg] */
    left_kg: number | null;
  }[];
  /** the strips round edges and through narrow places, each a list of [x, y] */
  headers: [number, number][][];
  /** all rows as walked, headers first */
  order: {
    /** header or strip */
    kind: "header" | "strip";
    /** its place among headers or strips [rows] */
    index: number;
    /** its corners */
    points_m: [number, number][];
    /** its length [m] */
    length_m: number;
    /** share of all rows' length walked after it [share] */
    done_share: number;
    /** product that should be left after it; null without load or rate [kg] */
    left_kg: number | null;
  }[];
  /** all rows and the straight ways between them [m] */
  distance_m: number;
  /** turns from one strip into the next [turns] */
  turns: number;
  /** time to walk that far; null without a speed [min] */
  minutes: number | null;
  /** share of the ground within half a swath of a row [share] */
  covered_share: number;
  /** share of the ground under two rows or more [share] */
  doubled_share: number;
  /** share that a rotary spreader throws over the edge from the outermost tracks, its deflector open; null without header strips [share] */
  over_edge_share: number | null;
  /** area of the ground [m2] */
  area_m2: number;
}

/** Read one measurement as written; a unit written behind the number wins over the one the box is set to. Several pieces add up where each unit is smaller than the one before ("15 lb 8 oz"). A second figure in brackets, as on labels ("48 lb (21.8 kg)"), must agree within 2 %. So much per area is a rate, or with "N" an amount of nitrogen. What can be read two ways is refused, with both. */
export interface UnitsReadArgs {
  /** what was written */
  text: string;
  /** unit the box is set to, a key of fixtures/units.json: a bare number is read in it */
  unit?: string;
  /** sort of measurement wanted, a key of fixtures/units.json; that of `unit` where it is not given */
  quantity?: string;
}

export interface UnitsReadValue {
  /** the measurement in the unit its sort is stored in [as stored] */
  value: number;
  /** that unit */
  stored_in: string;
  /** its sort */
  quantity: string;
  /** the number as typed; all of the text where it is more than one number and unit */
  amount: string;
  /** key of its first unit; empty for so much per area in a unit that is none of ours */
  unit: string;
  /** what was read, piece by piece */
  parts: {
    /** the number of the piece [in its unit] */
    number: number;
    /** key of its unit */
    unit: string;
  }[];
}

/** Soil warmth of the days from `first` on, with own readings, and the warmth that the household's jobs wait for. The depth is that of the newest reading, 100 mm without one; readings within 25 mm of it count. Where the air of a day is less sure than a measured one, and no later reading told of the soil, the range is the wider for it. */
export interface WarmthChartArgs {
  /** past days and days to come, as weather.join answers them; may be empty */
  days: readonly {
    /** the day */
    date: string;
    /** mean temperature of the air [C] */
    mean_c: number;
    /** its likely error; 0.7, that of a measured day, when not said [K] */
    sd_c?: number;
  }[];
  /** the day asked about */
  today: string;
  /** first day shown; those before it lead up to it */
  first: string;
  /** own soil readings */
  readings?: readonly {
    /** day it was read */
    date: string;
    /** what the thermometer showed [C] */
    c: number;
    /** depth it was read at; 100 when not said [mm] */
    depth_mm?: number;
    /** its likely error; 1 when not said [K] */
    error_c?: number;
  }[];
  /** jobs that wait for warmth: pre_emergent, feed_warm (of warm-season grass), seed_cool (of cool-season grass) */
  jobs?: readonly string[];
}

export interface WarmthChartValue {
  /** depth the chart is for [mm] */
  depth_mm: number;
  /** the days shown */
  days: {
    /** the day */
    date: string;
    /** temperature expected [C] */
    mid: number;
    /** 1 in 10 below [C] */
    low: number;
    /** 1 in 10 above [C] */
    high: number;
  }[];
  /** that of today; null where today is not among the days [C] */
  now: { low: number; mid: number; high: number } | null;
  /** readings from the first day shown on */
  points: {
    /** day it was read */
    date: string;
    /** what was read [C] */
    mid: number;
    /** true where it counts at this depth */
    used: boolean;
  }[];
  /** warmth that jobs wait for, each once */
  marks: {
    /** what waits for it */
    kind: "pre_emergent_opens" | "crabgrass_sprouts" | "warm_grass_feeds" | "seed_cool_from" | "seed_cool_to";
    /** the temperature [C] */
    mid: number;
    /** who says so */
    source: string;
    /** side of it that the soil is on today */
    now: "below" | "above" | null;
    /** first of three days in a row, from today on, on its other side; null where there are none */
    passes: string | null;
    /** the same for the side of the range that gets there first, 1 in 10; where the soil turns from the mark for a month or more, after that turn */
    earliest: string | null;
    /** the same for the side of the range that gets there last, 1 in 10 */
    latest: string | null;
  }[];
  /** readings that count [count] */
  readings: number;
  /** first day whose air the soil of today still feels; null where today is not among the days */
  felt_from: string | null;
}

/** Usual mean temperature of each day of a leap year. */
export interface WarmthClimateArgs {
  /** means of the twelve months, January first */
  monthly_mean_c?: readonly number[];
  /** mean of the warmest month, where the twelve are not known [C] */
  warmest_c?: number;
  /** mean of the coldest month, with it [C] */
  coldest_c?: number;
  /** true where January is warm; asked for only with these two */
  southern?: boolean;
}

export interface WarmthClimateValue {
  /** usual mean of each day, 1 January first, 29 February among them */
  daily_mean_c: number[];
  /** means of the twelve months */
  monthly_mean_c: number[];
  /** mean of the year [C] */
  annual_mean_c: number;
  /** true where the warm half of the year is around January */
  southern: boolean;
  /** true where the year was drawn as a sine through two numbers */
  from_two: boolean;
}

/** Degree days of each day and their sum. */
export interface WarmthDegreeDaysArgs {
  /** the days in order */
  days: readonly {
    /** the day; needed where counting begins on a date */
    date?: string;
    /** its lowest temperature [C] */
    min_c: number;
    /** its highest temperature [C] */
    max_c: number;
  }[];
  /** temperature from which they count [C] */
  base_c: number;
  /** how they are counted; a threshold belongs to the method it was found with */
  method: "mean" | "modified" | "sine";
  /** temperature above which nothing more counts [C] */
  upper_c?: number;
  /** begin on 15 February or 1 January, in the south 15 August or 1 July; else with the first day */
  count_from?: "february" | "january";
  /** true in the southern hemisphere */
  southern?: boolean;
}

export interface WarmthDegreeDaysValue {
  /** degree days of each day; 0 before counting begins */
  daily: number[];
  /** their sum [C day] */
  total: number;
  /** first day that counts; null where the days have no dates */
  from: string | null;
}

/** Daily mean temperature of the soil under grass, with its likely error. */
export interface WarmthSoilArgs {
  /** the days in order, forecast ones last */
  days: readonly {
    /** mean temperature of the air [C] */
    mean_c: number;
  }[];
  /** depth in the soil; 100 when not said [mm] */
  depth_mm?: number;
  /** soil temperature on the first day, where it was measured [C] */
  start_c?: number;
  /** mean air temperature of the place's year: for ground under trees, where summer stays cooler and winter milder; left out on open turf [C] */
  annual_mean_c?: number;
  /** own soil readings at that depth */
  readings?: readonly {
    /** place of its day in the list, the first being 0 [place] */
    day: number;
    /** what the thermometer showed [C] */
    c: number;
    /** its likely error; 1 when not said [K] */
    error_c?: number;
  }[];
}

export interface WarmthSoilValue {
  /** temperature of each day */
  daily_c: number[];
  /** its likely error on each day */
  sd_c: number[];
  /** the depth they are for [mm] */
  depth_mm: number;
  /** mean of the year as given; null where no day was moved towards one [C] */
  annual_mean_c: number | null;
  /** what the readings add on the last day [K] */
  offset_c: number;
  /** days of air that count, as the readings have shown where there are some [day] */
  window_days: number;
  /** readings used [count] */
  readings: number;
}

/** Water missing in the root zone, day by day. */
export interface WateringNeedArgs {
  /** every day, past and forecast, from one on which the ground was wet or its lack was known */
  days: readonly {
    /** the day */
    date: string;
    /** water a short grass would use [mm] */
    et0_mm: number;
    /** rain [mm] */
    rain_mm: number;
    /** water given; none when not said [mm] */
    watered_mm?: number;
  }[];
  /** season of the grass */
  turf: "cool" | "warm";
  /** its soil, where the water it holds was not measured */
  soil?: "sand" | "loamy_sand" | "sandy_loam" | "loam" | "silt_loam" | "silt" | "silty_clay_loam" | "silty_clay" | "clay";
  /** water a metre of it holds for roots [mm/m] */
  available_mm_m?: number;
  /** depth of the roots; 200 when not said [mm] */
  root_mm?: number;
  /** share of that water that may be used before the grass lacks any; else 0.4, for warm-season grass 0.5, less on thirsty days [share] */
  depletion_share?: number;
  /** water missing when the first day begins; none when not said [mm] */
  start_depletion_mm?: number;
  /** day asked about; the last one when not said */
  today?: string;
}

export interface WateringNeedValue {
  /** water missing at the end of each day */
  depletion_mm: number[];
  /** share of its water that the grass got on each day */
  water_share: number[];
  /** water that fills the root zone on the day asked about [mm] */
  water_mm: number;
  /** water the root zone holds for the grass [mm] */
  holds_mm: number;
  /** of it may be used on the day asked about before the grass lacks any [mm] */
  may_use_mm: number;
  /** first day from the one asked about on which more is missing; null where none is */
  due: string | null;
}

/** Reference evapotranspiration of a day, from what is known of its weather. */
export interface WateringReferenceEtArgs {
  /** latitude, south negative [deg] */
  latitude_deg: number;
  /** height above the sea [m] */
  elevation_m: number;
  /** 1 January is 1 [day] */
  day_of_year: number;
  /** lowest temperature [C] */
  min_c: number;
  /** highest temperature [C] */
  max_c: number;
  /** dew point [C] */
  dew_point_c?: number;
  /** highest humidity [%] */
  humidity_max?: number;
  /** lowest humidity [%] */
  humidity_min?: number;
  /** mean wind [m/s] */
  wind_m_s?: number;
  /** height it was measured at; 2 when not said [m] */
  wind_height_m?: number;
  /** radiation of the sun on the ground [MJ/m2] */
  radiation_mj_m2?: number;
  /** hours of sunshine [h] */
  sun_hours?: number;
  /** true near a coast, where nights cool less */
  coastal?: boolean;
}

export interface WateringReferenceEtValue {
  /** water that a short grass would use [mm] */
  et0_mm: number;
  /** from temperatures alone by Hargreaves */
  method: "penman_monteith" | "hargreaves";
  /** what was not known and had to be estimated */
  estimated: string[];
  /** hours between sunrise and sunset [h] */
  daylight_hours: number;
  /** radiation at the top of the air [MJ/m2] */
  top_radiation_mj_m2: number;
}

/** Days from `first` to `last`, each from the best that is known of it. What the household measured stands before what was fetched; the fetched fills in what it did not measure. A day of which neither tells a temperature is the climate's, without rain or wind: nobody knows them. */
export interface WeatherJoinArgs {
  /** first day asked about */
  first: string;
  /** last day asked about, at most 800 days in all */
  last: string;
  /** day on which it is asked; later ones are forecasts */
  today: string;
  /** the household's own days, as `weather.read_table` gives them */
  own?: readonly {
    /** the day */
    date: string;
    /** lowest temperature [C] */
    min_c?: number;
    /** highest temperature [C] */
    max_c?: number;
    /** mean temperature [C] */
    mean_c?: number;
    /** rain [mm] */
    rain_mm?: number;
    /** water that a short grass would use [mm] */
    et0_mm?: number;
    /** wind [m/s] */
    wind_m_s?: number;
  }[];
  /** days the weather service told */
  fetched?: readonly {
    /** the day */
    date: string;
    /** lowest temperature [C] */
    min_c?: number;
    /** highest temperature [C] */
    max_c?: number;
    /** mean temperature [C] */
    mean_c?: number;
    /** rain [mm] */
    rain_mm?: number;
    /** water that a short grass would use [mm] */
    et0_mm?: number;
    /** wind [m/s] */
    wind_m_s?: number;
  }[];
  /** mean in C of each day of a leap year, 1 January first, as `warmth.climate` gives them */
  climate_c?: readonly number[];
}

export interface WeatherJoinValue {
  /** one for each day of which something is known, in order */
  days: {
    /** the day */
    date: string;
    /** where its temperature comes from */
    of: "own" | "fetched" | "climate";
    /** mean temperature [C] */
    mean_c?: number;
    /** likely error of that mean [K] */
    sd_c?: number;
    /** lowest temperature [C] */
    min_c?: number;
    /** highest temperature [C] */
    max_c?: number;
    /** rain [mm] */
    rain_mm?: number;
    /** water that a short grass would use [mm] */
    et0_mm?: number;
    /** wind [m/s] */
    wind_m_s?: number;
  }[];
  /** last day of which own or fetched weather tells the temperature, null without any */
  known_to: string | null;
  /** days that are the climate's [days] */
  from_climate: number;
}

/** Mean temperature of each calendar month, from days of one year or many. */
export interface WeatherMonthsArgs {
  /** days of weather, in any order */
  days: readonly {
    /** the day */
    date: string;
    /** lowest temperature [C] */
    min_c?: number;
    /** highest temperature [C] */
    max_c?: number;
    /** mean temperature; else halfway between the two [C] */
    mean_c?: number;
  }[];
}

export interface WeatherMonthsValue {
  /** mean temperature of January to December, in C */
  monthly_mean_c: number[];
  /** days behind each of them */
  counted: number[];
  /** first day counted */
  from: string;
  /** last day counted */
  to: string;
}

/** Days of weather out of a table as text: any common headings and units, bad rows named by their line. A row with one figure that cannot be is left out whole and named: it may be a slip in all of them. Where the headings name no unit, or all dates could be read two ways, nothing is guessed: `needs` says what to ask. */
export interface WeatherReadTableArgs {
  /** the table as text, a day a line, headings above; commas, semicolons or tabs between */
  table: string;
  /** day on which it is read; later days have no weather yet */
  today: string;
  /** unit where a heading names none */
  temperature_unit?: "c" | "f";
  /** the same for rain */
  rain_unit?: "mm" | "cm" | "in";
  /** the same for wind */
  wind_unit?: "m_s" | "km_h" | "mph" | "kn";
  /** which comes first where the year stands last */
  date_order?: "day_first" | "month_first";
}

export interface WeatherReadTableValue {
  /** those that were read, in the order of their dates */
  days: {
    /** the day */
    date: string;
    /** lowest temperature [C] */
    min_c?: number;
    /** highest temperature [C] */
    max_c?: number;
    /** mean temperature [C] */
    mean_c?: number;
    /** rain [mm] */
    rain_mm?: number;
    /** water that a short grass would use [mm] */
    et0_mm?: number;
    /** wind [m/s] */
    wind_m_s?: number;
  }[];
  /** what was taken from where */
  columns: {
    /** figure that the column holds */
    name: string;
    /** its heading as written */
    heading: string;
    /** its unit */
    unit: string | null;
  }[];
  /** headings of the columns that were not taken */
  ignored: string[];
  /** arguments without which it cannot be read: a unit, or the order of day and month */
  needs: string[];
  /** rows that were left out, at most 200 of them */
  problems: {
    /** line of the table, the first is 1 [line] */
    line: number;
    /** heading of the cell that is wrong */
    column: string;
    /** what stands there */
    value: string;
    /** what is wrong: no_date, no_number, out_of_range, min_over_max, twice, ahead, nothing */
    code: string;
    /** lowest value allowed, in the column's unit [column unit] */
    low: number | null;
    /** highest value allowed, in the column's unit [column unit] */
    high: number | null;
  }[];
  /** rows that were left out, all of them [rows] */
  left_out: number;
}

/** Sunrise and sunset of a day at a place, to about a minute below latitude 60. */
export interface WeatherSunsetArgs {
  /** latitude, south below 0 [deg] */
  latitude_deg: number;
  /** longitude, west below 0 [deg] */
  longitude_deg: number;
  /** the day at that place */
  date: string;
}

export interface WeatherSunsetValue {
  /** minutes from the day's 0:00 UTC to sunset; null where the sun does not set or rise [minute] */
  sunset_min: number | null;
  /** the same to sunrise [minute] */
  sunrise_min: number | null;
  /** the same to the sun's highest place [minute] */
  noon_min: number;
  /** whether there is a sunset that day */
  state: "sets" | "light_all_day" | "dark_all_day";
}

/** Every call by its name. */
export interface Calls {
  "area.gps": { args: AreaGpsArgs; value: AreaGpsValue };
  "area.offsets": { args: AreaOffsetsArgs; value: AreaOffsetsValue };
  "area.outline": { args: AreaOutlineArgs; value: AreaOutlineValue };
  "area.radii": { args: AreaRadiiArgs; value: AreaRadiiValue };
  "area.shapes": { args: AreaShapesArgs; value: AreaShapesValue };
  "area.sides": { args: AreaSidesArgs; value: AreaSidesValue };
  "area.total": { args: AreaTotalArgs; value: AreaTotalValue };
  "area.trace": { args: AreaTraceArgs; value: AreaTraceValue };
  "area.track": { args: AreaTrackArgs; value: AreaTrackValue };
  "feeding.available": { args: FeedingAvailableArgs; value: FeedingAvailableValue };
  "feeding.burn": { args: FeedingBurnArgs; value: FeedingBurnValue };
  "feeding.green_up": { args: FeedingGreenUpArgs; value: FeedingGreenUpValue };
  "feeding.growth_potential": { args: FeedingGrowthPotentialArgs; value: FeedingGrowthPotentialValue };
  "feeding.lasts": { args: FeedingLastsArgs; value: FeedingLastsValue };
  "feeding.ledger": { args: FeedingLedgerArgs; value: FeedingLedgerValue };
  "feeding.month_needs": { args: FeedingMonthNeedsArgs; value: FeedingMonthNeedsValue };
  "feeding.release": { args: FeedingReleaseArgs; value: FeedingReleaseValue };
  "feeding.yearly_aim": { args: FeedingYearlyAimArgs; value: FeedingYearlyAimValue };
  "hopper.density": { args: HopperDensityArgs; value: HopperDensityValue };
  "hopper.fills": { args: HopperFillsArgs; value: HopperFillsValue };
  "hopper.level": { args: HopperLevelArgs; value: HopperLevelValue };
  "hopper.mass": { args: HopperMassArgs; value: HopperMassValue };
  "label.aim": { args: LabelAimArgs; value: LabelAimValue };
  "label.match": { args: LabelMatchArgs; value: LabelMatchValue };
  "label.needed": { args: LabelNeededArgs; value: LabelNeededValue };
  "label.nitrogen_price": { args: LabelNitrogenPriceArgs; value: LabelNitrogenPriceValue };
  "label.nutrients": { args: LabelNutrientsArgs; value: LabelNutrientsValue };
  "label.rate": { args: LabelRateArgs; value: LabelRateValue };
  "label.rate_for_nitrogen": { args: LabelRateForNitrogenArgs; value: LabelRateForNitrogenValue };
  "limits.ceilings": { args: LimitsCeilingsArgs; value: LimitsCeilingsValue };
  "limits.check": { args: LimitsCheckArgs; value: LimitsCheckValue };
  "limits.rules": { args: LimitsRulesArgs; value: LimitsRulesValue };
  "limits.setback": { args: LimitsSetbackArgs; value: LimitsSetbackValue };
  "mowing.cut": { args: MowingCutArgs; value: MowingCutValue };
  "mowing.forecast": { args: MowingForecastArgs; value: MowingForecastValue };
  "mowing.height": { args: MowingHeightArgs; value: MowingHeightValue };
  "mowing.learn": { args: MowingLearnArgs; value: MowingLearnValue };
  "mowing.look": { args: MowingLookArgs; value: MowingLookValue };
  "mowing.next": { args: MowingNextArgs; value: MowingNextValue };
  "mowing.notch": { args: MowingNotchArgs; value: MowingNotchValue };
  "mowing.sharpen": { args: MowingSharpenArgs; value: MowingSharpenValue };
  "mowing.tonight": { args: MowingTonightArgs; value: MowingTonightValue };
  "mowing.way_down": { args: MowingWayDownArgs; value: MowingWayDownValue };
  "record.before": { args: RecordBeforeArgs; value: RecordBeforeValue };
  "record.claims": { args: RecordClaimsArgs; value: RecordClaimsValue };
  "record.clashes": { args: RecordClashesArgs; value: RecordClashesValue };
  "record.due": { args: RecordDueArgs; value: RecordDueValue };
  "record.keep_off": { args: RecordKeepOffArgs; value: RecordKeepOffValue };
  "record.totals": { args: RecordTotalsArgs; value: RecordTotalsValue };
  "season.arguments": { args: SeasonArgumentsArgs; value: SeasonArgumentsValue };
  "season.blocked": { args: SeasonBlockedArgs; value: SeasonBlockedValue };
  "season.build": { args: SeasonBuildArgs; value: SeasonBuildValue };
  "season.gather": { args: SeasonGatherArgs; value: SeasonGatherValue };
  "season.moved": { args: SeasonMovedArgs; value: SeasonMovedValue };
  "season.needs": { args: SeasonNeedsArgs; value: SeasonNeedsValue };
  "season.read": { args: SeasonReadArgs; value: SeasonReadValue };
  "season.sheet": { args: SeasonSheetArgs; value: SeasonSheetValue };
  "season.shopping": { args: SeasonShoppingArgs; value: SeasonShoppingValue };
  "season.skeleton": { args: SeasonSkeletonArgs; value: SeasonSkeletonValue };
  "season.windows": { args: SeasonWindowsArgs; value: SeasonWindowsValue };
  "spread.close_pass": { args: SpreadClosePassArgs; value: SpreadClosePassValue };
  "spread.finish": { args: SpreadFinishArgs; value: SpreadFinishValue };
  "spread.pour": { args: SpreadPourArgs; value: SpreadPourValue };
  "spread.standing": { args: SpreadStandingArgs; value: SpreadStandingValue };
  "spreading.check": { args: SpreadingCheckArgs; value: SpreadingCheckValue };
  "spreading.curve": { args: SpreadingCurveArgs; value: SpreadingCurveValue };
  "spreading.next": { args: SpreadingNextArgs; value: SpreadingNextValue };
  "spreading.split": { args: SpreadingSplitArgs; value: SpreadingSplitValue };
  "spreading.start": { args: SpreadingStartArgs; value: SpreadingStartValue };
  "spreading.taught": { args: SpreadingTaughtArgs; value: SpreadingTaughtValue };
  "spreading.used": { args: SpreadingUsedArgs; value: SpreadingUsedValue };
  "swath.tour": { args: SwathTourArgs; value: SwathTourValue };
  "swath.tray_test": { args: SwathTrayTestArgs; value: SwathTrayTestValue };
  "swath.walk_plan": { args: SwathWalkPlanArgs; value: SwathWalkPlanValue };
  "units.read": { args: UnitsReadArgs; value: UnitsReadValue };
  "warmth.chart": { args: WarmthChartArgs; value: WarmthChartValue };
  "warmth.climate": { args: WarmthClimateArgs; value: WarmthClimateValue };
  "warmth.degree_days": { args: WarmthDegreeDaysArgs; value: WarmthDegreeDaysValue };
  "warmth.soil": { args: WarmthSoilArgs; value: WarmthSoilValue };
  "watering.need": { args: WateringNeedArgs; value: WateringNeedValue };
  "watering.reference_et": { args: WateringReferenceEtArgs; value: WateringReferenceEtValue };
  "weather.join": { args: WeatherJoinArgs; value: WeatherJoinValue };
  "weather.months": { args: WeatherMonthsArgs; value: WeatherMonthsValue };
  "weather.read_table": { args: WeatherReadTableArgs; value: WeatherReadTableValue };
  "weather.sunset": { args: WeatherSunsetArgs; value: WeatherSunsetValue };
}
