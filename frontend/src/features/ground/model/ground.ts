/** Ground: the zones with what the log says of each, and the zone a person is measuring. */
import { computed } from "@preact/signals";
import type { System } from "../../../format";
import { createForm, type Draft, type Errors, type Read } from "../../../forms/form";
import { type Check, type Groups, over, type SavedRecord, saveGroups } from "../../../forms/record-form";
import { recordRemoval } from "../../../forms/recorded";
import { ask } from "../../../platform/engine/ask";
import type { Answer, Args, EngineCall } from "../../../platform/engine/types";
import type { Row, Store } from "../../../platform/store/types";
import { given, NOTHING_YET, type Totals, type ZoneTotals } from "../../../records/entries";
import { inOrder } from "../../../records/ground/zone-order";
import { groupOf } from "../../../records/groups";
import type { ZoneCut, ZoneGrass, ZoneGround, ZoneStrips } from "../../../records/kinds.gen";
import { needsMending } from "../../../records/reading";
import { createTotals, type TotalsSignal } from "../../../records/totals";
import { type PlanPicture, pictureKey } from "./plan-picture";
import type { TraceForm } from "./trace";
import { blankForm, formOf, keptMeasures, plainGroups, typedMeasures, type ZoneForm } from "./zone-form";
import { measuredBy, refusalOf } from "./zone-measured";
import {
  type AreaCall,
  type AreaCallName,
  type AreaResult,
  cornersNow,
  outlineFound,
  sdFound,
  waterOf,
  type ZoneOutline,
  zoneOutline,
} from "./zone-outline";

/** A zone: what the contract has of its ground, strips, grass and cut, and what its list shows besides. */
export interface Zone
  extends Partial<Omit<ZoneGround, "measured" | "outline">>,
    ZoneStrips,
    ZoneGrass,
    ZoneCut {
  id: string;
  name: string;
  grass: string;
  show: boolean;
  /** Drawn or measured as one shape; undefined where only an area is known. */
  outline: ZoneOutline | undefined;
  totals: ZoneTotals | undefined;
  row: Row;
}

function draftKey(id: string | null): string {
  return `zone-form:${id ?? "new"}`;
}

export interface GroundParts {
  store: Store;
  engine: { call: EngineCall };
  day: () => string;
  system: () => System;
  /** Resolves when `system` is the person's own; at once where none is handed in. */
  ready?: (() => Promise<void>) | undefined;
  check: Check;
  /** What the log adds up to, shared by the places; its own where none is given. */
  totals?: TotalsSignal;
}

function zoneOf(row: Row, totals: Totals | undefined): Zone {
  const { measured: _, ...ground } = groupOf("zone", row, "ground");
  return {
    ...groupOf("zone", row, "strips"),
    ...groupOf("zone", row, "cut"),
    ...ground,
    id: row.id,
    name: groupOf("zone", row, "name").name ?? "Unnamed zone",
    grass: groupOf("zone", row, "grass").grass ?? "",
    show: groupOf("zone", row, "show").show_patch === true,
    outline: zoneOutline(ground),
    totals: totals && (totals.zones[row.id] ?? NOTHING_YET),
    row,
  };
}

export function createGround({
  store,
  engine,
  day,
  system,
  ready,
  check,
  totals = createTotals({ store, engine, day }),
}: GroundParts) {
  const rows = store.rows("zone");

  const zones = computed(() => rows.value.map((row) => zoneOf(row, totals.value?.value)).sort(inOrder));

  const together = ask(engine, "area.total", () => ({
    zones: zones.value.flatMap(({ id, area_m2 }) => (area_m2 === undefined ? [] : [{ id, area_m2 }])),
  }));

  return {
    zones,
    loaded: store.loaded("zone"),
    totals,
    /** Of all zones that have one; undefined until the engine has added it up. */
    total_m2: computed(() => together.value?.value?.area_m2),
    zone: (id: string) => computed(() => zones.value.find((zone) => zone.id === id)),
    /** Takes a zone out of the book; the log keeps every entry that names it. */
    takeOut: (id: string) => recordRemoval(store, "zone", id),
    /** Whether a form of this zone (null: a new one) was left half filled. */
    unfinished: (id: string | null) => store.drafts.watch<Draft<ZoneForm>>(draftKey(id)),
    edit: (id: string | null) => createZoneEditor({ store, engine, system, check, ready }, id),
  };
}

