/** Soil warmth of every day of the year so far: the unbroken days that end with today. */
import { computed, type ReadonlySignal, signal } from "@preact/signals";
import { dayAfter } from "../../../format";
import { soilWarmth } from "../../weather";
import { daysBack, type SoilDay } from "./ledger";

type Followed = ReturnType<Awaited<ReturnType<typeof soilWarmth>>["follows"]>;

/** Those without a gap before them, back from today. */
export function unbroken(days: readonly SoilDay[], today: string): SoilDay[] {
  const by = new Map(days.map((one) => [one.date, one]));
  const found: SoilDay[] = [];
  for (let day = today; ; day = dayAfter(day, -1)) {
    const one = by.get(day);
    if (!one) return found.reverse();
    found.push(one);
  }
}

/** Undefined while it is being worked out; none where nothing tells of the soil, or its code cannot be fetched. */
export function soilDays(day: () => string): ReadonlySignal<readonly SoilDay[] | undefined> {
  const found = signal<Followed | "none" | undefined>(undefined);
  void soilWarmth().then(
    (soil) => {
      found.value = soil.follows({ back: daysBack(day()) });
    },
    () => {
      found.value = "none";
    },
  );
  return computed(() => {
    if (found.value === "none") return [];
    const said = found.value?.value;
    if (!said) return undefined;
    const days = said.value?.chart.days ?? [];
    return unbroken(
      days.map(({ date, mid }) => ({ date, soil_c: mid })),
      day(),
    );
  });
}
