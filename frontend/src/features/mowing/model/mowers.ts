/** Mowers: their notches as measured, their blade, and what is asked of the engine about them. */
import { computed } from "@preact/signals";
import type { Typed } from "../../../format";
import { dayOfMoment } from "../../../format/moment";
import { createRecordForm, type RecordParts } from "../../../forms/record-form";
import { type Recorded, recordGroups, recordRemoval } from "../../../forms/recorded";
import type { Args } from "../../../platform/engine/types";
import type { Row } from "../../../platform/store/types";
import { type Entry, given } from "../../../records/entries";
import { groupOf } from "../../../records/groups";
import type { MowerBlade, MowerDeck } from "../../../records/kinds.gen";
import { createHeightCheck } from "./height-check";
import { MOWER } from "./mower-form";

export interface Notch {
  label: string;
  measured_mm: number;
  measured_typed?: Typed;
}

export interface Mower extends Omit<MowerDeck, "notches">, MowerBlade {
  id: string;
  name: string;
  notches: readonly Notch[];
  row: Row;
}

export function mowerOf(row: Row): Mower {
  const { notches, ...deck } = groupOf("mower", row, "deck");
  return {
    ...deck,
    ...groupOf("mower", row, "blade"),
    id: row.id,
    name: groupOf("mower", row, "name").name ?? "Unnamed mower",
    notches: (notches ?? []) as readonly Notch[],
    row,
  };
}

type NotchRows = Args<"mowing.notch">["notches"];

/** Its notches as the engine takes them. */
export const notchRows = ({ notches }: Mower): NotchRows =>
  notches.map(({ label, measured_mm }) => ({ name: label, notch_mm: measured_mm }));

/** What a mower can be set to, where that is on record: a call's own words for it. */
export function reachOf(mower: Mower | undefined): { highest_mm?: number; notches?: NotchRows } {
  if (!mower) return {};
  const rows = notchRows(mower);
  const tallest = [...rows].sort((a, b) => b.notch_mm - a.notch_mm)[0];
  return {
    ...given({ highest_mm: tallest?.notch_mm ?? mower.highest_mm }),
    ...(tallest ? { notches: rows } : {}),
  };
}

/** As many as the engine adds up. */
const MOST_MOWS = 5000;

/** What is asked about its blade: every mow that names it and, where it is the only mower, those that name none. */
export function sharpenArgs(
  mower: Mower,
  mows: readonly Entry[],
  only: boolean,
  today: string,
): Args<"mowing.sharpen"> {
  const its = mows.filter(({ body }) => (body["mower_id"] ? body["mower_id"] === mower.id : only));
  return {
    mows: its.slice(0, MOST_MOWS).map(({ at, body }) => ({
      date: dayOfMoment(at),
      ...given({ minutes: body["minutes"] as number | undefined }),
    })),
    today,
    ...given({ sharpened: mower.sharpened_on, hours_between: mower.hours_between }),
  };
}

const byName = (a: Mower, b: Mower) => a.name.localeCompare(b.name) || (a.id < b.id ? -1 : 1);

export interface MowersParts extends RecordParts {
  day: () => string;
}

export function createMowers(parts: MowersParts) {
  const { store, day } = parts;
  const all = computed(() => store.rows("mower").value.map(mowerOf).sort(byName));
  return {
    all,
    loaded: store.loaded("mower"),
    row: (id: string) => store.row("mower", id),
    named: (id: unknown) => all.value.find((one) => one.id === id),
    editor: (id: string | null) => createRecordForm(parts, MOWER, id),
    heightCheck: (mower: Mower) => createHeightCheck(parts, mower),
    /** The day is set; what else is said of the blade stays. */
    sharpened({ row, id }: Mower): Promise<Recorded> {
      const blade = { ...groupOf("mower", row, "blade"), sharpened_on: day() };
      return recordGroups(store, "mower", { id, row }, { blade });
    },
    takeOut: (id: string) => recordRemoval(store, "mower", id),
  };
}

export type MowersModel = ReturnType<typeof createMowers>;
export type MowerEditor = ReturnType<MowersModel["editor"]>;
