/** The models of this feature as this phone uses them. */
import { session } from "../../../platform/session/session";
import { day, engine, store } from "../../../records/live";
import { entriesIn } from "../../../records/log/read";
import { productOf } from "../../../records/products";
import { followLedger } from "./ledger";
import { createRules } from "./rules/rules";
import { soilDays } from "./soil-days";

export const rules = createRules({ store, session });

const soil = soilDays(day);
const entries = entriesIn(store);

/** Put down, available and aim of every zone. */
export const ledger = followLedger(engine, () => {
  if (!store.loaded("entry").value || soil.value === undefined) return null;
  return {
    zones: store.rows("zone").value,
    entries: entries.value,
    products: store.rows("product").value.map(productOf),
    soil: soil.value,
    level: "middle",
    clippings: false,
    today: day(),
  };
});
