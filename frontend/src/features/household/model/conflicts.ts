/**
 * What two phones wrote apart (S2): one write stands, the others were kept. A matter is one group of one record,
 * however many wrote it; it is settled by writing either side again, which every phone then hears of. Offline too.
 */
import { computed } from "@preact/signals";
import { recordGroups } from "../../../forms/recorded";
import { isAfter } from "../../../platform/store/core/hlc";
import type { Row, Store } from "../../../platform/store/types";
import { ownFields } from "../../../records/kinds";

interface Lost {
  value: Record<string, unknown>;
  version: string | null;
  hlc?: string;
  by?: string | null;
  /** Who wrote what won; absent from older servers. */
  won_by?: string | null;
}

export interface Other {
  /** Of the conflict record. */
  id: string;
  value: Record<string, unknown>;
  by: string | undefined;
  hlc: string | undefined;
}

export interface Matter {
  key: string;
  t: string;
  recordId: string;
  group: string;
  record: Row;
  /** What stands; undefined where a deletion met an edit of another group. */
  standing: Record<string, unknown> | undefined;
  by: string | undefined;
  hlc: string | undefined;
  others: Other[];
  /** Edit against delete: the record was kept; these groups were what the edit wrote. */
  edited: string[];
}

interface Written {
  id: string;
  t: string;
  recordId: string;
  group: string;
  lost: Lost;
  won: string;
  record: Row;
}

function writtenOf(row: Row, store: Store): Written[] {
  const { t, id, group, lost, won } = row.body ?? {};
  const record = t && id && group && lost?.value ? store.row(t, id).value : undefined;
  if (!record) return [];
  const kept = { ...lost, value: ownFields(t, group, lost.value).fields };
  return [{ id: row.id, t, recordId: id, group, lost: kept, won, record }];
}

/**
 * Open while what won still stands, or lost in its turn to something that does: then nobody has chosen yet. A
 * deletion that lost to an edit of another group is open until the record's own `deleted` is written after it.
 */
function openOnes(all: readonly Written[]): Written[] {
  const [first] = all;
  if (!first) return [];
  const state = first.record.groups[first.group];
  const open = new Set<Written>();
  const stand = new Set<string | null>(state ? [state.version] : []);
  for (let found = true; found; ) {
    found = false;
    for (const one of all) {
      if (open.has(one) || !(stand.has(one.won) || deletionMetEdit(one))) continue;
      open.add(one);
      stand.add(one.lost.version);
      found = true;
    }
  }
  return all.filter((one) => open.has(one));
}

function deletionMetEdit({ group, lost, record }: Written): boolean {
  if (group !== "deleted") return false;
  const state = record.groups[group];
  return !state || isAfter(lost.hlc, state.hlc ?? "");
}

function matterOf(key: string, open: Written[]): Matter | undefined {
  const [first] = open;
  if (!first) return undefined;
  const { t, recordId, group, record } = first;
  const state = record.groups[group];
  const winner = open.find(({ won }) => won === state?.version) ?? first;
  const edited =
    group === "deleted"
      ? Object.keys(record.groups).filter(
          (name) => name !== group && record.groups[name]?.version === winner.won,
        )
      : [];
  const stood = record.groups[edited[0] ?? group];
  return {
    key,
    t,
    recordId,
    group,
    record,
    standing: state?.value,
    by: winner.lost.won_by ?? undefined,
    hlc: stood?.hlc,
    edited,
    others: open.map(({ id, lost }) => ({
      id,
      value: lost.value,
      by: lost.by ?? undefined,
      hlc: lost.hlc,
    })),
  };
}

export function createConflicts({ store }: { store: Store }) {
  const matters = computed<Matter[]>(() => {
    const groups = new Map<string, Written[]>();
    for (const row of store.rows("conflict").value) {
      for (const one of writtenOf(row, store)) {
        const key = `${one.t}:${one.recordId}:${one.group}`;
        groups.set(key, [...(groups.get(key) ?? []), one]);
      }
    }
    return [...groups]
      .flatMap(([key, all]) => matterOf(key, openOnes(all)) ?? [])
      .sort((a, b) => a.key.localeCompare(b.key));
  });

  const settle = ({ t, recordId, group, record }: Matter, value: Record<string, unknown>) =>
    recordGroups(store, t, { id: recordId, row: record }, { [group]: value });

  return {
    matters,
    /** The losing value is written again and wins, being the newest. */
    restore: (matter: Matter, other: Other) => settle(matter, other.value),
    /** What stands is written again, which closes the matter on every phone. */
    async keep(matter: Matter) {
      await settle(matter, matter.standing ?? { [matter.group]: false });
      // Once it is sent, saying the same again would open nothing: no way back is offered.
      return {};
    },
  };
}
