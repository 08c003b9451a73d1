/** What earlier mows tell the next one: the last cut of a zone, the way it was walked, with which mower. */
import { computed } from "@preact/signals";
import { daysBetween } from "../../../format";
import type { Store } from "../../../platform/store/types";
import { type Entry, instantOf } from "../../../records/entries";
import { standingIn } from "../../../records/log/read";

export const DIRECTIONS = {
  lengthwise: "Lengthwise",
  crosswise: "Crosswise",
  diagonal: "Diagonal",
  diagonal_back: "Other diagonal",
} as const;

export type Direction = keyof typeof DIRECTIONS;

const TURN = Object.keys(DIRECTIONS) as readonly Direction[];

/** Each mow another way than the last: grass that is always walked one way leans, and wheels wear tracks. */
export function nextDirection(last: unknown): Direction | undefined {
  const at = TURN.indexOf(last as Direction);
  return at < 0 ? undefined : TURN[(at + 1) % TURN.length];
}

export function createMows({ store }: { store: Pick<Store, "rows" | "loaded"> }) {
  /** Those that stand, the latest first. */
  const all = computed(() =>
    standingIn(store, "mow")
      .filter(({ sick }) => !sick.length)
      .sort((a, b) => instantOf(b) - instantOf(a) || (a.id < b.id ? 1 : -1)),
  );
  /** Heights read without a cut, the latest first. */
  const looks = computed(() =>
    standingIn(store, "reading")
      .filter(({ body }) => body["height_mm"] !== undefined)
      .sort((a, b) => instantOf(b) - instantOf(a)),
  );
  const latest = (zoneIds: readonly string[], has: (mow: Entry) => boolean): Entry | undefined =>
    all.value.find((mow) => mow.zoneIds.some((id) => zoneIds.includes(id)) && has(mow));
  const says = (field: string) => (mow: Entry) => mow.body[field] !== undefined;
  return {
    all,
    looks,
    loaded: store.loaded("entry"),
    /** Of a zone: the last mow, if that one's height is on record. */
    lastCut(zoneId: string): Entry | undefined {
      const last = latest([zoneId], () => true);
      return last?.body["cut_height_mm"] === undefined ? undefined : last;
    },
    /** What a ruler said of all these zones since their last mow, on this day or the one before. */
    lookAt(zoneIds: readonly string[], today: string): Entry | undefined {
      const found = looks.value.find(
        (one) => zoneIds.length && zoneIds.every((id) => one.zoneIds.includes(id)),
      );
      if (!found || daysBetween(found.at, today) > 1) return undefined;
      const mowedAt = latest(zoneIds, () => true);
      return mowedAt && instantOf(mowedAt) >= instantOf(found) ? undefined : found;
    },
    lastSaying: (zoneIds: readonly string[], field: string) => latest(zoneIds, says(field)),
    /** Of any zone. */
    lastOf: (field: string) => all.value.find(says(field)),
  };
}

export type MowsModel = ReturnType<typeof createMows>;
