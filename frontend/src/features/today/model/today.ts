/** Today: what is due, one-tap mowing with a way back, and what still waits to be sent. */
import { computed } from "@preact/signals";
import { createStill } from "../../../forms/still";
import { ask } from "../../../platform/engine/ask";
import type { EngineCall } from "../../../platform/engine/types";
import type { Row, Store } from "../../../platform/store/types";
import { entryOf, given } from "../../../records/entries";
import { createTotals, type TotalsSignal } from "../../../records/totals";

export interface Due {
  due_on: string | null;
  overdue_days: number;
  state: "never" | "ok" | "due" | "overdue";
}

export interface DueZone extends Due {
  id: string;
  name: string;
  lastMow: string | null;
}

/** What a mow may say beyond "it was mowed"; nothing here is filled in for the person. */
export interface MowDetails {
  occurred_at?: string | undefined;
  cut_height_mm?: number | undefined;
  height_before_mm?: number | undefined;
  clippings?: string | undefined;
  note?: string | undefined;
}

/** What it takes to take a mow back. */
export interface Noted {
  op: string;
  id: string;
}

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
}: TodayParts) {
  const zones = store.rows("zone");
  const entries = computed(() => store.rows("entry").value.map(entryOf));

  const due = ask<{ zones: Record<string, Due> }>(engine, "record.due", () => {
    const known = totals.value?.value;
    if (!known) return null;
    return {
      zones: zones.value.map((row) => ({
        id: row.id,
        last_mow: known.zones[row.id]?.last_mow ?? null,
        ...given({
          mow_every_days: row.groups["cut"]?.value?.mow_every_days,
        }),
      })),
      today: day(),
    };
  });

  const dueZones = computed<DueZone[]>(() =>
    zones.value
      .flatMap((row) => {
        const said = due.value?.value?.zones[row.id];
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
      .sort(inOrder),
  );

  /** The list as it is drawn: it keeps still under a thumb after each tap. */
  const still = createStill(dueZones);

  async function mow(zoneIds: readonly string[], details: MowDetails = {}): Promise<Noted> {
    const id = store.newId();
    still.hold();
    const { note, occurred_at, ...facts } = details;
    const body = given({ kind: "mow", occurred_at: occurred_at ?? now(), by: memberId(), ...facts });
    const { op } = await store.save([
      {
        t: "entry",
        id,
        body: { ...body, zone_ids: [...zoneIds] },
        ...(note?.trim() ? { set: { note: { note } } } : {}),
      },
    ]);
    still.hold();
    return { op, id };
  }

  /** Takes the entry back out of the outbox; when it has already gone, strikes it out for everybody. */
  async function undo({ op, id }: Noted): Promise<void> {
    still.hold();
    if (await store.withdraw(op)) return;
    await store.save([
      {
        t: "entry",
        id,
        set: { void: { void: true, why: "Undone at once", by: memberId() ?? null, at: now() } },
      },
    ]);
  }

  return {
    zones,
    loaded: store.loaded("zone"),
    totals,
    due,
    dueZones,
    still,
    products: store.rows("product"),
    spreaders: store.rows("spreader"),
    wanting: computed(() => dueZones.value.filter((zone) => zone.state !== "ok")),
    waiting: computed(() => entries.value.filter((entry) => entry.pending && !entry.struck)),
    latest: computed(() => entries.value.filter((entry) => !entry.struck).slice(0, 3)),
    mow,
    undo,
  };
}

export type TodayModel = ReturnType<typeof createToday>;
