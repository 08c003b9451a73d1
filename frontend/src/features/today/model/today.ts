/** Today: what is due, one-tap mowing with a way back, and what still waits to be sent. */
import { computed, signal } from "@preact/signals";
import type { Recorded } from "../../../forms/recorded";
import { createStill } from "../../../forms/still";
import { ask } from "../../../platform/engine/ask";
import type { Args, EngineCall, Step, Value } from "../../../platform/engine/types";
import type { Row, Store } from "../../../platform/store/types";

import { createWriting, type NewEntry } from "../../../records/log/writing";
import type { Due, DueZone, Evening, Has, Look } from "../../../records/look";
import { dueAsked } from "../../../records/mowing/due";
import { whyDue } from "../../../records/mowing/said";
import { createTotals, type TotalsSignal } from "../../../records/totals";
import type { ForecastModel } from "../../mowing";

export type { Due, DueZone };

type Forecast = Pick<ForecastModel, "evening" | "worked" | "eveningOf">;

export interface TodayParts {
  store: Store;
  engine: { call: EngineCall };
  /** The local day, "2026-05-09"; a signal's value where it should be followed. */
  day: () => string;
  /** Now, as the book writes a moment. */
  now: () => string;
  memberId: () => string | undefined;
  /** What the log adds up to, shared by the places; its own where none is given. */
  totals?: TotalsSignal;
  /** Today as it was last shown on this phone, until the engine has spoken. */
  kept?: () => Look | undefined;
  /** Fetches the code of the forecast; none in a test that is not about it. */
  openForecast?: () => Promise<ForecastModel>;
}

const URGENCY = { overdue: 0, due: 1, never: 2, ok: 3 } as const;

function zoneName(row: Row): string {
  return String(row.groups["name"]?.value?.name ?? "Unnamed zone");
}

/** Those that want a mow first; of those with a forecast the neediest, as the engine has them. */
function inOrder(one: DueZone, other: DueZone): number {
  const wanting = Number(one.state === "ok") - Number(other.state === "ok");
  if (wanting || (one.mow && other.mow)) return wanting || (one.mow?.at ?? 0) - (other.mow?.at ?? 0);
  return (
    URGENCY[one.state] - URGENCY[other.state] ||
    other.overdue_days - one.overdue_days ||
    one.name.localeCompare(other.name) ||
    one.id.localeCompare(other.id)
  );
}

/** Where a forecast is behind a zone, it says whether it wants a mow; else the days since its last one do. */
function forecastOf(zone: DueZone, evening: Evening | undefined): DueZone {
  const mow = evening?.zones[zone.id];
  if (mow?.known !== "forecast") return zone;
  return { ...zone, state: mow.due ? "due" : "ok", due_on: mow.mow_by, mow };
}

