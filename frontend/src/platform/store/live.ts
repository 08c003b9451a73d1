/** Signals that follow the tables, from this tab's writes and other tabs' alike. */
import { batch, computed, type ReadonlySignal, type Signal, signal } from "@preact/signals";
import Dexie, { liveQuery, type Subscription } from "dexie";
import { isDeleted } from "./core/overlay";
import type { BookDb, LiveRow } from "./db";
import type { Kind, Row } from "./types";

/** Everything of one kind in memory, brought up to date by what was written since. */
export class KindView {
  readonly byId: Signal<ReadonlyMap<string, LiveRow>> = signal(new Map());
  readonly loaded: Signal<boolean> = signal(false);
  readonly rows: ReadonlySignal<Row[]> = computed(() => sorted([...this.byId.value.values()]));
  private seen = 0;
  private closed = false;
  private subscription: Subscription | undefined;

  constructor(db: BookDb, t: Kind) {
    void this.open(db, t);
  }

  /** All of it once, plainly; then what is written after that. A followed query notes each of its rows, which is slow for a long log. */
  private async open(db: BookDb, t: Kind): Promise<void> {
    const all = await db.live
      .where("t")
      .equals(t)
      .toArray()
      .catch(() => undefined);
    if (this.closed) return;
    if (all) this.take(all, true);
    this.subscription = liveQuery(() =>
      db.live.where("[t+rev]").between([t, this.seen], [t, Dexie.maxKey], false, true).toArray(),
    ).subscribe((fresh) => this.take(fresh, true));
  }

  /** Rows just written; older news of a row never replaces newer. */
  take(fresh: readonly LiveRow[], fromTable = false): void {
    batch(() => {
      if (fresh.length > 0) this.byId.value = this.merged(fresh);
      if (!fromTable) return;
      for (const row of fresh) this.seen = Math.max(this.seen, row.rev);
      this.loaded.value = true;
    });
  }

  private merged(fresh: readonly LiveRow[]): Map<string, LiveRow> {
    const next = new Map(this.byId.peek());
    for (const row of fresh) {
      const before = next.get(row.id);
      if (!before || before.rev <= row.rev) next.set(row.id, row);
    }
    return next;
  }

  close(): void {
    this.closed = true;
    this.subscription?.unsubscribe();
  }
}

/** Not deleted; entries newest first by when they were done, settings in the order they were made. */
function sorted(all: LiveRow[]): Row[] {
  return all
    .filter((row) => !row.ghost && !isDeleted(row))
    .map((row) => ({ row, at: doneAt(row) }))
    .sort((a, b) => b.at - a.at || (a.row.t === "entry" ? -1 : 1) * (a.row.id < b.row.id ? -1 : 1))
    .map(({ row }) => row);
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
