/** Where everything of a year's sheet stands on its paper. Drawing only: what is drawn is the engine's. */
import type { Value } from "../../../platform/engine/types";
import { scaled } from "../../../ui/charts/chart-shape";

export type SheetValue = Value<"season.sheet">;
export type Band = SheetValue["bands"][number];
export type Flag = Band["flags"][number];

/** Room for the months above, for a band's name, for each row of flags, for the plot, and between bands. */
export interface Measures {
  axis: number;
  name: number;
  flag: number;
  plot: number;
  gap: number;
}

export const WEEK = 18;
export const LEFT = 40;
const RIGHT = 10;
/** As wide as a thumb and two words need. */
export const FLAG_WIDE = 92;
export const ON_SCREEN: Measures = { axis: 26, name: 30, flag: 48, plot: 104, gap: 18 };

/** A flag with its place: the pole's foot is `x`, its cloth begins at `left`, in row `lane`. */
export interface PlacedFlag extends Flag {
  x: number;
  left: number;
  lane: number;
}

export interface PlacedBand {
  band: Band;
  top: number;
  lanes: number;
  flags: readonly PlacedFlag[];
  plotTop: number;
  plotBottom: number;
}

export interface Sheet {
  wide: number;
  high: number;
  axis: number;
  bands: readonly PlacedBand[];
}

export const weekAt = (week: number): number => LEFT + week * WEEK;

/** A flag's cloth hangs to the right of its pole, as far as the paper goes. */
export const clothAt = (week: number, wide: number): number =>
  Math.min(weekAt(week), wide - RIGHT - FLAG_WIDE);

/** Each flag in the first row where it has room. */
function placed(flags: readonly Flag[], wide: number): PlacedFlag[] {
  const ends: number[] = [];
  return flags.map((flag) => {
    const left = clothAt(flag.week, wide);
    const free = ends.findIndex((end) => end <= left);
    const lane = free < 0 ? ends.length : free;
    ends[lane] = left + FLAG_WIDE + 4;
    return { ...flag, x: weekAt(flag.week), left, lane };
  });
}

export function laidOut(value: Pick<SheetValue, "bands" | "weeks">, room: Measures): Sheet {
  const wide = weekAt(value.weeks.length) + RIGHT;
  let top = room.axis;
  const bands = value.bands.map((band) => {
    const flags = placed(band.flags, wide);
    const lanes = Math.max(1, ...flags.map(({ lane }) => lane + 1));
    const plotTop = top + room.name + lanes * room.flag;
    const one = { band, top, lanes, flags, plotTop, plotBottom: plotTop + room.plot };
    top = one.plotBottom + room.gap;
    return one;
  });
  return { wide, high: top, axis: room.axis, bands };
}

/** Room on a page of a given height: bands share what is left of it, however many rows of flags each has. */
export function onPage(value: Pick<SheetValue, "bands" | "weeks">, high: number): Measures {
  const { axis, gap } = ON_SCREEN;
  const [name, flag] = [18, 30];
  const laid = laidOut(value, { axis, name, flag, plot: 0, gap });
  const plot = Math.max(10, (high - laid.high) / Math.max(1, value.bands.length));
  return { axis, name, flag, plot, gap };
}

/** Steps up and down, one a week: what a week has stands over the whole of it. */
export function stepped(values: readonly number[], y: (value: number) => number): string {
  return values
    .map((value, week) => `${week ? "L" : "M"}${weekAt(week)} ${y(value).toFixed(2)}H${weekAt(week + 1)}`)
    .join("");
}

/** The same as an area down to nothing. */
export const area = (values: readonly number[], y: (value: number) => number): string =>
  `M${weekAt(0)} ${y(0)}${stepped(values, y).replace(/^M/, "L")}V${y(0)}Z`;

export const heightOf = (top: number, from: number, to: number): ((value: number) => number) =>
  scaled(0, top || 1, to, from);

/** Eight hatches that can be told apart in one ink: four ways to lean, close and wide. */
const WAYS = [45, 135, 0, 90];

export function hatchOf(place: number): { angle: number; gap: number; weight: number } {
  const wide = Math.floor(place / WAYS.length) % 2 === 1;
  return { angle: WAYS[place % WAYS.length] ?? 45, gap: wide ? 7 : 4, weight: wide ? 2.4 : 1.3 };
}
