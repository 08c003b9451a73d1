/** How the chart of soil warmth is drawn: what stands where, and with which line. Drawing only. */
import type UPlot from "uplot";
import { dayMonth, type System, temperatureSteps } from "../../../format";
import type { Ink, Plotted } from "../../../ui/charts/plot";

export type Air = "measured" | "forecast" | "climate";

export interface SoilDay {
  date: string;
  low: number;
  mid: number;
  high: number;
  air: Air;
}

export interface SoilDrawn {
  today: string;
  days: readonly SoilDay[];
  points: readonly { date: string; mid: number; used: boolean }[];
  /** Their words, long and short; the long ones where there is room. */
  marks: readonly { mid: number; words: readonly string[] }[];
}

/** Told apart by its line: whole where the air was measured, dashed where it is foretold, dotted where it is the climate's. */
const DASHES: Record<Air, number[]> = { measured: [], forecast: [8, 5], climate: [2, 5] };
const AIRS = Object.keys(DASHES) as Air[];
const DAY_S = 86_400;
const MOST_TICKS = 5;

export const secondsOf = (day: string): number => Date.parse(`${day}T00:00:00Z`) / 1000;
const dayOf = (seconds: number): string => new Date(seconds * 1000).toISOString().slice(0, 10);

/** Days under which a date is written: firsts of months, or every second week where few months are shown. */
export function dayTicks(days: readonly SoilDay[]): number[] {
  const firsts = days.filter(({ date }) => date.endsWith("-01")).map(({ date }) => date);
  const some =
    firsts.length >= MOST_TICKS - 1 ? firsts : days.filter((_, at) => at % 14 === 7).map(({ date }) => date);
  const every = Math.ceil(some.length / MOST_TICKS);
  return some.filter((_, at) => at % every === 0).map(secondsOf);
}

/** From the coldest to the warmest of all that is drawn, with room for words above. */
export function reach({ days, points, marks }: SoilDrawn): [low: number, high: number] {
  const all = [
    ...days.flatMap(({ low, high }) => [low, high]),
    ...[...points, ...marks].map(({ mid }) => mid),
  ];
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const span = Math.max(high - low, 1);
  return [low - span * 0.04, high + span * 0.16];
}

/** One row a kind of air; each begins where the one before it ended, so that no gap is between them. */
export function rowsOf(days: readonly SoilDay[]): UPlot.AlignedData {
  const of = (air: Air) =>
    days.map(({ mid, air: its }, at) => (its === air || days[at + 1]?.air === air ? mid : null));
  const column = (name: "low" | "high") => days.map((day) => day[name]);
  return [days.map(({ date }) => secondsOf(date)), column("high"), column("low"), ...AIRS.map(of)];
}

/** Slanting lines, so that the likely range is seen without its colour. */
function hatch({ soft }: Ink, scale: number): CanvasPattern | string {
  const tile = document.createElement("canvas");
  const side = Math.round(7 * scale);
  tile.width = side;
  tile.height = side;
  const pen = tile.getContext("2d");
  if (!pen) return "transparent";
  pen.strokeStyle = soft;
  pen.globalAlpha = 0.55;
  pen.lineWidth = scale;
  for (const shift of [-side, 0, side]) {
    pen.moveTo(shift, side);
    pen.lineTo(shift + side, 0);
  }
  pen.stroke();
  return pen.createPattern(tile, "repeat") ?? "transparent";
}

const scaleOf = (u: UPlot): number => u.ctx.canvas.width / u.width;

function line(
  u: UPlot,
  from: [number, number],
  to: [number, number],
  color: string,
  dash: number[],
  wide = 1.5,
) {
  const { ctx } = u;
  const scale = scaleOf(u);
  ctx.save();
  ctx.strokeStyle = color;
  ctx.lineWidth = wide * scale;
  ctx.setLineDash(dash.map((one) => one * scale));
  ctx.beginPath();
  ctx.moveTo(...from);
  ctx.lineTo(...to);
  ctx.stroke();
  ctx.restore();
}

/** Words over whatever is drawn there, on a rim of paper; the first of them that has room. */
function write(
  u: UPlot,
  ink: Ink,
  words: readonly string[],
  x: number,
  y: number,
  to: "left" | "right" = "left",
) {
  const { ctx } = u;
  const scale = scaleOf(u);
  ctx.save();
  ctx.font = `${ink.letters * scale}px ${ink.family}`;
  ctx.textAlign = to;
  ctx.lineJoin = "round";
  ctx.setLineDash([]); // the curve's own is still set
  ctx.lineWidth = 5 * scale;
  ctx.strokeStyle = ink.paper;
  ctx.fillStyle = ink.ink;
  const room = to === "left" ? u.bbox.left + u.bbox.width - x : x - u.bbox.left;
  const fits = words.find((one) => ctx.measureText(one).width <= room);
  if (fits) {
    ctx.strokeText(fits, x, y);
    ctx.fillText(fits, x, y);
  }
  ctx.restore();
}

