/** What a job looks at: its draft, the book's facts about it, and the engine's figures while a screen shows them. */
import { computed } from "@preact/signals";
import type { System } from "../../../format";
import { ask, type Engine } from "../../../platform/engine/ask";
import type { Args } from "../../../platform/engine/types";
import type { Row, Store } from "../../../platform/store/types";
import { given, isAhead } from "../../../records/entries";
import { rulesArgs } from "../../../records/limits/rules";
import { followed, type Sky } from "../../../records/limits/sky";
import { entriesIn } from "../../../records/log/read";
import { historyRows } from "../../../records/pass-history";
import { productOf, spreaderOf } from "../../../records/products";
import { createTotals, type TotalsSignal } from "../../../records/totals";
import { aimArgs, type Choice, expectedArgs, hopperArgs, nextArgs, startArgs } from "./asks";
import { beforeArgs, choiceCeilings } from "./before/before";
import { brokenArgs, brokenBy, warningsHere } from "./before/broken";
import { followBurns } from "./before/burn";
import { cautionsAfter, cautionsBefore } from "./before/cautions";
import { checkLoad } from "./before/plan";
import { leavesOut, setbackArgs, treated } from "./before/setback";
import { warningsFor } from "./before/warnings";
import type { Keeper } from "./draft-store";
import { passesOf, standsAt } from "./steps";
import { finishArgs, levelArgs as levelNowArgs, type StandingValue, standingArgs } from "./sums";
import type { LeftForm, SpreadDraft, SpreadStep, SpreadZone } from "./types";
import { answered } from "./yard/answered";
import { checkArgs, type ReadLook, readLook } from "./yard/check";
import { densityOf, type LeftContext, type ReadLeft, readLeft } from "./yard/left";
import { standing } from "./yard/rows";

export interface SpreadParts {
  store: Store;
  engine: Engine;
  /** Now, as the book writes a moment. */
  now: () => string;
  memberId: () => string | undefined;
  system: () => System;
  /** Resolves when `system` is the person's own; at once where none is handed in. */
  ready?: () => Promise<void>;
  /** What the log adds up to, shared by the places; its own where none is given. */
  totals?: TotalsSignal;
  /** Waits a moment after a count; a timer where none is handed in. */
  rest?: (over: () => void) => void;
  /** Where the household is kept; without it the strictest rules hold. */
  household?: () => string | undefined;
  /** Days of weather, fetched with their code; none where none is handed in. */
  weather?: () => Promise<Sky>;
}

function areaOf(value: any): number {
  return typeof value?.area_m2 === "number" ? value.area_m2 : 0;
}

function zoneOf(row: Row): SpreadZone {
  const of = (group: string): Record<string, any> => row.groups[group]?.value ?? {};
  const ground = of("ground");
  const { grass } = of("grass");
  const { heading_deg } = of("strips");
  const { sun, near_water, water_edge_m, setback_m } = of("site");
  return {
    id: row.id,
    name: String(row.groups["name"]?.value?.name ?? "Unnamed zone"),
    area_m2: areaOf(ground),
    ...given({ grass, heading_deg, sun, near_water, water_edge_m, setback_m }),
    ...given({ outline: ground?.outline, water_edges: ground?.water_edges }),
  } as SpreadZone;
}