export function createToday({
  store,
  engine,
  day,
  now,
  memberId,
  totals = createTotals({ store, engine, day }),
  kept = () => undefined,
  openForecast,
}: TodayParts) {
  const zones = store.rows("zone");
  const products = store.rows("product");
  const spreaders = store.rows("spreader");
  const loaded = store.loaded("zone");
  const allLoaded = [loaded, store.loaded("product"), store.loaded("spreader")];

  function dueArgs(on: string): Args<"record.due"> | null {
    const known = totals.value?.value;
    if (!known || !loaded.value) return null;
    return dueAsked(zones.value, known, on);
  }

  const due = ask(engine, "record.due", () => dueArgs(day()));

  /** What the forecast says, where its code is there; `failed` where it could not be read. */
  const forecast = signal<Forecast | "failed" | undefined>(undefined);
  const model = computed(() => (forecast.value === "failed" ? undefined : forecast.value));
  const working = computed(() => {
    const now = model.value;
    return now ? (now.worked.value?.error ?? now.evening.value) : undefined;
  });
  /** Why zones are due: of one with a forecast by that, of the others by the days since their last mow. */
  const why = computed<readonly Step[]>(() => {
    const said = model.value?.worked.value?.working ?? [];
    const night = model.value?.evening.value?.working ?? [];
    const foretold = new Set<string | undefined>(dueZones.value.filter(({ mow }) => mow).map(({ id }) => id));
    const byDays = (due.value?.working ?? []).filter(({ of }) => !foretold.has(of));
    return foretold.size ? [...whyDue(night, said, foretold), ...byDays] : byDays;
  });
  /** It has not spoken yet. Only while there are zones: of none it says nothing. */
  const awaited = computed(
    () =>
      openForecast !== undefined && forecast.value !== "failed" && zones.value.length > 0 && !working.value,
  );
  const unsettled = computed(() => {
    const now = model.value;
    return awaited.value || (now !== undefined && (now.worked.busy.value || now.evening.busy.value));
  });

  /** Fetches the code of the forecast, once; the day's list goes by days until it has come. */
  async function lookAhead(): Promise<void> {
    if (!openForecast || model.peek()) return;
    try {
      forecast.value = await openForecast();
    } catch {
      forecast.value = "failed";
    }
  }

  function zonesDue(answer: Value<"record.due"> | undefined, evening?: Evening): DueZone[] {
    return zones.value
      .flatMap((row) => {
        const said = answer?.zones[row.id];
        if (!said) return [];
        const lastMow = totals.value?.value?.zones[row.id]?.last_mow ?? null;
        return [forecastOf({ ...said, id: row.id, name: zoneName(row), lastMow }, evening)];
      })
      .sort(inOrder);
  }

  /** What stands on the screen from before; undefined once the engine has spoken, or where nothing was kept for this day. */
  const look = computed<Look | undefined>(() => {
    if ((due.value && !awaited.value) || totals.value?.error) return undefined;
    const from = kept();
    return from?.days[day()] ? from : undefined;
  });

  /** The evening as it is shown: kept, or worked out by now. */
  const evening = computed<Evening | undefined>(() =>
    look.value ? look.value.evenings?.[day()] : model.value?.evening.value?.value,
  );

  const dueZones = computed<readonly DueZone[]>(() => {
    if (look.value) return look.value.days[day()] ?? [];
    return awaited.value ? [] : zonesDue(due.value?.value, evening.value);
  });

  /** What is set up, as far as it is known. */
  const has = computed<Has | undefined>(() => {
    if (!allLoaded.every((one) => one.value)) return look.value?.has;
    const some = (rows: { value: readonly Row[] }) => rows.value.length > 0;
    return { zones: some(zones), products: some(products), spreaders: some(spreaders) };
  });

  /** The list as it is drawn: it keeps still under a thumb after each tap. */
  const still = createStill(dueZones, undefined, () => look.value !== undefined);

  /** Writes an entry; the list keeps still under the thumb that did, and that takes it back. */
  async function add(entry: NewEntry): Promise<Recorded> {
    still.hold();
    const noted = await createWriting({ store, now, memberId }).add(entry);
    still.hold();
    return { ...noted, back: () => held(noted.back) };
  }

  function held<V>(work: () => Promise<V>): Promise<V> {
    still.hold();
    return work();
  }

  return {
    zones,
    loaded,
    look,
    has,
    totals,
    due,
    why,
    evening,
    unsettled,
    lookAhead,
    /** The evening of a day to come, as the engine has it if nothing is logged. */
    eveningOn: async (on: string) => {
      const worked = model.value?.worked.value?.value;
      return worked && (await model.value?.eveningOf(worked, on))?.value;
    },
    dueArgs,
    dueZones,
    zonesDue,
    still,
    products,
    spreaders,
    wanting: computed(() => dueZones.value.filter((zone) => zone.state !== "ok")),
    add,
    mow: (zoneIds: readonly string[]) => add({ kind: "mow", facts: {}, zoneIds }),
  };
}

export type TodayModel = ReturnType<typeof createToday>;
