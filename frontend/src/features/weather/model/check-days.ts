/** Days of weather as rules are held against them: what was measured or fetched, never what the climate alone says. */
import { computed, type ReadonlySignal } from "@preact/signals";
import { follow } from "../../../platform/engine/ask";
import type { Answer } from "../../../platform/engine/types";
import type { CheckDay } from "../../../records/limits/check";
import type { DaysModel, Joined } from "./days";
import type { SoilModel } from "./soil";

/** Drought is told by two weeks of rain. */
const BACK_DAYS = 15;
const AHEAD_DAYS = 14;
/** Cold soil is told by three days. */
const SOIL_DAYS = 3;

export interface CheckDaysParts {
  days: DaysModel;
  soil: Pick<SoilModel, "follows">;
}

/** Undefined while it is not known what is known; without any weather no days. */
export function createCheckDays({
  days,
  soil,
}: CheckDaysParts): ReadonlySignal<readonly CheckDay[] | undefined> {
  const join = async (known: NonNullable<ReturnType<DaysModel["known"]>>): Promise<Answer<Joined>> => {
    const said = await days.join(known);
    return said.error ? said : { ...said, working: [], engine: "" };
  };
  const air = follow(join, () => days.known(BACK_DAYS, AHEAD_DAYS) ?? null, { keep: true });
  const warmth = soil.follows({ back: SOIL_DAYS, ahead: AHEAD_DAYS });
  return computed(() => {
    const [told, ground] = [air.value, warmth.value];
    if (!told || !ground) return undefined;
    const found = new Map<string, CheckDay>();
    for (const { date, of, mean_c, rain_mm } of told.value?.days ?? [])
      if (of !== "climate")
        found.set(date, {
          date,
          ...(mean_c === undefined ? {} : { mean_c }),
          ...(rain_mm === undefined ? {} : { rain_mm }),
        });
    const felt = ground.value && ground.value.from !== "climate" ? ground.value.chart.days : [];
    for (const { date, mid } of felt)
      if (found.has(date)) found.set(date, { ...found.get(date), date, soil_c: mid });
    return [...found.values()];
  });
}
