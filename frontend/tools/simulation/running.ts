/** A page at work on a disk: its steps, its death between any two of them, its transactions and their turns. */
import type { Disk, Image, Key } from "./disk";
import { compare } from "./keys";
import { Kept } from "./zone";

/** One page. Every use of the storage is a step, and takes a while that the seed decides. */
export class Page {
  dead = false;
  /** Dies at this step, counted from when it was ordered. */
  diesIn = Number.POSITIVE_INFINITY;
  readonly open = new Set<Tx>();

  constructor(
    private readonly chance: () => number,
    private readonly died: () => void,
  ) {}

  async step(): Promise<void> {
    if (!this.dead && --this.diesIn < 0) this.die();
    if (this.dead) await this.lives();
    for (let pause = 1 + Math.floor(this.chance() * 3); pause > 0; pause--) await null;
    if (this.dead) await this.lives();
  }

  /** A dead page gets no further than this. A promise of its own each time: what waits for it can be forgotten. */
  lives(): Promise<void> {
    return this.dead ? new Promise(() => undefined) : Promise.resolve();
  }

  die(): void {
    if (this.dead) return;
    this.dead = true;
    for (const tx of [...this.open]) tx.end();
    this.died();
  }
}

/** The transaction that the code running now belongs to. */
export const current = new Kept<Tx>();

export class Tx {
  readonly changes: Image = new Map();
  /** Set by an error that ends the whole transaction, whether its maker catches it or not. */
  failed: Error | undefined;
  isOpen = true;

  private constructor(
    readonly disk: Disk,
    readonly page: Page,
    readonly tables: ReadonlySet<string>,
    readonly writes: boolean,
  ) {}

  /** Waits its turn: no two that write to a common table are open at once, and who came first goes first. */
  static async begin(disk: Disk, page: Page, tables: Iterable<string>, writes: boolean): Promise<Tx> {
    const tx = new Tx(disk, page, new Set(tables), writes);
    if (page.dead) await page.lives();
    page.open.add(tx);
    await turns(disk).take(tx);
    if (page.dead) await page.lives();
    return tx;
  }

  end(): void {
    if (!this.isOpen) return;
    this.isOpen = false;
    this.page.open.delete(this);
    turns(this.disk).give(this);
  }

  get(table: string, key: Key): any {
    const changed = this.changes.get(table);
    return changed?.has(key) ? changed.get(key) : this.disk.table(table).get(key);
  }

  set(table: string, key: Key, row: unknown): void {
    let changed = this.changes.get(table);
    if (!changed) {
      changed = new Map();
      this.changes.set(table, changed);
    }
    changed.set(key, row);
  }

  /** All rows with their keys, in the order of the keys. */
  all(table: string): [Key, any][] {
    const rows = this.disk.table(table);
    const changed = this.changes.get(table);
    const found = changed ? [...new Map([...rows, ...changed])] : [...rows];
    const present = changed ? found.filter(([, row]) => row !== undefined) : found;
    return present.sort((a, b) => compare(a[0], b[0]));
  }
}

class Turns {
  private readonly line: { tx: Tx; go: () => void }[] = [];

  take(tx: Tx): Promise<void> {
    return new Promise((go) => {
      this.line.push({ tx, go });
      this.next();
    });
  }

  give(tx: Tx): void {
    const at = this.line.findIndex((one) => one.tx === tx);
    if (at >= 0) this.line.splice(at, 1);
    this.next();
  }

  private next(): void {
    this.line.forEach(({ tx, go }, at) => {
      if (!this.line.slice(0, at).some((before) => collide(before.tx, tx))) go();
    });
  }
}

function collide(a: Tx, b: Tx): boolean {
  if (!a.writes && !b.writes) return false;
  for (const table of a.tables) if (b.tables.has(table)) return true;
  return false;
}

const lines = new WeakMap<Disk, Turns>();
function turns(disk: Disk): Turns {
  let found = lines.get(disk);
  if (!found) {
    found = new Turns();
    lines.set(disk, found);
  }
  return found;
}
