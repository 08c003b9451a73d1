/** Rows of a table by an index, as Dexie's Collection and WhereClause in one: the part of both that is used. */
import type { Table } from "./dexie";
import type { Key } from "./disk";
import { compare, keyIn } from "./keys";
import type { Tx } from "./running";

type Found = [key: Key, row: any, value: unknown];

export class Collection {
  private values: ((value: unknown) => boolean)[] = [];
  private tests: ((row: any) => boolean)[] = [];
  private most = Number.POSITIVE_INFINITY;
  private skipped = 0;
  private backwards = false;

  constructor(
    private readonly table: Table,
    private readonly index: string,
  ) {}

  private only(good: (value: unknown) => boolean): this {
    this.values.push(good);
    return this;
  }
  equals = (key: unknown): this => this.only((value) => compare(value, key) === 0);
  anyOf = (...keys: unknown[]): this => {
    const wanted = keys.length === 1 && Array.isArray(keys[0]) ? keys[0] : keys;
    return this.only((value) => wanted.some((key) => compare(value, key) === 0));
  };
  above = (key: unknown): this => this.only((value) => compare(value, key) > 0);
  aboveOrEqual = (key: unknown): this => this.only((value) => compare(value, key) >= 0);
  below = (key: unknown): this => this.only((value) => compare(value, key) < 0);
  belowOrEqual = (key: unknown): this => this.only((value) => compare(value, key) <= 0);
  startsWith = (text: string): this =>
    this.only((value) => typeof value === "string" && value.startsWith(text));
  between(low: unknown, high: unknown, withLow = true, withHigh = false): this {
    return this.only((value) => {
      const [down, up] = [compare(value, low), compare(value, high)];
      return (withLow ? down >= 0 : down > 0) && (withHigh ? up <= 0 : up < 0);
    });
  }

  filter(good: (row: any) => boolean): this {
    this.tests.push(good);
    return this;
  }
  and = (good: (row: any) => boolean): this => this.filter(good);
  limit(most: number): this {
    this.most = most;
    return this;
  }
  offset(skipped: number): this {
    this.skipped = skipped;
    return this;
  }
  reverse(): this {
    this.backwards = !this.backwards;
    return this;
  }

  private found(tx: Tx): Found[] {
    const { name, path, lists } = this.table;
    const places = tx.all(name).flatMap(([key, row]): Found[] => {
      const value = keyIn(row, this.index);
      if (!lists.has(this.index)) return value === undefined ? [] : [[key, row, value]];
      return Array.isArray(value) ? value.map((one) => [key, row, one]) : [];
    });
    if (this.index !== path) places.sort((a, b) => compare(a[2], b[2]));
    if (this.backwards) places.reverse();
    const inRange = places.filter(([, , value]) => this.values.every((test) => test(value)));
    const good = inRange.filter(([, row]) => this.tests.every((test) => test(row)));
    return good.slice(this.skipped, this.skipped + this.most);
  }

  private read<V>(work: (found: Found[]) => V): Promise<V> {
    return this.table.use(false, (tx) => work(this.found(tx)));
  }

  toArray = (): Promise<any[]> => this.read((found) => found.map(([, row]) => row));
  count = (): Promise<number> => this.read((found) => found.length);
  first = (): Promise<any> => this.read((found) => found[0]?.[1]);
  last = (): Promise<any> => this.read((found) => found.at(-1)?.[1]);
  primaryKeys = (): Promise<Key[]> => this.read((found) => found.map(([key]) => key));
  keys = (): Promise<unknown[]> => this.read((found) => found.map(([, , value]) => value));
  each = (work: (row: any) => void): Promise<void> =>
    this.read((found) => {
      for (const [, row] of found) work(row);
    });
  sortBy = (path: string): Promise<any[]> =>
    this.read((found) => found.map(([, row]) => row).sort((a, b) => compare(keyIn(a, path), keyIn(b, path))));

  delete(): Promise<number> {
    return this.table.use(true, (tx) => {
      const found = this.found(tx);
      for (const [key] of found) tx.set(this.table.name, key, undefined);
      return found.length;
    });
  }
  modify(change: object | ((row: any) => void)): Promise<number> {
    return this.table.use(true, (tx) => {
      const found = this.found(tx);
      for (const [key, row] of found) {
        const next = structuredClone(row);
        if (typeof change === "function") change(next);
        else Object.assign(next, change);
        this.table.write(tx, next, false, key);
      }
      return found.length;
    });
  }
}
