/** Ground: the zones with what the log says of each, and the zone a person is measuring. */
import { computed, type ReadonlySignal, signal } from "@preact/signals";
import type { System } from "../../../format";
import type { Check } from "../../../forms/record-form";
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
import {
  blankForm,
  type Errors,
  formOf,
  keptMeasures,
  plainGroups,
  typedMeasures,
  type ZoneForm,
} from "./zone-form";
import { measuredBy, refusalOf } from "./zone-measured";
import {
  type AreaCall,
  type AreaCallName,
  type AreaResult,
  outlineFound,
  sdFound,
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

/** What is kept of an unfinished form: what it says and what it said when it was opened. */
export interface Draft {
  form: ZoneForm;
  opened: ZoneForm;
  /** The plan's picture, handed out with what was thrown away so that the undo brings it back too. */
  picture?: { id: string; picture: PlanPicture };
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
  ready?: () => Promise<void>;
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

/** A group as it will stand: the form's fields over whatever else the group holds, cleared fields gone. */
function over(
  standing: Record<string, unknown> | undefined,
  before: object,
  after: object,
): Record<string, unknown> {
  const rest = Object.fromEntries(Object.entries(standing ?? {}).filter(([name]) => !(name in before)));
  return { ...rest, ...after };
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

  async function restore(id: string | null, { picture, ...draft }: Draft): Promise<void> {
    if (picture) await store.drafts.put(pictureKey(picture.id), picture.picture);
    await store.drafts.put(draftKey(id), draft);
  }

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
    unfinished: (id: string | null) => store.drafts.watch<Draft>(draftKey(id)),
    restore,
    edit: (id: string | null) =>
      createZoneEditor({ store, engine, system, check, ...(ready ? { ready } : {}) }, id),
  };
}

export type GroundModel = ReturnType<typeof createGround>;

/** The engine call as the record keeps it: enough to work the area out again anywhere. */
function measuring(call: AreaCall | null): object {
  return call ? { call: call.name, args: call.args } : {};
}

type EditorParts = Pick<GroundParts, "store" | "engine" | "system" | "ready" | "check">;

/** One zone being measured or changed. Every keystroke is kept as a draft until it is saved or thrown away. */
export function createZoneEditor({ store, engine, system, ready, check }: EditorParts, id: string | null) {
  const key = draftKey(id);
  const form = signal<ZoneForm | undefined>(undefined);
  const opened = signal<ZoneForm | undefined>(undefined);
  const resumed = signal(false);
  const tried = signal(false);
  const saving = signal(false);
  const refused = signal<Errors>({});

  const measured = computed(() =>
    form.value ? measuredBy(form.value.measures) : { errors: {}, call: null },
  );
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
  /** Whether the answer there is still that to older measurements. */
  const busy = computed(() => answer.value !== undefined && following.value?.busy.value === true);

  /** Starts from the kept draft, else from the zone as it stands. */
  async function open(row: Row | undefined): Promise<void> {
    await ready?.();
    if (form.peek()) return;
    const fresh = row ? formOf(row, system()) : blankForm(system());
    const kept = await store.drafts.get<Draft>(key);
    if (form.peek()) return;
    resumed.value = kept !== undefined;
    // What another build kept may lack the newer ways of measuring.
    const whole = (one: ZoneForm | undefined): ZoneForm =>
      one ? { ...fresh, ...one, measures: { ...fresh.measures, ...one.measures } } : fresh;
    opened.value = whole(kept?.opened);
    form.value = whole(kept?.form);
  }

  function change(part: Partial<ZoneForm>): void {
    if (!form.value || !opened.value) return;
    form.value = { ...form.value, ...part };
    refused.value = {};
    void store.drafts
      .put(key, { form: form.value, opened: opened.value } satisfies Draft)
      .catch(() => undefined);
  }

  /** Throws the draft away; gives back what was written, for the undo (nothing where nothing was). */
  async function discard(row: Row | undefined): Promise<Draft | undefined> {
    const kept = await store.drafts.get<Draft>(key);
    await store.drafts.remove(key);
    const picture = kept && (await dropPicture(kept.form, kept.opened));
    form.value = row ? formOf(row, system()) : blankForm(system());
    opened.value = form.value;
    resumed.value = false;
    tried.value = false;
    refused.value = {};
    return kept && picture ? { ...kept, picture } : kept;
  }

  /** Removes a form's picture from the phone, unless the zone as it stands still uses it. */
  async function dropPicture(from: ZoneForm, still: ZoneForm): Promise<Draft["picture"]> {
    const id = from.measures.trace?.picture;
    if (!id || id === still.measures.trace?.picture) return undefined;
    const picture = await store.drafts.get<PlanPicture>(pictureKey(id));
    await store.drafts.remove(pictureKey(id));
    return picture && { id, picture };
  }

  /** Lays another picture under the trace, or none; gives back what was there, for the undo. */
  async function layPicture(trace: TraceForm, picture?: PlanPicture): Promise<() => Promise<void>> {
    const [now, was] = [form.value, opened.value];
    if (!now || !was) return async () => undefined;
    const before = now.measures.trace;
    if (trace.picture && picture) await store.drafts.put(pictureKey(trace.picture), picture);
    change({ measures: { ...now.measures, trace } });
    const dropped = trace.picture === before.picture ? undefined : await dropPicture(now, was);
    return () => layPicture(before, dropped?.picture).then(() => undefined);
  }

  /** What is wrong with the form as written, by field. */
  const formErrors = computed<Errors>(() => {
    const now = form.value;
    if (!now) return {};
    const found: Errors = { ...measured.value.errors };
    const groups = plainGroups(now, found);
    for (const [group, value] of Object.entries(groups))
      Object.assign(found, check("zone", group, value, system()), { ...found });
    return found;
  });

  /** The engine's own refusal, under the field it is about; "ground" where it is about the whole. */
  const refusal = computed(() => {
    const error = answer.value?.error;
    return error && form.value ? refusalOf(form.value.measures, error, system()) : undefined;
  });

  const errors = computed<Errors>(() => ({
    ...formErrors.value,
    ...(refusal.value ? { [refusal.value.field]: refusal.value.says } : {}),
    ...refused.value,
  }));

  /** The area of what is measured now, whatever the screen still shows. */
  async function measure(): Promise<AreaResult | undefined> {
    const { call: wanted, area_m2 } = measured.value;
    if (!wanted) return area_m2 === undefined ? undefined : { area_m2 };
    const got = await engine.call(wanted.name, wanted.args);
    if (got.error && form.value) {
      const { field, says } = refusalOf(form.value.measures, got.error, system());
      refused.value = { [field]: says };
    }
    return got.value as AreaResult | undefined;
  }

  /** The groups this person changed, each laid over what the record holds now. */
  function changed(
    now: ZoneForm,
    was: ZoneForm,
    row: Row | undefined,
    ground: object,
  ): Record<string, object> {
    const before = plainGroups(was, {});
    const set: Record<string, object> = {};
    for (const [group, value] of Object.entries(plainGroups(now, {}))) {
      const old = before[group] ?? {};
      const differs = needsMending(row, group) || JSON.stringify(value) !== JSON.stringify(old);
      if (differs || (!row && group === "name")) set[group] = over(row?.groups[group]?.value, old, value);
    }
    const typed = JSON.stringify(typedMeasures(now.measures));
    if (!row || needsMending(row, "ground") || typed !== JSON.stringify(typedMeasures(was.measures))) {
      // An outline drawn earlier stays where the new way of measuring brings none.
      set["ground"] = over(row?.groups["ground"]?.value, { area_sd_m2: 0 }, ground);
    }
    return set;
  }

  /** Saves what changed; undefined when something is wrong (the errors then say what). */
  async function save(row: Row | undefined): Promise<string | undefined> {
    tried.value = true;
    await allRead(() => formErrors.value);
    const [now, was] = [form.value, opened.value];
    if (!now || !was || saving.value || Object.keys(formErrors.value).length) return undefined;
    saving.value = true;
    try {
      const area = await measure();
      if (!area) return undefined;
      const drawn = row?.groups["ground"]?.value?.outline;
      const outline = outlineFound(now.measures, area, drawn);
      const ground = {
        area_m2: area.area_m2,
        ...given({ area_sd_m2: sdFound(now.measures, area), outline }),
        method: now.measures.method,
        measured: { ...measuring(measured.value.call), typed: keptMeasures(now.measures) },
      };
      refused.value = check("zone", "ground", ground, system());
      if (Object.keys(refused.value).length) return undefined;
      const zone = row?.id ?? store.newId();
      const set = changed(now, was, row, ground);
      if (Object.keys(set).length) await store.save([{ t: "zone", id: zone, set }]);
      // It is in the book: a draft that cannot be removed now is no reason to save it twice.
      await store.drafts.remove(key).catch(() => undefined);
      return zone;
    } finally {
      saving.value = false;
    }
  }

  return {
    form: form as ReadonlySignal<ZoneForm | undefined>,
    resumed,
    tried,
    saving,
    measured,
    answer,
    busy,
    refusal,
    errors,
    open,
    change,
    layPicture,
    measure,
    discard,
    save,
  };
}

export type ZoneEditor = ReturnType<typeof createZoneEditor>;
