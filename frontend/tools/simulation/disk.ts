/** A phone's storage: tables, whole commits, and what may befall them (power cuts, old images, eviction, no room). */

export type Key = string | number;
/** One row as committed; null where it was deleted. */
export type Write = [table: string, key: Key, row: unknown];
type Rows = Map<Key, any>;
export type Image = Map<string, Rows>;

/** A power cut takes at most this many commits back. */
const REMEMBERED = 12;

export class Disk {
  tables: Image = new Map();
  /** No room: nothing new can be written until it is lifted. */
  full = false;
  readonly watchers = new Set<(tables: ReadonlySet<string>) => void>();
  private before: { writes: Write[]; strict: boolean }[] = [];

  constructor(
    readonly phone: string,
    private readonly committed: (phone: string, writes: Write[], how: string) => void,
  ) {}

  table(name: string): Rows {
    let rows = this.tables.get(name);
    if (!rows) {
      rows = new Map();
      this.tables.set(name, rows);
    }
    return rows;
  }

  commit(changes: Image, strict: boolean): void {
    const writes: Write[] = [];
    for (const [name, rows] of changes) for (const [key, row] of rows) writes.push([name, key, row ?? null]);
    if (writes.length === 0) return;
    const undo = writes.map(([name, key]): Write => [name, key, this.table(name).get(key) ?? null]);
    this.before.push({ writes: undo, strict });
    if (this.before.length > REMEMBERED) this.before.shift();
    this.apply(writes);
    this.committed(this.phone, writes, "commit");
    const changed = new Set(changes.keys());
    for (const tell of this.watchers) tell(changed);
  }

  /**
   * Power cut: the commits not flushed are gone, and with `lying` the last so many that were called safe as well.
   * Returns how many are gone.
   */
  lose(lying: number): number {
    let gone = 0;
    for (let last = this.before.at(-1); last && (!last.strict || gone < lying); last = this.before.at(-1)) {
      this.before.pop();
      this.apply(last.writes);
      this.committed(this.phone, last.writes, "undone");
      gone += 1;
    }
    return gone;
  }

  image(): Image {
    return new Map([...this.tables].map(([name, rows]) => [name, new Map(rows)]));
  }

  /** All of the storage as it was in an image; an empty one is a store the browser evicted. */
  restore(image: Image): void {
    this.tables = new Map([...image].map(([name, rows]) => [name, new Map(rows)]));
    this.before = [];
    const all: Write[] = [];
    for (const [name, rows] of this.tables) for (const [key, row] of rows) all.push([name, key, row]);
    this.committed(this.phone, all, "whole");
  }

  /** Takes rows away without anybody's doing: a fault of the storage. */
  damage(writes: Write[]): void {
    this.apply(writes);
    this.before = [];
    this.committed(this.phone, writes, "damage");
  }

  private apply(writes: readonly Write[]): void {
    for (const [name, key, row] of writes) {
      if (row === null) this.table(name).delete(key);
      else this.table(name).set(key, row);
    }
  }
}
