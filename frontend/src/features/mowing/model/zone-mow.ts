/** What a zone's own page says of its mow: the forecast as Today has it, and its last cuts with what each took. */
import { computed } from "@preact/signals";
import { daysBetween } from "../../../format";
import { dayOfMoment } from "../../../format/moment";
import { type Engine, follow } from "../../../platform/engine/ask";
import type { Answer, Step, Value } from "../../../platform/engine/types";
import { type Entry, given, isWithin } from "../../../records/entries";
import type { Evening, ZoneMow } from "../../../records/look";
import { whyDue } from "../../../records/mowing/said";
import type { ForecastModel } from "./forecast";
import type { MowsModel } from "./mows";

/** As many cuts as a drawing on a phone can tell apart, none of them of another season. */
const MOST_CUTS = 8;
const LATEST_DAYS = 120;
/** As far ahead as the heights are drawn, and no farther than until it is surely due. */
const LEAST_AHEAD = 7;
const MOST_AHEAD = 21;

export interface Cut {
  id: string;
  day: string;
  by: string | undefined;
  /** Of all the zones that were cut in one go. */
  minutes?: number;
  zones: number;
  before_mm?: number;
  /** As measured, else as the mower was set; missing where neither was noted. */
  after_mm?: number;
}

/** With what the engine says of it; nothing where a height is missing. */
export interface ToldCut extends Cut {
  taken_share?: number;
  /** Lower than this it took more than a third. */
  lowest_mm?: number;
}

/** A height that was read without a cut. */
export interface Look {
  id: string;
  day: string;
  by: string | undefined;
  height_mm: number;
}

type Said = Value<"mowing.forecast">["zones"][string];

export interface ZoneForecast {
  evening: Evening;
  /** Nothing where no weather is known at all. */
  mow: ZoneMow | undefined;
  zone: Said | undefined;
  /** Heights of the coming days, as far as they are drawn. */
  ahead: Said["height_mm"];
  why: readonly Step[];
}

export interface ZoneMowParts {
  engine: Engine;
  day: () => string;
  mows: Pick<MowsModel, "all" | "looks" | "loaded">;
  forecast: Pick<ForecastModel, "worked" | "evening">;
}

function cutOf({ id, at, by, zoneIds, body }: Entry): Cut {
  const { height_before_mm: before_mm, height_after_mm, cut_height_mm, minutes } = body;
  const after_mm = height_after_mm ?? cut_height_mm;
  return {
    id,
    day: dayOfMoment(at),
    by,
    zones: zoneIds.length,
    ...given({ minutes, before_mm, after_mm }),
  } as Cut;
}

const lookOf = ({ id, at, by, body }: Entry): Look => ({
  id,
  day: dayOfMoment(at),
  by,
  height_mm: body.height_mm,
});

/** Until it is due for all that is likely, a week at least and three at most. */
function drawn({ height_mm, latest }: Said, today: string): Said["height_mm"] {
  const due = latest ? daysBetween(today, latest) + 1 : 0;
  const days = Math.min(MOST_AHEAD, Math.max(LEAST_AHEAD, due));
  return height_mm.filter(({ date }) => daysBetween(today, date) <= days);
}

export function createZoneMow({ engine, day, mows, forecast }: ZoneMowParts, id: string) {
  const cuts = computed<readonly Cut[]>(() =>
    mows.all.value
      .filter((mow) => mow.zoneIds.includes(id) && isWithin(mow, day(), LATEST_DAYS + 1))
      .filter(({ at }) => daysBetween(day(), at) <= 0)
      .map(cutOf)
      .filter((cut) => daysBetween(cut.day, day()) <= LATEST_DAYS)
      .slice(0, MOST_CUTS),
  );

  /** Those that belong beside the cuts: as old as they are at most, and no more of them. */
  const looks = computed<readonly Look[]>(() => {
    const oldest = cuts.value.length === MOST_CUTS ? cuts.value.at(-1)?.day : undefined;
    return mows.looks.value
      .filter(({ zoneIds, sick, at }) => isHere(zoneIds) && !sick.length && daysBetween(day(), at) <= 0)
      .map(lookOf)
      .filter((look) => daysBetween(look.day, day()) <= LATEST_DAYS && (!oldest || look.day >= oldest))
      .slice(0, MOST_CUTS);
  });
  /** One that names no zone is of the whole yard. */
  const isHere = (zoneIds: readonly string[]) => !zoneIds.length || zoneIds.includes(id);

  async function tell(cut: Cut): Promise<ToldCut> {
    const { before_mm: height_mm, after_mm: target_mm } = cut;
    if (height_mm === undefined || target_mm === undefined) return cut;
    const { value } = await engine.call("mowing.cut", { height_mm, target_mm });
    if (!value || value.too_short) return cut;
    return { ...cut, taken_share: value.straight_share, lowest_mm: value.lowest_mm };
  }

  /** The latest first; with what each took once the engine has said so. */
  const told = follow<readonly Cut[], readonly ToldCut[]>(
    async (all) => ({ value: await Promise.all(all.map(tell)), working: [], engine: "" }),
    () => cuts.value,
    { keep: true, after: [mows.loaded] },
  );

  const said = computed<Answer<ZoneForecast> | undefined>(() => {
    const [worked, evening] = [forecast.worked.value, forecast.evening.value];
    if (worked?.error) return worked;
    if (evening?.error) return evening;
    if (!worked || !evening) return undefined;
    const zone = worked.value.forecast.zones[id];
    const value: ZoneForecast = {
      evening: evening.value,
      mow: evening.value.zones[id],
      zone,
      ahead: zone ? drawn(zone, day()) : [],
      why: whyDue(evening.working, worked.working, new Set([id])),
    };
    return { value, working: worked.working, engine: worked.engine };
  });

  return {
    loaded: mows.loaded,
    said,
    looks,
    /** As noted, until the engine has said what each took. */
    cuts: computed<readonly ToldCut[]>(() => told.value?.value ?? cuts.value),
  };
}

export type ZoneMowModel = ReturnType<typeof createZoneMow>;
