/** What each field may hold: the limits by which the server checks, and what the phone makes of them. */
import { type Quantity, type System, unit as unitNamed } from "../format";
import { allowedIs, quantityIn, scaleOf } from "../format/limit";
import { cornersIn, isGiven, isGroup, isList, isText, MOST_CORNERS, misshapen } from "./contract/shapes";
import { type FieldType, type KindTable, type Rule, type Rules, KINDS as TABLE } from "./kinds.gen";

/** A field's rule, with whether it must be given said either way. */
export type Limits = Rule & { readonly required: boolean };

export { cornersIn, MOST_CORNERS };

/** By any name: a record may be of a kind that only a later build knows. */
const KINDS: Readonly<Record<string, KindTable | undefined>> = TABLE;

/** What a field measures, where it is written in units of the person's choosing. */
export function quantityOf({ unit }: { unit?: string }): Quantity | undefined {
  return quantityIn(unit);
}

/** Whether a field is stored as a share (0 to 1) and written in percent. */
export const isShare = ({ unit }: { unit?: string }): boolean => unit === "share";

/** The units a form's fields are set to, by field: limits are said in them. */
export type UnitsSet = Readonly<Record<string, string>>;

/** "cut_height_mm" → "cut_height_typed": the field that keeps another one as it was typed. */
export const typedName = (name: string): string =>
  `${name.replace(/_(kg_m2|kg_m3|m_s|mg_kg|kg|m2|mm|m|c)$/, "")}_typed`;

/** The unit a value was typed in, where the group keeps it. */
function unitTyped(given: Record<string, any>, name: string): string | undefined {
  const typed = given[typedName(name)] ?? given["hopper_typed"]?.[name];
  return unitNamed(typed?.unit) ? typed.unit : undefined;
}

/**
 * Fields of a group. An entry's body goes by the name of its kind ("mow", "spread" …): the common
 * fields and its own. Raises an error for a name the contract does not have: that is a fault of ours.
 */
export function fieldsOf(t: string, group: string): Record<string, Limits> {
  const kind = KINDS[t];
  const own = kind?.groups[group] ?? (kind?.bodies?.[group] && { ...kind.body, ...kind.bodies[group] });
  if (!own) throw new Error(`the contract has no ${t}.${group}`);
  return Object.fromEntries(
    Object.entries(own).map(([name, field]) => [name, { ...field, required: field.required === true }]),
  );
}

/** What one field may hold. */
export function limits(t: string, group: string, field: string): Limits {
  const found = fieldsOf(t, group)[field];
  if (!found) throw new Error(`the contract has no ${t}.${group}.${field}`);
  return found;
}

/**
 * What is wrong with the values of a group, field by field, in the person's units: empty when all
 * is well. Fields that the contract does not name pass: they belong to a later build. Limits are said in the unit the field
 * is set to: as `set` tells, else as it was typed, else the person's own.
 */
export function checkGroup(
  t: string,
  group: string,
  value: object,
  sys: System,
  set: UnitsSet = {},
): Record<string, string> {
  const wrong: Record<string, string> = {};
  const given = value as Record<string, unknown>;
  for (const [name, field] of Object.entries(fieldsOf(t, group))) {
    const text = allowed(field, sys, set[name] ?? unitTyped(given, name));
    const message = checkField(field, given[name], text);
    if (message) wrong[name] = message;
  }
  return { ...wrong, ...checkTogether(t, group, given) };
}

/** What the book would refuse of an entry's figures, in a sentence; undefined where all are within what it takes. */
export function figureRefused(kind: string, body: object, sys: System): string | undefined {
  const fields = fieldsOf("entry", kind);
  const wrong = Object.entries(checkGroup("entry", kind, body, sys));
  return wrong.find(([name]) => fields[name]?.low !== undefined)?.[1];
}

/** As many clicks as the engine reads of a dial (lawn/engine/dial/scale.py). */
const MOST_CLICKS = 500;
const LAST_BITS = 1 + 1e-9;

/** The parts of a product, and the most they are together in percent; lawn/engine/product/label.py refuses the same. */
const PARTS = ["n_percent", "p2o5_percent", "k2o_percent"] as const;
const WHOLE_PERCENT = 100;

