/** Claims: who said they will do what, and when. Nobody is held to one, and nothing is kept from anybody by one. */
import { computed } from "@preact/signals";
import { daysBetween } from "../../../format";
import { type Recorded, recordGroups, recordRemoval } from "../../../forms/recorded";
import { createStill } from "../../../forms/still";
import { ask, type Engine } from "../../../platform/engine/ask";
import type { Args } from "../../../platform/engine/types";
import type { Row, Store } from "../../../platform/store/types";
import { type Entry, given, instantOf, isWithin, totalsEntry } from "../../../records/entries";
import { entriesIn } from "../../../records/log/read";
import { type Job, kindOf } from "../../../records/log/registry";
import { createWriting } from "../../../records/log/writing";
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

export interface ClaimParts {
  store: Store;
  engine: Engine;
  /** The local day, "2026-05-09"; a signal's value where it should be followed. */
  day: () => string;
  now: () => string;
  memberId: () => string | undefined;
}

/** Claims of yesterday are shown still, and those of the week to come. */
const BACK_DAYS = 1;
/** What does them was done on their own day, a day more for clocks that stand apart. */
const DONE_BACK_DAYS = 2;
const AHEAD_DAYS = 7;

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

/** An entry as `record.claims` takes it. */
function doing(entry: Entry): Args<"record.claims">["entries"][number] {
  const { n_percent, claim_id } = entry.body;
  return { ...totalsEntry(entry), ...given({ n_percent, claim_id }) };
}

export function createClaims({ store, engine, day, now, memberId }: ClaimParts) {
  const after = ["claim", "entry", "zone"].map((t) => store.loaded(t));
  const entries = entriesIn(store);
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
  /** Which of them the log says are done; asked once all of it is read, and of no entry of a kind this build does not know. */
  function asked(): Args<"record.claims"> | null {
    if (!near.value.length) return null;
    const recent = entries.value.filter(
      (entry) =>
        kindOf(entry.kind) &&
        !entry.struck &&
        !Number.isNaN(instantOf(entry)) &&
        isWithin(entry, day(), DONE_BACK_DAYS),
    );
    return {
      claims: near.value.map(({ id, job, day, zoneIds }) => ({ id, job, day, zone_ids: zoneIds })),
      entries: recent.map(doing),
      yard: store.rows("zone").value.map(({ id }) => id),
    };
  }
  const standing = ask(engine, "record.claims", asked, { after });
  /** None until the engine has first spoken: one that is done would be shown and go at once. */
  const claims = computed<Claim[]>(() => {
    const said = standing.value;
    if (!said) return [];
    const known = said.value?.claims ?? {};
    return near.value.map((claim) => ({ ...claim, done: known[claim.id]?.done ?? false })).sort(inOrder);
  });

  /** Those still to be done, of today and later; yesterday's that nobody did. */
  const open = computed(() => claims.value.filter((one) => !one.done));
  /** The same as it is drawn: a line that leaves keeps its place for a moment. */
  const still = createStill(open);

  function claim({ job, day: when, zoneIds = [], note = "" }: Saying): Promise<Recorded> {
    const id = store.newId();
    const value = { job, day: when ?? day(), zone_ids: [...zoneIds], ...given({ note: note.trim() }) };
    return recordGroups(store, "claim", { id, row: undefined }, { claim: value });
  }

  function giveUp({ id }: { id: string }): Promise<Recorded> {
    still.hold();
    return recordRemoval(store, "claim", id);
  }

  /** Writes into the log that it was done: a mow as a mow, all else in words. */
  async function done({ id, job, zoneIds, note }: Claim): Promise<Recorded> {
    still.hold();
    const said = job === "mow" ? {} : { text: note || `${DOINGS[job]}.` };
    // A mow is of some ground: a claim that names none is of all of it.
    const all = job === "mow" && !zoneIds.length ? store.rows("zone").value.map((row) => row.id) : zoneIds;
    const kind = job === "mow" ? "mow" : "observation";
    return createWriting({ store, now, memberId }).add({
      kind,
      facts: { ...said, claim_id: id },
      zoneIds: all,
    });
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
  };
}

export type ClaimsModel = ReturnType<typeof createClaims>;
