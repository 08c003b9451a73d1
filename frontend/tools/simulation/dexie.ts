/**
 * The part of Dexie's interface that the phone's store uses, on tables in memory. Everything is resolved in
 * microtasks, so that a thousand lives of a phone take seconds. Put in Dexie's place when the simulation is bundled.
 */
import { Collection } from "./collection";
import type { Disk, Key } from "./disk";
import { kept, keyIn } from "./keys";
import { current, type Page, Tx } from "./running";
import { Kept } from "./zone";

/** The page and disk that the next database opened belongs to. */
export const opening: { page: Page; disk: (name: string) => Disk } = {
  page: undefined as unknown as Page,
  disk: () => {
    throw new Error("no phone is open");
  },
};

function failure(name: string, message: string): Error {
  const error = new Error(message);
  error.name = name;
  return error;
}

export class Table {
  constructor(
    readonly db: Dexie,
    readonly name: string,
    readonly path: string,
    /** Indexes in which a row stands once for each item of a list. */
    readonly lists: ReadonlySet<string>,
  ) {}

  /** One use of the table, inside the transaction at hand or in one of its own. */
  use<V>(writes: boolean, work: (tx: Tx) => V): Promise<V> {
    const tx = current.get();
    observed.get()?.(this.db, this.name);
    if (tx?.disk === this.db.disk) return this.within(tx, writes, work);
    return this.db.transaction(writes ? "rw" : "r", this, () =>
      this.within(current.get() as Tx, writes, work),
    );
  }

  private async within<V>(tx: Tx, writes: boolean, work: (tx: Tx) => V): Promise<V> {
    if (!tx.tables.has(this.name))
      throw failure("NotFoundError", `${this.name} is not part of the transaction`);
    if (writes && !tx.writes) throw failure("ReadOnlyError", "the transaction is for reading");
    await this.db.page.step();
    if (this.db.page.dead) await this.db.page.lives();
    if (!tx.isOpen) throw failure("TransactionInactiveError", "the transaction is over");
    try {
      return work(tx);
    } catch (error) {
      tx.failed = error as Error;
      throw error;
    }
  }

  keyOf(row: any, given?: Key): Key {
    const key = given ?? (keyIn(row, this.path) as Key | undefined);
    if (key === undefined) throw failure("DataError", `a row of ${this.name} has no ${this.path}`);
    return key;
  }

  write(tx: Tx, row: any, fresh: boolean, given?: Key): Key {
    const key = this.keyOf(row, given);
    if (fresh && tx.get(this.name, key) !== undefined)
      throw failure("ConstraintError", `${key} is there already`);
    if (this.db.disk.full) throw failure("QuotaExceededError", "there is no room");
    tx.set(this.name, key, kept(row));
    return key;
  }

  get(key: Key): Promise<any> {
    return this.use(false, (tx) => tx.get(this.name, key));
  }
  bulkGet(keys: Key[]): Promise<any[]> {
    return this.use(false, (tx) => keys.map((key) => tx.get(this.name, key)));
  }
  put(row: any, key?: Key): Promise<Key> {
    return this.use(true, (tx) => this.write(tx, row, false, key));
  }
  add(row: any, key?: Key): Promise<Key> {
    return this.use(true, (tx) => this.write(tx, row, true, key));
  }
  bulkPut(rows: readonly any[]): Promise<Key | undefined> {
    return this.use(true, (tx) => rows.map((row) => this.write(tx, row, false)).at(-1));
  }
  bulkAdd(rows: readonly any[]): Promise<Key | undefined> {
    return this.use(true, (tx) => rows.map((row) => this.write(tx, row, true)).at(-1));
  }
  update(key: Key, changes: object): Promise<number> {
    return this.use(true, (tx) => {
      const row = tx.get(this.name, key);
      if (row === undefined) return 0;
      this.write(tx, { ...row, ...changes }, false, key);
      return 1;
    });
  }
  delete(key: Key): Promise<void> {
    return this.bulkDelete([key]);
  }
  bulkDelete(keys: readonly Key[]): Promise<void> {
    return this.use(true, (tx) => {
      for (const key of keys) if (tx.get(this.name, key) !== undefined) tx.set(this.name, key, undefined);
    });
  }
  clear(): Promise<void> {
    return this.use(true, (tx) => {
      for (const [key] of tx.all(this.name)) tx.set(this.name, key, undefined);
    });
  }

  toCollection = (): Collection => new Collection(this, this.path);
  orderBy = (index: string): Collection => new Collection(this, index);
  where = (index: string): Collection => new Collection(this, index === ":id" ? this.path : index);
  filter = (good: (row: any) => boolean): Collection => this.toCollection().filter(good);
  limit = (most: number): Collection => this.toCollection().limit(most);
  toArray = (): Promise<any[]> => this.toCollection().toArray();
  count = (): Promise<number> => this.toCollection().count();
  each = (work: (row: any) => void): Promise<void> => this.toCollection().each(work);
  reverse = (): Collection => this.toCollection().reverse();
}

interface Options {
  chromeTransactionDurability?: string;
}

interface Asked {
  durability: string | undefined;
}

interface Core {
  transaction(names: string[], mode: "readwrite" | "readonly", options: Asked): Asked;
}