/** The parts given where they are more than the whole together; none where one is wrong by itself. */
function partsOver(fields: Record<string, Limits>, given: Record<string, unknown>): string[] {
  const told = PARTS.filter((name) => fields[name] && !isMissing(fields[name], given[name]));
  if (told.some((name) => checkField(fields[name] as Limits, given[name], "") !== undefined)) return [];
  return sumOf(told, given) > WHOLE_PERCENT * LAST_BITS ? told : [];
}

const sumOf = (names: readonly string[], given: Record<string, unknown>): number =>
  names.reduce((sum, name) => sum + (given[name] as number), 0);

/** What is wrong with an analysis of more than the whole bag, beside its first number. */
export function overWhole(t: string, group: string, value: object): Record<string, string> {
  const [fields, given] = [fieldsOf(t, group), value as Record<string, unknown>];
  const over = partsOver(fields, given);
  const labels = over.map((name) => fields[name]?.label ?? name);
  if (!over.length) return {};
  const sum = Number(sumOf(over, given).toPrecision(6));
  const listed = `${labels.slice(0, -1).join("; ")} and ${labels.at(-1)}`;
  return {
    [over[0] as string]: `${listed} are ${sum}% together. Allowed is 0 to ${WHOLE_PERCENT}% together. Copy each from the bag.`,
  };
}

/** What no single field's range can say; the server asks the same. */
function checkTogether(t: string, group: string, given: Record<string, unknown>): Record<string, string> {
  if (t === "zone" && group === "ground") return checkCorners(given["outline"]);
  if (t === "spreader" && group === "dial") return checkDial(given);
  if (t === "step" && group === "window") return checkWindow(given);
  if (t === "step" && group === "state") return checkState(given);
  return { ...noneOfAny(fieldsOf(t, group), given), ...overWhole(t, group, given) };
}

/** Of the fields marked `any` one at least must be there: without it the record says nothing. */
function noneOfAny(fields: Record<string, Limits>, given: Record<string, unknown>): Record<string, string> {
  const any = Object.entries(fields).filter(([, limits]) => limits.any);
  if (!any.length || any.some(([name, limits]) => !isMissing(limits, given[name]))) return {};
  const listed = any.map(([, { label }]) => label).join("; ");
  return { [any[0]?.[0] as string]: `Enter at least one of these: ${listed}.` };
}

function checkWindow({ from_on, to_on }: Record<string, unknown>): Record<string, string> {
  if (typeof from_on !== "string" || typeof to_on !== "string" || to_on >= from_on) return {};
  return { to_on: `${limits("step", "window", "to_on").label} must be ${from_on} or later.` };
}

function checkState({ state, entry_id }: Record<string, unknown>): Record<string, string> {
  if (entry_id === undefined || entry_id === null || state === "done") return {};
  return { entry_id: "Only a step that is done names the entry that did it." };
}

function checkCorners(outline: any): Record<string, string> {
  const corners = cornersIn(outline?.points_m, outline?.holes_m);
  if (corners <= MOST_CORNERS) return {};
  const text = `The outline has ${corners} corners in all. At most ${MOST_CORNERS} are allowed. Remove some.`;
  return { outline: text };
}

function checkDial(given: Record<string, unknown>): Record<string, string> {
  const { lowest, highest, step } = given;
  if (typeof lowest !== "number" || typeof highest !== "number") return {};
  if (!(highest > lowest))
    return {
      highest: `${limits("spreader", "dial", "highest").label} must be more than the lowest, ${lowest}.`,
    };
  const travel = highest - lowest;
  const fits =
    typeof step !== "number" || (step <= travel * LAST_BITS && travel <= step * MOST_CLICKS * LAST_BITS);
  return fits ? {} : { step: `One click must divide the dial into 1 to ${MOST_CLICKS} clicks.` };
}

function isMissing({ type }: Limits, value: unknown): boolean {
  if (value === undefined || value === null) return true;
  return type === "text" ? value === "" : type === "ids" && Array.isArray(value) && value.length === 0;
}

/** Fields that the contract names anywhere in a settings kind, or in any kind of entry's body. */
const everywhere = new Map<string, ReadonlySet<string>>();

function namedIn(t: string, body: boolean): ReadonlySet<string> {
  const key = `${t}:${body}`;
  const known = everywhere.get(key);
  if (known) return known;
  const kind = KINDS[t];
  const groups = body
    ? [kind?.body ?? {}, ...Object.values(kind?.bodies ?? {})]
    : Object.values(kind?.groups ?? {});
  const found = new Set(groups.flatMap((fields) => Object.keys(fields)));
  everywhere.set(key, found);
  return found;
}