/** All that is seen of a job: the draft, the book's facts about it, and what the engine says. */
export function watchJob({ store, engine, now }: SpreadParts, { draft }: Keeper) {
  const entries = entriesIn(store);
  const products = computed(() => store.rows("product").value.map(productOf));
  const spreaders = computed(() => store.rows("spreader").value.map(spreaderOf));
  const zones = computed<SpreadZone[]>(() => store.rows("zone").value.map(zoneOf));
  const chosen = computed(() =>
    (draft.value?.zone_ids ?? []).flatMap((id) => zones.value.find((zone) => zone.id === id) ?? []),
  );
  const spreader = computed(() => spreaders.value.find(({ id }) => id === draft.value?.spreader_id));
  const setback = ask(engine, "limits.setback", () => setbackArgs(chosen.value, spreader.value), {
    forget: true,
  });
  /** The zones to treat; none while the engine has not yet said what stays clear of water. */
  const toTreat = computed(() => {
    if (!leavesOut(chosen.value)) return chosen.value;
    const told = setback.value?.value;
    return told ? treated(chosen.value, told) : undefined;
  });
  const together = ask(
    engine,
    "area.total",
    () => (toTreat.value ? { zones: toTreat.value.map(({ id, area_m2 }) => ({ id, area_m2 })) } : null),
    { forget: true },
  );
  /** The ground to treat. Its area is nothing while the engine has not yet said it. */
  const choice = computed<Choice>(() => {
    const product = products.value.find(({ id }) => id === draft.value?.product_id);
    const area_m2 = (toTreat.value && together.value?.value?.area_m2) ?? 0;
    return { zones: toTreat.value ?? chosen.value, area_m2, ...given({ product, spreader: spreader.value }) };
  });
  /** The same for what is written down at once, whoever looks. */
  async function choiceNow(): Promise<Choice> {
    if (!toTreat.value) return choice.value;
    const zones = toTreat.value.map(({ id, area_m2 }) => ({ id, area_m2 }));
    const { value } = await engine.call("area.total", { zones });
    return { ...choice.value, area_m2: value?.area_m2 ?? 0 };
  }
  const passes = computed(() => (draft.value ? passesOf(draft.value.id, entries.value) : []));
  const walked = computed(() =>
    entries.value.find((entry) => entry.kind === "spread" && entry.id === draft.value?.id && !entry.struck),
  );
  const finished = computed(() => walked.value !== undefined);
  const finishedAt = computed(() => walked.value?.at);
  /** Past passes with the way back to their entries; `history` is the same as the engine takes it. */
  const pastRows = computed(() => {
    const spreader = choice.value.spreader;
    return spreader ? historyRows(spreader.id, draft.value?.plan?.dial ?? spreader.dial, entries.value) : [];
  });
  const history = computed(() => pastRows.value.map(({ past }) => past));
  const step = computed<SpreadStep | null>(() =>
    draft.value ? standsAt(draft.value, passes.value, finished.value) : null,
  );
  /** Whether a chosen zone's site says so. */
  const site = (says: (site: any) => boolean) =>
    store
      .rows("zone")
      .value.some((row) => draft.value?.zone_ids.includes(row.id) && says(row.groups["site"]?.value));
  const near_water = computed(() => site((at) => at?.near_water === true));
  const steep = computed(() => site((at) => at?.slope === "steep"));
  const cautions = computed(() =>
    cautionsBefore(choice.value.product, { near_water: near_water.value, steep: steep.value }),
  );
  const cleanUp = computed(() => cautionsAfter(choice.value.product));
  const warnings = computed(() =>
    choice.value.product
      ? warningsFor(
          choice.value.zones,
          entries.value.filter((entry) => !isAhead(entry, now())),
          now(),
        )
      : [],
  );
  const read = {
    draft,
    entries,
    products,
    spreaders,
    zones,
    choice,
    choiceNow,
    setback,
    passes,
    finished,
    finishedAt,
    history,
    pastRows,
    step,
  };
  return { ...read, near_water, cautions, cleanUp, warnings, engine };
}

export type Watched = ReturnType<typeof watchJob>;

