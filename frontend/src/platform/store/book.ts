/** One person's copy of one household's book: the tables, the signals on them, what may be done. */
import { computed, effect, type ReadonlySignal, signal } from "@preact/signals";
import { newId } from "./core/uuid7";
import { BookDb, type GoneState, type LiveRow, type PersistState } from "./db";
import { ackedOps } from "./incoming/refill";
import { endWhenLeft } from "./leaving";
import { follow, KindView } from "./live";
import { forgetLook } from "./looks";
import { albumOf, unsentPictures } from "./pictures";
import { keepRoom, type Room } from "./room";
import { readState, readSync } from "./state";
import type { Album, Drafts, Kind, Mutation, ParkedRow, Picture, Row, Standing } from "./types";
import { browserLedger, type Ledger, noticeLoss } from "./unsent";
import { type WeatherKept, weatherOf } from "./weather";
import { mendOp, saveOp, saveOpAgain, withdrawOp } from "./writing";

export interface Surroundings {
  now: () => number;
  /** Asks the browser to keep the store (S20); undefined where it cannot be asked. */
  persist: (() => Promise<boolean>) | undefined;
  /** Where the number of waiting entries is noted beside the store (F36). */
  ledger?: Ledger;
}

export interface Book {
  readonly name: string;
  readonly db: BookDb;
  /** What is wrong with the phone's store, if anything. */
  readonly room: Room;
  /** True while this tab has a request under way. */
  readonly sending: { value: boolean };
  readonly standing: ReadonlySignal<Standing>;
  readonly drafts: Drafts;
  readonly album: Album;
  /** Fetched weather; undefined until it was read once. */
  weather(): ReadonlySignal<WeatherKept | undefined>;
  rows(t: Kind): ReadonlySignal<Row[]>;
  row(t: Kind, id: string): Row | undefined;
  loaded(t: Kind): ReadonlySignal<boolean>;
  newest(t: Kind): ReadonlySignal<LiveRow[] | undefined>;
  save(mutations: Mutation[], pictures?: readonly Picture[]): Promise<{ op: string }>;
  withdraw(op: string): Promise<boolean>;
  /** Shows rows just written without waiting for the table's own news. */
  show(written: readonly LiveRow[]): void;
  /** Sends what was set aside once more: as it was, or as mended. False when it was there no longer. */
  parkedAgain(op: string, mended?: Mutation[]): Promise<boolean>;
  discardParked(op: string): Promise<void>;
  exportAll(): Promise<object>;
  close(): void;
}

const BROWSER: Surroundings = {
  now: () => Date.now(),
  persist:
    typeof globalThis.navigator?.storage?.persist === "function"
      ? () => navigator.storage.persist()
      : undefined,
};

export function openBook(name: string, surroundings: Surroundings = BROWSER): Book {
  const db = new BookDb(name);
  const views = new Map<Kind, KindView>();
  const closers: (() => void)[] = [endWhenLeft(db)];
  const room = keepRoom(db);
  // First of all: what this finds out nobody can after the first write.
  const ledger = surroundings.ledger ?? browserLedger(name);
  const noticed = noticeLoss(db, ledger);
  // Closed again at once: the count stays as it was, and the next opening looks.
  noticed.catch(() => undefined);
  const sending = signal(false);
  const standing = standingOf(db, sending, closers, (waiting) => noticed.then(() => ledger.note(waiting)));
  void sweep(db);

  function view(t: Kind): KindView {
    let found = views.get(t);
    if (!found) {
      found = new KindView(db, t);
      views.set(t, found);
    }
    return found;
  }

  function show(written: readonly LiveRow[]): void {
    for (const [t, known] of views) {
      const fresh = written.filter((row) => row.t === t);
      if (fresh.length > 0) known.take(fresh);
    }
    if (written.length > 0) forgetLook();
  }

  async function save(mutations: Mutation[], pictures?: readonly Picture[]): Promise<{ op: string }> {
    const id = newId();
    const { op, written } = await room.write((again) =>
      (again ? saveOpAgain : saveOp)(db, mutations, surroundings.now(), id, pictures),
    );
    show(written);
    void askToPersist(db, surroundings);
    return { op };
  }

  return {
    name,
    db,
    room,
    sending,
    standing,
    drafts: draftsOf(db, room, closers),
    album: albumOf(db, surroundings.now, closers),
    weather: weatherOf(db, closers),
    rows: (t) => view(t).rows,
    row: (t, id) => shown(view(t).byId.value.get(id)),
    loaded: (t) => view(t).loaded,
    newest: (t) => view(t).newest,
    save,
    async withdraw(op) {
      const written = await room.write(() => withdrawOp(db, op));
      if (written) show(written);
      return written !== undefined;
    },
    show,
    async parkedAgain(op, mended) {
      const saved = await room.write(() => mendOp(db, op, mended, surroundings.now()));
      if (saved) show(saved.written);
      return saved !== undefined;
    },
    async discardParked(op) {
      await room.write(() => db.parked.delete(op));
    },
    exportAll: () => exported(db),
    close() {
      for (const known of views.values()) known.close();
      for (const close of closers) close();
      db.close();
    },
  };
}

