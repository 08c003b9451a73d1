/** For tests: a pass as the log holds it, and the dial it was walked at. */
import { entryOf } from "./entries";
import { fakeRow } from "./fake-book";

export const DIAL = { lowest: 1, highest: 24, step: 0.5 };

export function passEntry(id: string, at: string, over: object = {}, row: object = {}) {
  const body = {
    kind: "pass",
    occurred_at: at,
    spread_id: "w",
    spreader_id: "rotary",
    product_id: "slow",
    number: 1,
    dial: 6,
    dial_scale: DIAL,
    area_m2: 200,
    used_kg: 4,
    measured: "scale",
    ...over,
  };
  return entryOf(fakeRow({ t: "entry", id, body, ...row }));
}
