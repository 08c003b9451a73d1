/** Whether a product can burn the zones there are, on the product's own page. */

import { signal } from "@preact/signals";
import { useEffect, useMemo, useState } from "preact/hooks";
import { session } from "../../../platform/session/session";
import { rulesArgs } from "../../../records/limits/rules";
import { followed } from "../../../records/limits/sky";
import { day, engine, store } from "../../../records/live";
import { entriesIn } from "../../../records/log/read";
import { checkDays } from "../../weather";
import { type BurnJob, followBurns } from "../model/before/burn";
import { Burns } from "./before/burn";

export function CanItBurn(job: BurnJob) {
  const [asked] = useState(() => signal<BurnJob>(job));
  const found = useMemo(() => {
    const sky = followed(checkDays);
    const entries = entriesIn(store);
    return followBurns(engine, () => {
      const household = session.value?.household.id;
      const zones = store.rows("zone").value;
      if (!household || !store.loaded("entry").value) return null;
      const rules = rulesArgs(store.row("household", household).value, zones);
      const zoneIds = zones.map(({ id }) => id);
      return {
        job: asked.value,
        zoneIds,
        zones,
        entries: entries.value,
        days: sky.value?.value,
        rules,
        today: day(),
      };
    });
  }, [asked]);
  const text = JSON.stringify(job);
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked anew where what is typed differs
  useEffect(() => {
    asked.value = job;
  }, [text]);
  const zones = store.rows("zone").value;
  const nameOf = (id: string) =>
    String(zones.find((row) => row.id === id)?.groups["name"]?.value?.name ?? "A zone");
  return <Burns found={found.value} nameOf={nameOf} alone={zones.length === 1} />;
}