function shown(row: LiveRow | undefined): Row | undefined {
  return row?.ghost ? undefined : row;
}

function draftsOf(db: BookDb, room: Room, closers: (() => void)[]): Drafts {
  const watched = new Map<string, ReadonlySignal<unknown>>();
  return {
    async get<T>(key: string) {
      return (await db.drafts.get(key))?.value as T | undefined;
    },
    async put(key, value) {
      await room.write(() => db.drafts.put({ key, value }));
    },
    async remove(key) {
      await room.write(() => db.drafts.delete(key));
    },
    watch<T>(key: string) {
      let found = watched.get(key);
      if (!found) {
        const following = follow(async () => (await db.drafts.get(key))?.value, undefined as unknown);
        closers.push(following.close);
        found = following.value;
        watched.set(key, found);
      }
      return found as ReadonlySignal<T | undefined>;
    },
  };
}

interface Kept {
  waiting: number;
  parked: ParkedRow[];
  photosWaiting: number;
  gone: GoneState | undefined;
  sync: Awaited<ReturnType<typeof readSync>>;
  persist: PersistState | undefined;
}

function standingOf(
  db: BookDb,
  sending: ReadonlySignal<boolean>,
  closers: (() => void)[],
  noted: (waiting: number) => Promise<void>,
) {
  const kept = follow<Kept | undefined>(
    () =>
      db.transaction("r", db.outbox, db.parked, db.photos, db.meta, async () => ({
        waiting: (await db.outbox.count()) - (await db.outbox.where("hole").equals(1).count()),
        parked: await db.parked.toArray(),
        photosWaiting: await db.photos.where("state").equals("waiting").count(),
        gone: (await db.meta.get("gone")) as GoneState | undefined,
        sync: await readSync(db),
        persist: (await db.meta.get("persist")) as PersistState | undefined,
      })),
    undefined,
  );
  closers.push(kept.close);
  const waiting = computed(() => kept.value.value?.waiting);
  closers.push(
    // A store that cannot be read says nothing, so nothing is noted of it.
    effect(() => void (waiting.value !== undefined && noted(waiting.value).catch(() => undefined))),
  );
  return computed<Standing>(() => said(kept.value.value, sending.value));
}

function said(kept: Kept | undefined, sending: boolean): Standing {
  if (!kept) return { waiting: 0, parked: [], photosWaiting: 0, state: "saved" };
  const { waiting, parked, photosWaiting, gone, sync, persist } = kept;
  const state = sending ? "sending" : stateOf(waiting, sync.state);
  const standing: Standing = { waiting, parked, photosWaiting, state };
  if (gone) standing.gone = gone.count;
  if (sync.lastSync) standing.lastSync = sync.lastSync;
  if (sync.trouble) standing.trouble = sync.trouble;
  if (persist) standing.persisted = persist.granted;
  return standing;
}

function stateOf(waiting: number, sync: Kept["sync"]["state"]): Standing["state"] {
  if (sync !== "fresh" && sync !== "ok") return sync;
  return waiting > 0 ? "waiting" : "saved";
}

/** Asked once, after the first save: then there is something to keep, and the person sees why (S20). */
async function askToPersist(db: BookDb, { persist }: Surroundings): Promise<void> {
  if (!persist) return;
  try {
    if (await db.meta.get("persist")) return;
    await db.meta.put({ key: "persist", granted: await persist() });
  } catch {
    // The browser would not say, or the book is closed already; asked again after the next save.
  }
}

/** Ghosts of withdrawn entries are of use to open readers only. */
async function sweep(db: BookDb): Promise<void> {
  try {
    // Looking for them reads every row, so it is noted where there are some.
    if ((await readState(db)).ghosts === false) return;
    await db.transaction("rw", db.live, db.meta, async () => {
      await db.live.filter((row) => row.ghost === true).delete();
      await db.meta.put({ ...(await readState(db)), ghosts: false });
    });
  } catch {
    // Closed again at once, or no room: harmless, the next opening sweeps.
  }
}

/** Everything this phone holds of the book, waiting and set-aside ops included, as one JSON-able object. */
async function exported(db: BookDb): Promise<object> {
  return db.transaction(
    "r",
    [db.live, db.base, db.outbox, db.parked, db.acked, db.photos, db.drafts],
    async () => ({
      format: "evenfall-export-1",
      rows: (await db.live.toArray()).filter((row) => !row.ghost).map(({ rev: _rev, ...row }) => row),
      records: (await db.base.toArray()).map((row) => row.record),
      outbox: await db.outbox.orderBy("dseq").toArray(),
      parked: await db.parked.toArray(),
      acknowledged: (await db.acked.toArray()).flatMap(ackedOps),
      photos: await unsentPictures(db),
      drafts: await db.drafts.toArray(),
    }),
  );
}
