/** The form of what the contract calls JSON and says no more of, where pages and sums walk through it. */

export const isText = (value: unknown): value is string => typeof value === "string";

/** The corners of a ground and its obstacles, all together. */
export function cornersIn(ground: unknown, obstacles: unknown): number {
  const rings = [ground, ...(Array.isArray(obstacles) ? obstacles : [])];
  return rings.reduce((sum: number, ring) => sum + (Array.isArray(ring) ? ring.length : 0), 0);
}

export const isList = (value: unknown, of: (item: unknown) => boolean): value is unknown[] =>
  Array.isArray(value) && value.every((item) => of(item));
export const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const TYPED_AMOUNTS = ["zone.cut.cut_height", "product.label.net", "product.label.coverage"]
  .concat(["spreader.walking.swath", "spreader.walking.speed", "entry.stock_count.left"])
  .concat(["entry.reading.temperature", "entry.reading.depth", "entry.reading.error"])
  .concat(["entry.reading.rain", "household.place.elevation", "zone.site.water_edge", "zone.site.setback"])
  .concat(["entry.mow.cut_height", "entry.mow.height_before", "entry.mow.height_after"])
  .concat(["mower.deck.lowest", "mower.deck.highest", "entry.reading.height"])
  .concat(["entry.soil_test.p", "entry.soil_test.k", "entry.bought.net", "entry.bought.bought"])
  .concat(["step.product.rate"]);

/** JSON fields that pages and sums walk through: what they must at least be. */
const SHAPES: Record<string, (value: unknown) => boolean> = {
  "entry.spread.zones": (value) => isList(value, (zone) => isGroup(zone) && typeof zone.zone_id === "string"),
  "entry.spread.aim": isGroup,
  "entry.pass.parts": (value) => isList(value, isGroup),
  "entry.pass.checks": (value) => isList(value, isGroup),
  "entry.tray_test.catches_g": (value) => isList(value, Number.isFinite),
  "entry.tray_test.typed": isGroup,
  "entry.pass.dial_scale": isGroup,
  "entry.pass.left_typed": isLeftTyped,
  "spreader.hopper.hopper_typed": (value) => isGroup(value) && Object.values(value).every(isTyped),
  "household.climate.monthly_mean_c": (value) => isList(value, Number.isFinite) && value.length === 12,
  "household.climate.climate_typed": isGroup,
  "household.rules.own_rules": (value) => isList(value, (rule) => isGroup(rule) && isText(rule.kind)),
  "weather_month.days.days": (value) => isList(value, (day) => isGroup(day) && typeof day.date === "string"),
  "plan.skip.skip_months": (value) =>
    isList(value, isMonth) && new Set(value as unknown[]).size === value.length,
  "mower.deck.notches": (value) => isList(value, isNotch),
  "zone.ground.measured": isGroup,
  "zone.ground.outline": isDrawable,
  ...Object.fromEntries(TYPED_AMOUNTS.map((field) => [`${field}_typed`, isTyped])),
};

/** What is kept inside what is laid over an entry: its earlier wordings, and when it was said. */
const LAID: Record<string, (value: unknown) => boolean> = {
  was: (value) => isList(value, isGroup),
};

/** As a person typed it. */
function isTyped(value: unknown): boolean {
  return isGroup(value) && typeof value.amount === "string" && typeof value.unit === "string";
}

const isMonth = (value: unknown): boolean =>
  Number.isInteger(value) && Number(value) >= 1 && Number(value) <= 12;

/** A notch of a mower's lever, named and measured: as the server asks (lawn/contract/forms.py). */
function isNotch(value: unknown): boolean {
  const named = isGroup(value) && isText(value.label) && value.label !== "";
  return (
    named &&
    Number.isFinite(value.measured_mm) &&
    (value.measured_typed === undefined || isTyped(value.measured_typed))
  );
}

/** What was left, as the person said it: an amount, or another way to know it (`features/spreading/model/yard/left`). */
function isLeftTyped(value: unknown): boolean {
  if (!isGroup(value)) return false;
  return value.way === undefined || value.way === "scale" ? isTyped(value) : typeof value.way === "string";
}

export const isGiven = (value: unknown): boolean => value !== undefined && value !== null;

export function misshapen(t: string, group: string, name: string, value: unknown): boolean {
  const shaped = SHAPES[`${t}.${group}.${name}`] ?? (t === "entry" ? LAID[name] : undefined);
  return isGiven(value) && shaped !== undefined && !shaped(value);
}

/** As many corners as the server takes in all: a plan of more would keep the phone busy for minutes. */
export const MOST_CORNERS = 400;

function isDrawable(outline: unknown): boolean {
  const corner = (at: unknown) => isList(at, Number.isFinite) && (at as unknown[]).length === 2;
  const ring = (points: unknown) => isList(points, corner);
  const { points_m, holes_m, circles_m } = isGroup(outline) ? outline : {};
  if (!ring(points_m) || !isList(holes_m ?? [], ring) || !isList(circles_m ?? [], isGroup)) return false;
  return cornersIn(points_m, holes_m) <= MOST_CORNERS;
}
