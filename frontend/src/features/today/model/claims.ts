/** Claims: who said they will do what, and when. Nobody is held to one, and nothing is kept from anybody by one. */
import { computed } from "@preact/signals";
import { daysBetween } from "../../../format";
import { createStill } from "../../../forms/still";
import type { Row, Store } from "../../../platform/store/types";
import { type Entry, entryOf, given } from "../../../records/entries";
import { type Job, kindOf } from "../../../records/log/registry";
import { unusable } from "../../../records/reading";

export interface Claim {
  id: string;
  job: Job;
  /** "2026-05-14". */
  day: string;
  /** None: the whole yard, or whatever the note says. */
  zoneIds: readonly string[];
  note: string;
  /** Of the member; undefined while only this phone knows of it. */
  by: string | undefined;
  mine: boolean;
  /** The log says that it was done. */
  done: boolean;
  pending: boolean;
}

/** What a person says they will do. */
export interface Saying {
  job: Job;
  day?: string;
  zoneIds?: readonly string[];
  note?: string;
}

/** What it takes to take a claim, or its doing, back. */
export interface Made {
  op: string;
  id: string;
}

export interface ClaimParts {
  store: Store;
  /** The local day, "2026-05-09"; a signal's value where it should be followed. */
  day: () => string;
  now: () => string;
  memberId: () => string | undefined;
}

/** Claims of yesterday are shown still, and those of the week to come. */
const BACK_DAYS = 1;
const AHEAD_DAYS = 7;

/** Whether an entry of the log is of that job. Watering has no entry of its own: its doing names the claim. */
const isJob = ({ kind, body }: Entry, job: Job): boolean => kindOf(kind)?.does?.(body) === job;

/** The zones an entry was really done on: of those a job set out for, the ones that got something. */
function doneOn({ zoneIds, body }: Entry): readonly string[] {
  const rows = (body["zones"] ?? []) as { zone_id: string; used_kg?: number }[];
  const without = rows.filter(({ used_kg }) => used_kg === 0).map(({ zone_id }) => zone_id);
  return zoneIds.filter((id) => !without.includes(id));
}

/**
 * Done by whomever: an entry that names the claim, or entries of that job and day that cover its zones together; for the
 * whole yard, all of them.
 */
function isDone(claim: Omit<Claim, "done">, entries: readonly Entry[], yard: readonly string[]): boolean {
  if (entries.some(({ body }) => body["claim_id"] === claim.id)) return true;
  const found = entries.filter((entry) => entry.at.slice(0, 10) === claim.day && isJob(entry, claim.job));
  const covered = new Set(found.flatMap(doneOn));
  const wanted = claim.zoneIds.length ? claim.zoneIds : yard;
  return found.length > 0 && wanted.every((id) => covered.has(id));
}

function claimOf(row: Row, me: string | undefined): Omit<Claim, "done"> {
  const { job, day, zone_ids, note } = row.groups["claim"]?.value ?? {};
  return {
    id: row.id,
    job: job ?? "other",
    day: String(day ?? ""),
    zoneIds: Array.isArray(zone_ids) ? zone_ids : [],
    note: String(note ?? ""),
    by: row.by,
    mine: row.by === undefined || row.by === me,
    pending: row.pending,
  };
}

/** The nearest day first; on one day in the order they were made. */
const inOrder = (a: Claim, b: Claim) => a.day.localeCompare(b.day) || a.id.localeCompare(b.id);

const DOINGS: Record<Job, string> = {
  mow: "Mowed",
  feed: "Fed",
  spray: "Sprayed",
  water: "Watered",
  other: "Done",
};

export function createClaims({ store, day, now, memberId }: ClaimParts) {
  const entries = computed(() => store.rows("entry").value.map(entryOf));
  const near = computed(() =>
    store
      .rows("claim")
      .value.filter((row) => !unusable(row).length)
      .map((row) => claimOf(row, memberId()))
      .filter((claim) => {
        const ahead = daysBetween(day(), claim.day);
        return ahead >= -BACK_DAYS && ahead <= AHEAD_DAYS;
      }),
  );
  const claims = computed<Claim[]>(() => {
    if (!near.value.length) return [];
    const recent = entries.value.filter(({ at, struck }) => !struck && !(daysBetween(at, day()) > 2));
    const yard = store.rows("zone").value.map(({ id }) => id);
    return near.value.map((claim) => ({ ...claim, done: isDone(claim, recent, yard) })).sort(inOrder);
  });

  /** Those still to be done, of today and later; yesterday's that nobody did. */
  const open = computed(() => claims.value.filter((one) => !one.done));
  /** The same as it is drawn: a line that leaves keeps its place for a moment. */
  const still = createStill(open);

  async function claim({ job, day: when, zoneIds = [], note = "" }: Saying): Promise<Made> {
    const id = store.newId();
    const value = { job, day: when ?? day(), zone_ids: [...zoneIds], ...given({ note: note.trim() }) };
    const { op } = await store.save([{ t: "claim", id, set: { claim: value } }]);
    return { op, id };
  }

  async function giveUp({ id }: { id: string }): Promise<Made> {
    still.hold();
    const { op } = await store.save([{ t: "claim", id, set: { deleted: { deleted: true } } }]);
    return { op, id };
  }

  /** Writes into the log that it was done: a mow as a mow, all else in words. */
  async function done({ id, job, zoneIds, note }: Claim): Promise<Made> {
    const made = store.newId();
    still.hold();
    const said = job === "mow" ? { kind: "mow" } : { kind: "observation", text: note || `${DOINGS[job]}.` };
    const body = { ...said, ...given({ occurred_at: now(), by: memberId() }), claim_id: id };
    // A mow is of some ground: a claim that names none is of all of it.
    const all = job === "mow" && !zoneIds.length ? store.rows("zone").value.map((row) => row.id) : zoneIds;
    const { op } = await store.save([{ t: "entry", id: made, body: { ...body, zone_ids: [...all] } }]);
    return { op, id: made };
  }

  return {
    claims,
    open,
    still,
    loaded: store.loaded("claim"),
    /** The open claim of somebody on a zone for a job today; a claim without zones is of the whole yard. */
    onZone: (zoneId: string, job: Job) =>
      claims.value.find(
        (one) =>
          !one.done &&
          one.job === job &&
          one.day === day() &&
          (one.zoneIds.length === 0 || one.zoneIds.includes(zoneId)),
      ),
    claim,
    giveUp,
    done,
    /** Back out of the outbox; once it has gone, given up for everybody. */
    async takeBack({ op, id }: Made): Promise<void> {
      if (!(await store.withdraw(op))) await giveUp({ id });
    },
    async keepAfterAll({ op, id }: Made): Promise<void> {
      if (await store.withdraw(op)) return;
      await store.save([{ t: "claim", id, set: { deleted: { deleted: false } } }]);
    },
  };
}

export type ClaimsModel = ReturnType<typeof createClaims>;
