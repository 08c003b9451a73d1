/** Today: what is due, one-tap mowing with a way back, and what still waits to be sent. */
import { computed } from "@preact/signals";
import type { Recorded } from "../../../forms/recorded";
import { createStill } from "../../../forms/still";
import { ask } from "../../../platform/engine/ask";
import type { Args, EngineCall, Value } from "../../../platform/engine/types";
import type { Row, Store } from "../../../platform/store/types";
import { given } from "../../../records/entries";
import { createWriting, type NewEntry } from "../../../records/log/writing";
import type { Due, DueZone, Has, Look } from "../../../records/look";
import { createTotals, type TotalsSignal } from "../../../records/totals";

export type { Due, DueZone };

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
}

const URGENCY = { overdue: 0, due: 1, never: 2, ok: 3 } as const;

function zoneName(row: Row): string {
  return String(row.groups["name"]?.value?.name ?? "Unnamed zone");
}

function inOrder(one: DueZone, other: DueZone): number {
  return (
    URGENCY[one.state] - URGENCY[other.state] ||
    other.overdue_days - one.overdue_days ||
    one.name.localeCompare(other.name) ||
    one.id.localeCompare(other.id)
  );
}

export function createToday({
  store,
  engine,
  day,
  now,
  memberId,
  totals = createTotals({ store, engine, day }),
  kept = () => undefined,
}: TodayParts) {
  const zones = store.rows("zone");
  const products = store.rows("product");
  const spreaders = store.rows("spreader");
  const loaded = store.loaded("zone");
  const allLoaded = [loaded, store.loaded("product"), store.loaded("spreader")];

  function dueArgs(on: string): Args<"record.due"> | null {
    const known = totals.value?.value;
    if (!known || !loaded.value) return null;
    return {
      zones: zones.value.map((row) => ({
        id: row.id,
        last_mow: known.zones[row.id]?.last_mow ?? null,
        ...given({
          mow_every_days: row.groups["cut"]?.value?.mow_every_days,
        }),
      })),
      today: on,
    };
  }

  const due = ask(engine, "record.due", () => dueArgs(day()));

  function zonesDue(answer: Value<"record.due"> | undefined): DueZone[] {
    return zones.value
      .flatMap((row) => {
        const said = answer?.zones[row.id];
        if (!said) return [];
        return [
          {
            ...said,
            id: row.id,
            name: zoneName(row),
            lastMow: totals.value?.value?.zones[row.id]?.last_mow ?? null,
          },
        ];
      })
      .sort(inOrder);
  }

  /** What stands on the screen from before; undefined once the engine has spoken, or where nothing was kept for this day. */
  const look = computed<Look | undefined>(() => {
    if (due.value || totals.value?.error) return undefined;
    const from = kept();
    return from?.days[day()] ? from : undefined;
  });

  const dueZones = computed<readonly DueZone[]>(() => look.value?.days[day()] ?? zonesDue(due.value?.value));

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
