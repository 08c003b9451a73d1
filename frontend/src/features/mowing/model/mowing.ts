/** The models of mowing, made from what a phone (or a test) has. */
import type { EntryParts } from "../../../forms/entry-form";
import type { Engine } from "../../../platform/engine/ask";
import { checkGroup } from "../../../records/kinds";
import { nightsIn } from "../../../records/mowing/rhythm";
import { createMowers } from "./mowers";
import { createMows } from "./mows";

export interface MowingParts extends EntryParts {
  engine: Engine;
  day: () => string;
}

export function createMowing(parts: MowingParts) {
  const { store } = parts;
  const mowers = createMowers({ ...parts, check: checkGroup });
  const mows = createMows({ store });
  return {
    mowers,
    mows,
    mowing: { ...parts, mows, mowers },
    nights: () => nightsIn(store),
    zones: store.rows("zone"),
  };
}
