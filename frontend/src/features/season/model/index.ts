/** The models of this feature as this phone uses them. */
import { computed } from "@preact/signals";
import { session } from "../../../platform/session/session";
import { rulesArgs } from "../../../records/limits/rules";
import { followed } from "../../../records/limits/sky";
import { day, engine, store } from "../../../records/live";
import { entriesIn } from "../../../records/log/read";
import { productOf } from "../../../records/products";
import { checkDays } from "../../weather";
import { comingSteps, followComing } from "./coming/coming";
import { followLedger } from "./ledger";
import { createRules } from "./rules/rules";
import { soilDays } from "./soil-days";

export const rules = createRules({ store, session });

const soil = soilDays(day);
const entries = entriesIn(store);

/** The household's products, as its screens name them. */
export const products = computed(() => store.rows("product").value.map(productOf));

/** Steps of this week and the next, and what is overdue. */
export const steps = computed(() =>
  store.loaded("entry").value ? comingSteps(store.rows("step").value, entries.value, day()) : [],
);

const sky = followed(checkDays);

/** What each of them would break. */
export const coming = followComing(engine, () => {
  const household = session.value?.household.id;
  const days = sky.value?.value;
  if (!household || !days) return null;
  const zones = store.rows("zone").value;
  return {
    steps: steps.value,
    zones,
    entries: entries.value,
    products: products.value,
    days,
    rules: rulesArgs(store.row("household", household).value, zones),
    today: day(),
  };
});

/** Put down, available and aim of every zone. */
export const ledger = followLedger(engine, () => {
  if (!store.loaded("entry").value || soil.value === undefined) return null;
  return {
    zones: store.rows("zone").value,
    entries: entries.value,
    products: products.value,
    soil: soil.value,
    level: "middle",
    clippings: false,
    today: day(),
  };
});