interface Layer {
  create(below: Core): Core;
}

export default class Dexie {
  static readonly maxKey = [[]];
  static readonly minKey = Number.NEGATIVE_INFINITY;
  static readonly errnames = { Quota: "QuotaExceededError" };
  readonly tables: Table[] = [];
  readonly page: Page;
  readonly disk: Disk;
  private readonly layers: Layer[] = [];
  private isClosed = false;

  constructor(
    readonly name: string,
    private readonly options: Options = {},
  ) {
    this.page = opening.page;
    this.disk = opening.disk(name);
  }

  version(_number: number) {
    const version = {
      stores: (tables: Record<string, string | null>) => this.declare(tables, version),
      upgrade,
    };
    function upgrade() {
      return version; // every store of a simulation is made by the newest build
    }
    return version;
  }

  private declare<V>(tables: Record<string, string | null>, version: V): V {
    for (const [name, said] of Object.entries(tables)) {
      if (said === null) continue;
      const [primary = "", ...indexes] = said.split(",").map((one) => one.trim());
      const lists = indexes.filter((one) => one.startsWith("*")).map((one) => one.slice(1));
      const table = new Table(this, name, primary.replace(/^[&+]+/, ""), new Set(lists));
      const known = this.tables.findIndex((one) => one.name === name);
      this.tables.splice(known < 0 ? this.tables.length : known, known < 0 ? 0 : 1, table);
      (this as any)[name] = table;
    }
    return version;
  }

  table(name: string): Table {
    return this.tables.find((one) => one.name === name) as Table;
  }

  async transaction<V>(mode: string, ...said: any[]): Promise<V> {
    const work = said.pop() as (tx: Tx) => V | Promise<V>;
    const names = said.flat().map((one: Table | string) => (typeof one === "string" ? one : one.name));
    const outer = current.get();
    if (outer?.disk === this.disk && outer.isOpen) return work(outer);
    await this.page.step();
    if (this.isClosed) throw failure("DatabaseClosedError", "the database was closed");
    const tx = await Tx.begin(this.disk, this.page, names, mode.includes("w"));
    try {
      const result = await current.run(tx, () => work(tx));
      await this.page.step();
      if (this.page.dead) await this.page.lives();
      if (tx.failed) throw tx.failed;
      if (this.isClosed) throw failure("DatabaseClosedError", "the database was closed");
      this.disk.commit(tx.changes, this.durability(names, mode.includes("w")) === "strict");
      tx.end();
      await this.page.step();
      return result;
    } finally {
      tx.end();
    }
  }

  /** As the store's own layers ask for it. */
  private durability(names: string[], writes: boolean): string | undefined {
    const asked = { durability: this.options.chromeTransactionDurability };
    const bare: Core = { transaction: (_names, _mode, options) => options };
    const core = this.layers.reduce((below, layer) => layer.create(below), bare);
    return core.transaction(names, writes ? "readwrite" : "readonly", asked).durability;
  }

  use(layer: Layer): this {
    this.layers.push(layer);
    return this;
  }
  on = Object.assign(() => undefined, {
    versionchange: nothing,
    blocked: nothing,
    close: nothing,
    ready: nothing,
  });
  async open(): Promise<this> {
    this.isClosed = false;
    return this;
  }
  isOpen = (): boolean => !this.isClosed;
  close(): void {
    this.isClosed = true;
  }
}

function nothing(): undefined {
  return undefined;
}

type Notes = (db: Dexie, table: string) => void;
const observed = new Kept<Notes>();

export type Subscription = { unsubscribe(): void; closed: boolean };
type Next<V> = (value: V) => void;

/** A query asked again whenever a table it read was written to. */
export function liveQuery<V>(query: () => V | Promise<V>) {
  return {
    subscribe(given: Next<V> | { next?: Next<V>; error?: (error: unknown) => void }): Subscription {
      const observer = typeof given === "function" ? { next: given } : given;
      return following(query, observer);
    },
  };
}

function following<V>(
  query: () => V | Promise<V>,
  observer: { next?: Next<V>; error?: (error: unknown) => void },
): Subscription {
  const read = new Set<string>();
  const disks = new Set<Disk>();
  const subscription = { closed: false, unsubscribe };
  let asking = false;
  let again = false;

  function unsubscribe(): void {
    subscription.closed = true;
    for (const disk of disks) disk.watchers.delete(changed);
  }
  function note(db: Dexie, table: string): void {
    read.add(table);
    if (disks.has(db.disk) || subscription.closed) return;
    disks.add(db.disk);
    db.disk.watchers.add(changed);
  }
  function changed(tables: ReadonlySet<string>): void {
    if ([...tables].some((table) => read.has(table))) void ask();
  }
  async function ask(): Promise<void> {
    again = asking;
    if (asking || subscription.closed) return;
    asking = true;
    try {
      const value = await current.run(undefined, () => observed.run(note, async () => query()));
      if (!subscription.closed) observer.next?.(value);
    } catch (error) {
      if (!subscription.closed) observer.error?.(error);
    }
    asking = false;
    if (again) void ask();
  }
  void ask();
  return subscription;
}

export { Dexie };