/** The engine's figures for the job, each followed only while a screen shows it. */
export function askJob(
  { draft, choice, history, passes, entries, products, setback, engine }: Watched,
  { store, system, now, memberId, totals: shared, household, weather }: SpreadParts,
) {
  const aim = ask(engine, "label.aim", () => (draft.value ? aimArgs(draft.value, choice.value) : null));
  const load = computed(() => checkLoad(draft.value, aim.value?.value, system()));
  const loadRate = ask(engine, "label.rate", () => {
    const kg = load.value.kg;
    return kg && choice.value.area_m2 > 0 ? { net_kg: kg, coverage_m2: choice.value.area_m2 } : null;
  });
  const start = ask(engine, "spreading.start", () =>
    startArgs(choice.value, loadRate.value?.value?.rate_kg_m2, draft.value?.passes ?? null, history.value),
  );
  /** Whether the start dial is still that to an older aim or load: each of the three rests on the one before. */
  const startBusy = computed(() => {
    void start.value;
    return aim.busy.value || loadRate.busy.value || start.busy.value;
  });
  const full = ask(engine, "hopper.mass", () =>
    hopperArgs(choice.value.spreader?.hopper, choice.value.product?.bulk_density_kg_m3, 1),
  );
  /** How often the hopper is filled for all of it, and what it holds then. */
  const capacity = computed(() => full.value?.value?.capacity_kg ?? choice.value.spreader?.holds_kg);
  const fills = ask(engine, "hopper.fills", () => {
    const [mass_kg, capacity_kg] = [aim.value?.value?.mass_kg, capacity.value];
    return mass_kg === undefined || !capacity_kg ? null : { mass_kg, capacity_kg };
  });
  const level = ask(engine, "hopper.mass", () =>
    draft.value ? levelArgs(draft.value, choice.value, draft.value.left) : null,
  );
  const standsAsk = () => {
    const plan = draft.value?.plan;
    return plan ? standingArgs(plan, passes.value) : null;
  };
  /** The sums of the job so far. */
  const stands = ask(engine, "spread.standing", standsAsk, { forget: true });
  /** The same for what is written down or asked at once. */
  async function standsNow(): Promise<StandingValue | undefined> {
    const args = standsAsk();
    return args ? (await engine.call("spread.standing", args)).value : undefined;
  }
  /** Passes still to walk; undefined while the engine has not said. */
  const toGo = computed(() => stands.value?.value?.passes_to_go);
  const next = ask(
    engine,
    "spreading.next",
    () => nextArgs(draft.value, passes.value, stands.value?.value, history.value),
    { forget: true },
  );
  // The cards between two passes and at the end: what stood there of the pass or the job before is not shown again.
  const wholeAsk = () => {
    const plan = draft.value?.plan;
    return plan ? finishArgs(plan, passes.value) : null;
  };
  const whole = ask(engine, "spread.finish", wholeAsk, { forget: true });
  const againAsk = () => {
    const plan = draft.value?.plan;
    return plan ? startArgs(choice.value, plan.target_kg_m2, plan.passes, history.value) : null;
  };
  const again = ask(engine, "spreading.start", againAsk, { forget: true });
  const limits = ask(engine, "limits.ceilings", () => choiceCeilings(choice.value));
  /** What speaks against the job as it is chosen: what would clash once it stands in the log. */
  const before = ask(engine, "record.before", () =>
    beforeArgs({
      choice: choice.value,
      aim: aim.value?.value,
      entries: entries.value,
      products: products.value,
      limits: limits.value?.value,
      now: now(),
      me: memberId(),
    }),
  );
  const sky = followed(weather);
  const days = computed(() => sky.value?.value);
  const rulesAsk = () => {
    const id = household?.();
    return rulesArgs(id ? store.row("household", id).value : undefined, store.rows("zone").value);
  };
  const rules = ask(engine, "limits.rules", () => (draft.value ? rulesAsk() : null), { keep: true });
  const checkingNow = (at: string) => ({
    ...{ choice: choice.value, entries: entries.value, products: products.value, days: days.value },
    ...{ zones: store.rows("zone").value, setback: setback.value?.value, today: at.slice(0, 10) },
  });
  const rulesChecked = ask(engine, "limits.check", () =>
    brokenArgs({ ...checkingNow(now()), aim: aim.value?.value, rules: rules.value?.value }),
  );
  /** What speaks against the job, each thing once: the log's warnings, and the rules that it would break. */
  const stops = computed(() => {
    const [found, checked] = [before.value, rulesChecked.value];
    const refused = found?.error ?? checked?.error ?? rules.value?.error;
    if (refused) return { error: refused, warnings: found?.value?.warnings ?? [], broken: [] };
    if (!found?.value || !checked?.value) return undefined;
    const warnings = warningsHere(found.value.warnings, rules.value?.value);
    return { error: undefined, warnings, broken: brokenBy(checked.value.breaches, warnings) };
  });
  /** Whether it can burn; asked of what brings nitrogen, or may. */
  const burns = followBurns(engine, () => {
    const [{ product, zones }, { n_kg_m2 } = {}] = [choice.value, aim.value?.value];
    if (product?.sort !== "fertilizer" || n_kg_m2 === undefined) return null;
    const job = {
      product: product.id,
      ...given({ slow_n_share: product.slow_n_share, source: product.source, n_kg_m2 }),
    };
    const { entries: log, days: sky, zones: rows, today } = checkingNow(now());
    const zoneIds = zones.map(({ id }) => id);
    return { job, zoneIds, zones: rows, entries: log, days: sky, rules: rulesAsk(), today };
  });
  const expected = ask(engine, "hopper.level", () =>
    expectedArgs(draft.value?.plan ?? null, draft.value?.pass ?? null, choice.value.spreader?.hopper),
  );
  const contextNow = (): LeftContext | null => {
    const { plan, pass } = draft.value ?? {};
    const hopper = choice.value.spreader?.hopper;
    return plan && pass ? { plan, pass, hopper, system: system() } : null;
  };
  /** What of the pass a reading depends on; the rows themselves are looked up when it is read. */
  const ofPass = () => {
    const { id, done, dial, start_kg, added_kg, part } = draft.value?.pass ?? {};
    return { id, done, dial, start_kg, added_kg, part, rows: draft.value?.pass?.rows.length };
  };
  const reading = answered<ReadLeft>(
    () => (draft.value?.pass ? { form: draft.value.left, ...ofPass() } : null),
    async () => {
      const context = contextNow();
      return context && draft.value ? readLeft(engine.call, draft.value.left, context) : undefined;
    },
  );
  const look = answered<ReadLook>(
    () => (draft.value?.pass ? { form: draft.value.check, strips: draft.value.strips, ...ofPass() } : null),
    async () => {
      const context = contextNow();
      if (!context || !draft.value) return undefined;
      return readLook(engine.call, draft.value.check, context, draft.value);
    },
  );
  const checkAsk = () => {
    const { plan, pass } = draft.value ?? {};
    const seen = look.value;
    // What was read of an older entry must not lead to a setting while the newer one is being read.
    const sums = stands.value?.value;
    if (!plan || !pass || !sums || !seen?.ok || look.busy.value) return null;
    return checkArgs(plan, pass, seen.look, sums, history.value, passes.value);
  };
  const checked = ask(engine, "spreading.check", checkAsk, { forget: true });
  const checkLevel = ask(engine, "hopper.mass", () =>
    draft.value ? levelArgs(draft.value, choice.value, draft.value.check) : null,
  );
  const inHopper = ask(engine, "spread.standing", () => {
    const context = contextNow();
    if (!context) return null;
    const { plan, pass, hopper } = context;
    return levelNowArgs(plan, pass, { hopper, expected_kg: standing(plan, pass).expected_kg });
  });
  /** Where the product should stand in the hopper by now; nothing where it cannot, so that some is in the bag. */
  const levelNow = computed(() => {
    const { hopper_kg = null, level_share = null } = inHopper.value?.value ?? {};
    return hopper_kg === null || level_share === null ? undefined : { hopper_kg, level_share };
  });
  const day = () => now().slice(0, 10);
  const totals = shared ?? createTotals({ store, engine, day });
  /** What the shed holds of the product by the last count, kg; null where it was never counted. */
  const inShed = computed(
    () => totals.value?.value?.products[draft.value?.product_id ?? ""]?.left_kg ?? null,
  );
  /** Whether what the load page says of shed and hopper is there; a question not asked is not waited for. */
  const loadSeen = computed(() => {
    const { spreader, product } = choice.value;
    const holds = !spreader?.hopper || !product?.bulk_density_kg_m3 || full.value !== undefined;
    return holds && totals.value !== undefined;
  });
  const figures = {
    aim,
    load,
    loadRate,
    start,
    startBusy,
    full,
    capacity,
    fills,
    level,
    toGo,
    next,
    whole,
    again,
    before,
    rulesChecked,
    stops,
    burns,
    expected,
    inShed,
    loadSeen,
  };
  return { ...figures, rulesAsk, checkingNow, standsNow, reading, look, checked, checkLevel, levelNow };
}

export type Asked = ReturnType<typeof askJob>;

/** What `hopper.mass` needs for a drawn level. */
export function levelArgs(
  { plan }: Pick<SpreadDraft, "plan">,
  choice: Choice,
  form: LeftForm,
): Args<"hopper.mass"> | null {
  if (!plan) return null;
  const density = densityOf(form, plan);
  return hopperArgs(choice.spreader?.hopper, "si" in density ? density.si : undefined, form.level_share);
}
