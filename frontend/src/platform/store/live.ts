/** Signals that follow the tables, from this tab's writes and other tabs' alike. */
import { batch, type ReadonlySignal, type Signal, signal } from "@preact/signals";
import Dexie, { liveQuery, type Subscription } from "dexie";
import { isDeleted } from "./core/overlay";
import type { BookDb, LiveRow } from "./db";
import { inParts } from "./parts";
import { lookOver } from "./reading/look-over";
import { noteNewest, readNewest } from "./reading/newest";
import type { Kind, Row } from "./types";

interface Placed {
  row: LiveRow;
  at: number;
}

/** The one kind of which there may be ten years. */
const LONG: Kind = "entry";

/** Everything of one kind in memory, in its order, brought up to date by what was written since. */
export class KindView {
  readonly byId: Signal<ReadonlyMap<string, LiveRow>> = signal(new Map());
  readonly loaded: Signal<boolean> = signal(false);
  readonly rows: Signal<Row[]> = signal([]);
  /** The first of them in their order, before all of them were read; undefined where that is not known. */
  readonly newest: Signal<LiveRow[] | undefined> = signal(undefined);
  private readonly known = new Map<string, LiveRow>();
  private order: Placed[] = [];
  private seen = 0;
  private closed = false;
  private subscription: Subscription | undefined;

  constructor(db: BookDb, t: Kind) {
    void this.open(db, t);
  }

  /** All of it once, plainly; then what is written after that. A followed query notes each of its rows, which is slow for a long log. */
  private async open(db: BookDb, t: Kind): Promise<void> {
    if (t === LONG) await this.showNewest(db);
    // One transaction, so that nothing is written between two parts.
    const read = await db
      .transaction("r", db.live, () => inParts(db.live, [`${t}:`, `${t};`], (rows) => this.lookOver(rows)))
      .then(
        () => true,
        () => false,
      );
    if (this.closed) return;
    if (read) this.publish(true);
    if (read && t === LONG) noteNewest(db.name, this.seen, this.order);
    this.subscription = liveQuery(() =>
      db.live
        .where("[t+rev]")
        .between([t, read ? this.seen : 0], [t, Dexie.maxKey], false, true)
        .toArray(),
    ).subscribe((fresh) => this.take(fresh, true));
  }

  private async showNewest(db: BookDb): Promise<void> {
    const found = await readNewest(db, LONG).catch(() => undefined);
    if (!found || this.closed) return;
    this.newest.value = inPlace(found.rows, found.from);
  }

  private lookOver(rows: readonly LiveRow[]): void {
    for (const row of rows) lookOver.row(row);
    this.absorb(rows);
    this.noteSeen(rows);
  }

  /** Rows just written; older news of a row never replaces newer. */
  take(fresh: readonly LiveRow[], fromTable = false): void {
    this.absorb(fresh);
    if (fromTable) this.noteSeen(fresh);
    const newest = this.newest.peek();
    if (newest && !this.loaded.peek()) this.newest.value = inPlace([...newest, ...fresh]);
    if (fresh.length > 0 || !this.loaded.peek()) this.publish(fromTable);
  }

  private noteSeen(rows: readonly LiveRow[]): void {
    for (const row of rows) this.seen = Math.max(this.seen, row.rev);
  }

  private absorb(fresh: readonly LiveRow[]): void {
    const newer = fresh.filter((row) => !((this.known.get(row.id)?.rev ?? -1) > row.rev));
    if (newer.length === 0) return;
    const gone = new Set(newer.filter(({ id }) => this.known.has(id)).map(({ id }) => id));
    for (const row of newer) this.known.set(row.id, row);
    const stay = gone.size > 0 ? this.order.filter(({ row }) => !gone.has(row.id)) : this.order;
    this.order = merged(stay, placed(newer));
  }

  private publish(loaded: boolean): void {
    batch(() => {
      this.byId.value = new Map(this.known);
      this.rows.value = this.order.map(({ row }) => row);
      if (loaded) this.loaded.value = true;
    });
  }

  close(): void {
    this.closed = true;
    this.subscription?.unsubscribe();
  }
}

/** Not deleted; entries newest first by when they were done, settings in the order they were made. */
function placed(rows: readonly LiveRow[]): Placed[] {
  const last = new Map(rows.map((row) => [row.id, row]));
  return [...last.values()]
    .filter((row) => !row.ghost && !isDeleted(row))
    .map((row) => ({ row, at: doneAt(row) }))
    .sort(byPlace);
}

/** The same as plain rows, as far back as that moment. */
const inPlace = (rows: readonly LiveRow[], from = Number.NEGATIVE_INFINITY): LiveRow[] =>
  placed(rows).flatMap(({ row, at }) => (at >= from ? [row] : []));

function byPlace(a: Placed, b: Placed): number {
  return b.at - a.at || (a.row.t === "entry" ? -1 : 1) * (a.row.id < b.row.id ? -1 : 1);
}

/** Two lists in their order as one. */
function merged(some: readonly Placed[], others: readonly Placed[]): Placed[] {
  const all: Placed[] = [];
  let at = 0;
  for (const one of some) {
    for (let other = others[at]; other && byPlace(other, one) < 0; other = others[++at]) all.push(other);
    all.push(one);
  }
  return all.concat(others.slice(at));
}

/** When the entry was done, as amended; 0 for records that have no such moment. */
function doneAt(row: Row): number {
  const said = row.groups["when"]?.value?.occurred_at ?? row.body?.occurred_at;
  const ms = typeof said === "string" ? Date.parse(said) : Number.NaN;
  return Number.isNaN(ms) ? 0 : ms;
}

/** A signal that follows a query; `initial` until the first answer. */
export function follow<V>(
  query: () => Promise<V>,
  initial: V,
): { value: ReadonlySignal<V>; close: () => void } {
  const value = signal<V>(initial);
  const subscription = liveQuery(query).subscribe((next) => {
    value.value = next;
  });
  return { value, close: () => subscription.unsubscribe() };
}