/** What a group or a body may be read for, and the fields in it that cannot be used. */
export interface Own {
  fields: Record<string, any>;
  sick: readonly string[];
}

const EMPTY: Own = { fields: {}, sick: [] };
const read = new WeakMap<object, Map<string, Own>>();

/**
 * The fields of a group (or of a body, by its kind) as they may be used: its own, each inside its limits. One that
 * belongs to another group or another kind of entry is not there, as on the server; one outside its limits would break
 * the sums of every page, so it is left out and named. What no group names belongs to a later build and stays.
 */
export function ownFields(t: string, group: string, value: unknown): Own {
  if (value === undefined || value === null) return EMPTY;
  if (typeof value !== "object" || Array.isArray(value)) return { fields: {}, sick: [group] };
  if (!bodyOrGroup(t, group)) return { fields: value as Record<string, any>, sick: [] };
  const known = read.get(value)?.get(`${t}.${group}`);
  if (known) return known;
  const found = sorted(t, group, value as Record<string, unknown>);
  read.set(value, new Map(read.get(value)).set(`${t}.${group}`, found));
  return found;
}

/** The fields of a group, or of a body; of a kind of entry that only a later build knows those common to all. */
function bodyOrGroup(t: string, group: string): Rules | undefined {
  const kind = KINDS[t];
  const own = kind?.groups[group] ?? (kind?.bodies?.[group] && { ...kind.body, ...kind.bodies[group] });
  return own ?? (kind?.bodies ? kind.body : undefined);
}

/** Groups that every record of a kind has from its first save on; an entry's body stands for itself. */
const NEEDED: Readonly<Record<string, readonly string[]>> = {
  zone: ["name", "ground"],
  product: ["name", "label"],
  spreader: ["name", "dial"],
  mower: ["name"],
  plan: ["year"],
  step: ["job", "window"],
  claim: ["claim"],
  settlement: ["settled"],
  photo: ["photo"],
};

/** Groups a record should have and has not; any other may be cleared, and is then empty. */
export const groupsLacking = (t: string, has: (group: string) => boolean): string[] =>
  (NEEDED[t] ?? []).filter((group) => !has(group));

/** Required fields by group, gathered once: a long log asks for every entry. */
const required = new Map<string, readonly (readonly [string, Limits])[]>();

function requiredOf(t: string, group: string): readonly (readonly [string, Limits])[] {
  const key = `${t}.${group}`;
  const fields = bodyOrGroup(t, group) ?? {};
  const found =
    required.get(key) ??
    (Object.entries(fields) as [string, Limits][]).filter(([, { required }]) => required);
  required.set(key, found);
  return found;
}

/** Required fields that a group, or a body, lacks: it cannot be used without them, as with one that is wrong. */
export function missingFields(t: string, group: string, value: unknown): string[] {
  if (isGiven(value) && !isGroup(value)) return [];
  const given = (value ?? {}) as Record<string, unknown>;
  const mayBeCleared = KINDS[t]?.groups[group] !== undefined && !NEEDED[t]?.includes(group);
  if (mayBeCleared && !Object.keys(given).length) return [];
  return requiredOf(t, group).flatMap(([name, field]) => (isMissing(field, given[name]) ? [name] : []));
}

function sorted(t: string, group: string, value: Record<string, unknown>): Own {
  const known = KINDS[t]?.groups[group] !== undefined || KINDS[t]?.bodies?.[group] !== undefined;
  const own = (bodyOrGroup(t, group) ?? {}) as Record<string, Limits>;
  const named = namedIn(t, KINDS[t]?.groups[group] === undefined);
  const over = partsOver(own, value);
  const sick: string[] = [];
  const fields = Object.entries(value).filter(([name, is]) => {
    const field = own[name];
    if (!field) return !known || (!named.has(name) && !misshapen(t, group, name, is));
    // What kind it is, is not for an older build to refuse.
    const wrong =
      !(name === "kind" && !known) &&
      !isMissing(field, is) &&
      (!fits(field, is) || misshapen(t, group, name, is) || over.includes(name));
    if (wrong) sick.push(name);
    return !wrong;
  });
  return { fields: Object.fromEntries(fields), sick };
}

