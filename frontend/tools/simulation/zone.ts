/**
 * What the code running now belongs to, kept over its awaits: a transaction, and who notes what is read. As Node's
 * AsyncLocalStorage, which costs a sixth of a life; of a promise only the zone it was made in is remembered.
 */
import { promiseHooks } from "node:v8";

interface Zone {
  readonly [name: symbol]: unknown;
}
interface Marked extends Promise<unknown> {
  [MADE_IN]?: Zone;
}

const MADE_IN = Symbol("zone");
const NONE: Zone = {};
let zone = NONE;

promiseHooks.createHook({
  init(promise: Marked) {
    if (zone !== NONE) promise[MADE_IN] = zone;
  },
  before(promise: Marked) {
    zone = promise[MADE_IN] ?? NONE;
  },
  after() {
    zone = NONE; // microtasks never run within one another
  },
});

/** One value of the zone. */
export class Kept<V> {
  private readonly name = Symbol("value");

  get(): V | undefined {
    return zone[this.name] as V | undefined;
  }

  /** Runs work, and all that follows from it, with another value. */
  run<R>(value: V | undefined, work: () => R): R {
    const before = zone;
    zone = { ...before, [this.name]: value };
    try {
      return work();
    } finally {
      zone = before;
    }
  }
}
