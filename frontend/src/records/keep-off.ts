/** Which zones to keep off now, and until when: worked out by the engine from the book, so every phone says the same. */
import { computed, signal } from "@preact/signals";
import { ask, type Engine } from "../platform/engine/ask";
import type { Value } from "../platform/engine/types";
import type { Store } from "../platform/store/types";
import { instantOf, totalsEntry } from "./entries";
import { entriesIn } from "./log/read";
import { kindOf } from "./log/registry";
import { productOf } from "./products";

/** A zone to keep off, as `record.keep_off` has it; until when in universal time, shown by this phone's clock. */
export type KeptOff = Value<"record.keep_off">["zones"][string];

interface KeepOffParts {
  store: Store;
  engine: Engine;
  now: () => string;
  /** Those known from before, until the engine has spoken. */
  kept?: () => Record<string, KeptOff>;
}

/** The longest a label may keep people off (the contract, 720 h), and a day for clocks that differ. */
const LOOK_BACK_MS = 31 * 86_400_000;

export function createKeepOff({ store, engine, now, kept = () => ({}) }: KeepOffParts) {
  // A book that is not read yet would keep nobody off.
  const after = ["entry", "product"].map((t) => store.loaded(t));
  const looks = signal(0);
  const log = entriesIn(store);
  const putDown = computed(() => log.value.filter(({ kind, struck }) => kindOf(kind)?.keepsOff && !struck));
  const products = computed(() =>
    store
      .rows("product")
      .value.map(productOf)
      .map(({ id, keep_off_hours, water_in }) => ({
        id,
        ...(keep_off_hours === undefined ? {} : { keep_off_hours }),
        ...(water_in ? { water_in } : {}),
      })),
  );
  function asked() {
    void looks.value;
    const moment = now();
    const since = Date.parse(moment) - LOOK_BACK_MS;
    const recent = putDown.value.filter((entry) => !(instantOf(entry) < since));
    return { entries: recent.map(totalsEntry), now: moment, products: products.value };
  }
  const said = ask(engine, "record.keep_off", asked, { after });
  return {
    said,
    zones: computed<Record<string, KeptOff>>(() => (said.value ? (said.value.value?.zones ?? {}) : kept())),
    /** Asks again, once the first of them should be over. */
    look: () => {
      looks.value += 1;
    },
  };
}

export type KeepOffModel = ReturnType<typeof createKeepOff>;