export type GroundModel = ReturnType<typeof createGround>;

/** The engine call as the record keeps it: enough to work the area out again anywhere. */
function measuring(call: AreaCall | null): object {
  return call ? { call: call.name, args: call.args } : {};
}

type EditorParts = Pick<GroundParts, "store" | "engine" | "system" | "ready" | "check">;

type Base = Row | undefined;
type Refuse = (errors: Errors) => undefined;

/** A zone's form as read: how its ground is measured, and its other groups. */
interface ReadZone {
  measured: ReturnType<typeof measuredBy>;
  groups: Groups;
}

/** The groups this person changed, each laid over what the record holds now. */
function changed({ form, opened }: Draft<ZoneForm>, row: Base, ground: object): Record<string, object> {
  const before = plainGroups(opened, {});
  const set: Record<string, object> = {};
  for (const [group, value] of Object.entries(plainGroups(form, {}))) {
    const old = before[group] ?? {};
    const differs = needsMending(row, group) || JSON.stringify(value) !== JSON.stringify(old);
    if (differs || (!row && group === "name")) set[group] = over(row?.groups[group]?.value, old, value);
  }
  const typed = ({ measures }: ZoneForm) => JSON.stringify([typedMeasures(measures), measures.outline.water]);
  if (!row || needsMending(row, "ground") || typed(form) !== typed(opened)) {
    // An outline drawn earlier stays where the new way of measuring brings none.
    set["ground"] = over(row?.groups["ground"]?.value, { area_sd_m2: 0, water_edges: [] }, ground);
  }
  return set;
}

/** The ground as the record keeps it, with what it was measured by. */
function groundOf(form: ZoneForm, call: AreaCall | null, area: AreaResult, row: Base): object {
  const outline = outlineFound(form.measures, area, row?.groups["ground"]?.value?.outline);
  return {
    area_m2: area.area_m2,
    ...given({ area_sd_m2: sdFound(form.measures, area), outline }),
    ...waterOf(form.measures, cornersNow(form.measures, area).length),
    method: form.measures.method,
    measured: { ...measuring(call), typed: keptMeasures(form.measures) },
  };
}