/** Beneath the curve: the lines of what waits for warmth. */
function ruleMarks(u: UPlot, ink: Ink, { marks }: SoilDrawn): void {
  const { left, width } = u.bbox;
  for (const { mid } of marks) {
    const y = u.valToPos(mid, "y", true);
    line(u, [left, y], [left + width, y], ink.flag, [10, 4, 2, 4]);
  }
}

/** The first coming day that only the climate tells of; nothing where it tells of all of them. */
function climateFrom({ days, today }: SoilDrawn): string | undefined {
  if (days.every(({ air }) => air === "climate")) return undefined;
  return days.find(({ date, air }) => air === "climate" && date > today)?.date;
}

/** The side of the chart on which the curve keeps farther from a mark, so that its words cover less. */
export function roomier(days: readonly SoilDay[], mark: number): "left" | "right" {
  const part = Math.ceil(days.length / 2);
  const away = (some: readonly SoilDay[]) => Math.min(...some.map(({ mid }) => Math.abs(mid - mark)));
  return away(days.slice(0, part)) >= away(days.slice(-part)) ? "left" : "right";
}

/** Over the curve: today, where the climate begins, readings, and what the lines are. */
function letter(u: UPlot, ink: Ink, drawn: SoilDrawn, unit: string): void {
  const { left, top, width, height } = u.bbox;
  const scale = scaleOf(u);
  const high = ink.letters * scale;
  const x = (day: string) => u.valToPos(secondsOf(day), "x", true);
  const upright = (day: string, dash: number[]) =>
    line(u, [x(day), top], [x(day), top + height], ink.ink, dash);
  const climate = climateFrom(drawn);
  upright(drawn.today, []);
  if (climate) upright(climate, [2, 5]);
  for (const { mid, words } of drawn.marks) {
    const side = roomier(drawn.days, mid);
    const at = side === "left" ? left + 4 * scale : left + width - 4 * scale;
    write(u, ink, words, at, u.valToPos(mid, "y", true) - 4 * scale, side);
  }
  write(u, ink, ["Today"], x(drawn.today) - 4 * scale, top + high, "right");
  if (climate) write(u, ink, ["Climate"], x(climate) + 4 * scale, top + high);
  write(u, ink, [unit], 0, top - high * 0.6);
  for (const point of drawn.points) mark(u, ink, x(point.date), u.valToPos(point.mid, "y", true), point.used);
  line(u, [left, top], [left, top + height], ink.ink, []);
  line(u, [left, top + height], [left + width, top + height], ink.ink, []);
}

/** A reading: a disc where it counts, a hollow square where it was read at another depth. */
function mark(u: UPlot, ink: Ink, x: number, y: number, used: boolean): void {
  const { ctx } = u;
  const size = 5 * scaleOf(u);
  ctx.save();
  ctx.lineWidth = 2 * scaleOf(u);
  ctx.setLineDash([]);
  ctx.fillStyle = used ? ink.ink : ink.paper;
  ctx.strokeStyle = used ? ink.paper : ink.ink;
  ctx.beginPath();
  if (used) ctx.arc(x, y, size, 0, 2 * Math.PI);
  else ctx.rect(x - size, y - size, 2 * size, 2 * size);
  ctx.fill();
  ctx.stroke();
  ctx.restore();
}

function axes(ink: Ink, drawn: SoilDrawn, system: System): UPlot.Axis[] {
  const [low, high] = reach(drawn);
  const steps = temperatureSteps(low, high, system);
  const look = { stroke: ink.ink, font: `${ink.letters}px ${ink.family}`, ticks: { show: false } };
  return [
    {
      ...look,
      size: ink.letters * 2.2,
      gap: 6,
      grid: { show: false },
      ticks: { show: true, stroke: ink.ink, size: 5, width: 1 },
      splits: () => dayTicks(drawn.days),
      values: (_, at) => at.map((one) => dayMonth(dayOf(one))),
    },
    {
      ...look,
      size: ink.letters * 2.6,
      gap: 5,
      grid: { show: true, stroke: ink.rule, width: 1 },
      splits: () => steps.map(({ c }) => c),
      values: () => steps.map(({ text }) => text),
    },
  ];
}

export function soilPlot(drawn: SoilDrawn, system: System, unit: string, ink: Ink): Plotted {
  const curve = (air: Air): UPlot.Series => ({
    stroke: ink.ink,
    width: 3,
    dash: DASHES[air],
    points: { show: false },
  });
  const edge: UPlot.Series = { stroke: ink.soft, width: 1, points: { show: false } };
  const data = rowsOf(drawn.days);
  const [first = 0] = data[0];
  const last = data[0].at(-1) ?? first + DAY_S;
  return {
    data,
    options: {
      legend: { show: false },
      cursor: { show: false },
      padding: [ink.letters * 1.7, ink.letters * 1.2, 0, 0],
      scales: { x: { range: [first, last] }, y: { range: reach(drawn) } },
      series: [{}, edge, edge, ...AIRS.map(curve)],
      bands: [{ series: [1, 2], fill: (u) => hatch(ink, scaleOf(u)) }],
      axes: axes(ink, drawn, system),
      hooks: {
        drawAxes: [(u) => ruleMarks(u, ink, drawn)],
        draw: [(u) => letter(u, ink, drawn, unit)],
      },
    },
  };
}