/** Whether a value is inside its limits. Of ids only that they are texts: what they name may be on its way (S3). */
function fits(field: Limits, value: unknown): boolean {
  if (field.type === "id") return isText(value);
  if (field.type === "ids") return isList(value, isText);
  return checkField({ ...field, ahead_days: Number.POSITIVE_INFINITY }, value, "") === undefined;
}

/** Never milder than the server's check: what passes here must not be set aside there. */
function checkField(field: Limits, value: unknown, text: string): string | undefined {
  if (isMissing(field, value)) return field.required ? `${field.label} is missing. ${text}` : undefined;
  return CHECKS[field.type]?.(field, value, text);
}

/** What is wrong with one value, in a sentence with what is allowed; for a field that no group of the contract has. */
export const checkValue = (field: Limits, value: unknown, sys: System, key?: string): string | undefined =>
  checkField(field, value, allowed(field, sys, key));

type Check = (field: Limits, value: unknown, text: string) => string | undefined;

function checkNumber(field: Limits, value: unknown, text: string): string | undefined {
  if (typeof value !== "number" || !Number.isFinite(value)) {
    return `${field.label} is not a number. ${text}`;
  }
  if (field.type === "integer" && !Number.isInteger(value)) {
    return `${field.label} must be a whole number. ${text}`;
  }
  if (field.low !== undefined && value < field.low) return `${field.label} is too small. ${text}`;
  if (field.high !== undefined && value > field.high) return `${field.label} is too large. ${text}`;
  return undefined;
}

function checkText(field: Limits, value: unknown): string | undefined {
  if (!isText(value)) return `${field.label} is not a text.`;
  // Counted as the server counts: by characters, an emoji being one.
  const length = [...value].length;
  if (field.max === undefined || length <= field.max) return undefined;
  return `${field.label} is too long: ${length} characters. At most ${field.max} are allowed.`;
}

const MOMENT =
  /^((?:19|20|21)\d\d-\d\d-\d\d)T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d{1,6})?)?(Z|[+-]\d\d:[0-5]\d)$/;
const ID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;

const isId = (value: unknown): boolean => isText(value) && ID.test(value);

/** A day there is: the browser's own reading would turn 30 February into a day in March. */
function isDay(value: unknown): boolean {
  if (!isText(value) || !/^\d{4}-\d\d-\d\d$/.test(value)) return false;
  const ms = Date.parse(`${value}T00:00:00Z`);
  return !Number.isNaN(ms) && new Date(ms).toISOString().startsWith(value);
}

const DAY_MS = 86_400_000;

function checkMoment(field: Limits, value: unknown): string | undefined {
  const day = isText(value) ? MOMENT.exec(value)?.[1] : undefined;
  if (!isDay(day)) return `${field.label} is not a date and time. Choose both.`;
  const ahead_ms = Date.parse(value as string) - Date.now();
  const tooFar = field.ahead_days !== undefined && ahead_ms > field.ahead_days * DAY_MS;
  return tooFar ? "This is in the future. Choose when it was done: today or earlier." : undefined;
}

const CHECKS: Partial<Record<FieldType, Check>> = {
  number: checkNumber,
  integer: checkNumber,
  text: checkText,
  moment: checkMoment,
  choice: (field, value, text) =>
    isText(value) && field.choices?.includes(value)
      ? undefined
      : `${field.label} is not one of the choices. ${text}`,
  flag: (field, value) => (typeof value === "boolean" ? undefined : `${field.label} must be yes or no.`),
  date: (field, value) => (isDay(value) ? undefined : `${field.label} is not a date.`),
  id: (field, value) => (isId(value) ? undefined : `${field.label} is not chosen.`),
  ids: (field, value) =>
    Array.isArray(value) && value.every(isId) ? undefined : `${field.label} are not chosen.`,
};

/** What is allowed, as a sentence: "Allowed is 5 to 200 mm." `key` is the unit the field is set to. */
export function allowed(field: Limits, sys: System, key?: string): string {
  if (field.choices)
    return `Choose one of: ${field.choices.map((choice) => choice.replaceAll("_", " ")).join(", ")}.`;
  const text = allowedIs(field, scaleOf(field.unit, sys, key), sys);
  return text || (field.type === "text" ? "Enter something here." : "Fill this in.");
}