/** One zone being measured or changed. */
export function createZoneEditor({ store, engine, system, ready, check }: EditorParts, id: string | null) {
  function read(form: ZoneForm): Read<ReadZone> {
    const measured = measuredBy(form.measures);
    const errors: Errors = { ...measured.errors };
    const groups = plainGroups(form, errors);
    for (const [group, value] of Object.entries(groups))
      Object.assign(errors, check("zone", group, value, system()), { ...errors });
    return { value: { measured, groups }, errors };
  }

  const form = createForm<ZoneForm, ReadZone, SavedRecord, Base>(
    { store, ready },
    {
      key: draftKey(id),
      fresh: (row) => (row ? formOf(row, system()) : blankForm(system())),
      whole: (kept, fresh) => ({
        ...fresh,
        ...kept,
        measures: { ...fresh.measures, ...kept.measures },
      }),
      read,
      write,
      drop: ({ form: now, opened }) => dropPicture(now, opened),
    },
  );

  const measured = computed(() => form.read.value?.value.measured ?? { errors: {}, call: null });
  const call = computed(() => measured.value.call);
  const callName = computed(() => call.value?.name ?? "area.shapes");
  const asked = {
    "area.shapes": ask(engine, "area.shapes", () => argsFor("area.shapes")),
    "area.offsets": ask(engine, "area.offsets", () => argsFor("area.offsets")),
    "area.radii": ask(engine, "area.radii", () => argsFor("area.radii")),
    "area.gps": ask(engine, "area.gps", () => argsFor("area.gps")),
    "area.trace": ask(engine, "area.trace", () => argsFor("area.trace")),
    "area.outline": ask(engine, "area.outline", () => argsFor("area.outline")),
  };
  function argsFor<N extends AreaCallName>(name: N): Args<N> | null {
    return call.value?.name === name ? (call.value.args as Args<N>) : null;
  }
  const following = computed(() => (call.value ? asked[callName.value as keyof typeof asked] : undefined));
  const answer = computed(() => following.value?.value as Answer<AreaResult> | undefined);

  /** Removes a form's picture from the phone, unless the zone as it stands still uses it; returns the way back. */
  async function dropPicture(from: ZoneForm, still: ZoneForm): Promise<(() => Promise<void>) | undefined> {
    const held = from.measures.trace?.picture;
    if (!held || held === still.measures.trace?.picture) return undefined;
    const picture = await store.drafts.get<PlanPicture>(pictureKey(held));
    await store.drafts.remove(pictureKey(held));
    return picture && (() => store.drafts.put(pictureKey(held), picture));
  }

  /** Lays another picture under the trace, or none; gives back what was there, for the undo. */
  async function layPicture(trace: TraceForm, picture?: PlanPicture): Promise<() => Promise<void>> {
    const [now, was] = [form.form.value, form.opened.value];
    if (!now || !was) return async () => undefined;
    const before = now.measures.trace;
    if (trace.picture && picture) await store.drafts.put(pictureKey(trace.picture), picture);
    form.change({ measures: { ...now.measures, trace } });
    const dropped = trace.picture === before.picture ? undefined : await dropPicture(now, was);
    return async () => {
      await dropped?.();
      await layPicture(before);
    };
  }

  /** The corners of the outline it would have now, and its sides as somebody names them. */
  const corners = computed(() =>
    form.form.value ? cornersNow(form.form.value.measures, answer.value?.value) : [],
  );
  const sides = ask(engine, "area.sides", () =>
    form.form.value?.nearWater && corners.value.length ? { points_m: corners.value } : null,
  );

  /** The engine's own refusal, under the field it is about; "ground" where it is about the whole. */
  const refusal = computed(() => {
    const error = answer.value?.error;
    return error && form.form.value ? refusalOf(form.form.value.measures, error, system()) : undefined;
  });

  const errors = computed<Errors>(() => {
    const live = form.tried.value ? refusal.value : undefined;
    return live ? { [live.field]: live.says, ...form.errors.value } : form.errors.value;
  });

  /** The area of what is measured now, whatever the screen still shows. */
  async function measure(refuse?: Refuse): Promise<AreaResult | undefined> {
    const { call: wanted, area_m2 } = measured.value;
    if (!wanted) return area_m2 === undefined ? undefined : { area_m2 };
    const got = await engine.call(wanted.name, wanted.args);
    if (got.error && form.form.value) {
      const { field, says } = refusalOf(form.form.value.measures, got.error, system());
      refuse?.({ [field]: says });
    }
    return got.value as AreaResult | undefined;
  }

  async function write(_read: ReadZone, draft: Draft<ZoneForm>, row: Base, refuse: Refuse) {
    const area = await measure(refuse);
    if (!area) return undefined;
    const ground = groundOf(draft.form, measured.value.call, area, row);
    const wrong = check("zone", "ground", ground, system());
    if (Object.keys(wrong).length) return refuse(wrong);
    return saveGroups(store, "zone", row, changed(draft, row, ground));
  }

  return {
    ...form,
    measured,
    answer,
    /** Whether the answer there is still that to older measurements. */
    stale: computed(() => answer.value !== undefined && following.value?.busy.value === true),
    corners,
    sides,
    refusal,
    errors,
    layPicture,
    measure,
  };
}

export type ZoneEditor = ReturnType<typeof createZoneEditor>;
