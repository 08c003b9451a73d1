/** The form of a mow with its details: what it starts with, what goes with what, what is written. */
import { amountIn, type Typed, unitOf } from "../../../format";
import { createEntryForm, type EntryParts } from "../../../forms/entry-form";
import type { Filled } from "../../../forms/fields";
import type { Recorded } from "../../../forms/recorded";
import type { SchemaDraft, SchemaForm } from "../../../forms/schema-form";
import type { Engine } from "../../../platform/engine/ask";
import { given } from "../../../records/entries";
import type { NewEntry } from "../../../records/log/writing";
import { MOW_FORM } from "../entries/mow-words";
import type { Mower, MowersModel } from "./mowers";
import { notchRows } from "./mowers";
import { type MowsModel, nextDirection } from "./mows";

export interface MowFormParts extends EntryParts {
  engine: Engine;
  mows: MowsModel;
  mowers: MowersModel;
}

export interface MowStart {
  zoneIds: readonly string[];
  add: (entry: NewEntry) => Promise<Recorded>;
}

type Value = Record<string, unknown>;

/** What the last mow with this mower says of its setting; of a mower that has lost that notch, nothing. */
function settingOf({ mows }: MowFormParts, mower: Mower | undefined): Value {
  const last = mows.all.value.find(
    ({ body }) => body["mower_id"] === mower?.id && body["cut_height_mm"] !== undefined,
  );
  if (!last) return {};
  const { notch, cut_height_mm, cut_height_typed } = last.body;
  const kept = notch === undefined || mower?.notches.some(({ label }) => label === notch);
  return given({ cut_height_mm, cut_height_typed, notch: kept ? notch : undefined });
}

/** A mow starts as the last one was: its mower, its setting, the clippings; walked the next way round. */
function startOf(parts: MowFormParts, zoneIds: readonly string[]): Value {
  const { mows, mowers } = parts;
  const used = mowers.named(mows.lastOf("mower_id")?.body["mower_id"]);
  const mower = used ?? (mowers.all.value.length === 1 ? mowers.all.value[0] : undefined);
  const look = mows.lookAt(zoneIds, parts.now())?.body;
  return given({
    height_before_mm: look?.["height_mm"] as unknown,
    height_before_typed: look?.["height_typed"] as unknown,
    zone_ids: zoneIds,
    mower_id: mower?.id,
    ...settingOf(parts, mower),
    clippings: mows.lastOf("clippings")?.body["clippings"] as unknown,
    direction: nextDirection(mows.lastSaying(zoneIds, "direction")?.body["direction"]),
  });
}

/** How the height before was read, with the engine's likely error of that way. */
async function looked(parts: MowFormParts, { facts, zoneIds = [], ...entry }: NewEntry): Promise<NewEntry> {
  const { height_before_by: by, ...rest } = facts;
  const height_mm = rest["height_before_mm"];
  if (typeof height_mm !== "number") return { ...entry, zoneIds, facts: rest };
  const way = by === "over_notch" ? "over_notch" : "ruler";
  const cut_mm = lastCutMm(parts.mows, zoneIds);
  const answer = await parts.engine.call("mowing.look", { by: way, height_mm, ...given({ cut_mm }) });
  const error = given({ height_before_error_mm: answer.value?.error_mm });
  return { ...entry, zoneIds, facts: { ...rest, height_before_by: way, ...error } };
}

/** What the zones were last cut to, where that is one height. */
export function lastCutMm(mows: MowsModel, zoneIds: readonly string[]): number | undefined {
  const heights = zoneIds.map((id) => mows.lastCut(id)?.body["cut_height_mm"] as number | undefined);
  return new Set(heights).size === 1 ? heights[0] : undefined;
}

/** Where there is one zone there is nothing to choose. */
function onlyZone({ store }: MowFormParts): readonly string[] {
  const ids = store.rows("zone").value.map(({ id }) => id);
  return ids.length === 1 ? ids : [];
}

export function createMowForm(parts: MowFormParts, { zoneIds, add }: MowStart): SchemaForm {
  const { mower_id, notch, ...bare } = MOW_FORM.fields;
  const fields = parts.mowers.all.value.length ? MOW_FORM.fields : bare;
  return createEntryForm(parts, {
    kind: "mow",
    words: { ...MOW_FORM, fields },
    from: () => startOf(parts, zoneIds.length ? zoneIds : onlyZone(parts)),
    add: async (entry) => add(await looked(parts, entry)),
  });
}

const typed = (value: Filled | undefined): Typed => value as Typed;

/** A height in the unit that its box is set to. */
const inUnit = (mm: number, { unit }: Typed): Typed => ({ amount: amountIn(mm, unit), unit });

/** What changes with a field: a notch sets the height, another height is no notch, a ruler is a ruler. */
export function alongWith(
  mowers: MowersModel,
  name: string,
  value: Filled,
  { form }: SchemaForm,
): SchemaDraft {
  const now = form.value ?? {};
  if (name === "mower_id" || name === "cut_height_mm") return { notch: "" };
  if (name === "height_before_mm") return { height_before_by: typed(value).amount.trim() ? "ruler" : "" };
  if (name !== "notch" || value === "") return {};
  const notch = mowers.named(now["mower_id"])?.notches.find(({ label }) => label === value);
  if (!notch) return {};
  return { cut_height_mm: notch.measured_typed ?? inUnit(notch.measured_mm, typed(now["cut_height_mm"])) };
}

/** What "about one notch over" is asked with; null where the last cut is not known. */
export function overNotchArgs(mows: MowsModel, mower: Mower | undefined, zoneIds: readonly string[]) {
  const cut_mm = lastCutMm(mows, zoneIds);
  if (cut_mm === undefined) return null;
  return {
    by: "over_notch" as const,
    cut_mm,
    ...(mower?.notches.length ? { notches: notchRows(mower) } : {}),
  };
}

/** A height read by eye, put into the box of the height before. */
export function byEye(height_mm: number, form: SchemaForm, system: EntryParts["system"]): SchemaDraft {
  const box = typed(form.form.value?.["height_before_mm"]);
  const unit = box?.unit ?? unitOf("height", system()).key;
  return { height_before_mm: inUnit(height_mm, { amount: "", unit }), height_before_by: "over_notch" };
}
