import type { ComponentChildren } from "preact";
import { useId, useRef } from "preact/hooks";
import { daysBetween } from "../../format";
import "./height-drawing.css";
import { Axes, PaperDefs } from "./axes";
import { type Frame, roundSteps, scaled, type Tick, through } from "./chart-shape";
import { USUAL, useLetters } from "./letters";

/** A cut as it is drawn; heights that nobody noted are missing. */
export interface DrawnCut {
  id: string;
  day: string;
  before_mm?: number;
  after_mm?: number;
  /** What leaves two thirds of the height before. */
  lowest_mm?: number;
}

/** A height read without a cut. */
export interface DrawnLook {
  id: string;
  day: string;
  height_mm: number;
}

export interface DrawnDay {
  date: string;
  low: number;
  mid: number;
  high: number;
}

export interface HeightDrawingProps {
  /** In any order. */
  cuts: readonly DrawnCut[];
  looks?: readonly DrawnLook[];
  /** Heights expected from today on, in order; none where nothing is foretold. */
  ahead: readonly DrawnDay[];
  today: string;
  /** Height of cut wanted, and the height at which a cut to it takes a third. */
  target_mm?: number | undefined;
  mow_at_mm?: number | undefined;
  /** A height in the reader's unit, without it; how many mm one of that unit is; and the unit. */
  write: (mm: number) => string;
  factor: number;
  unit: string;
  writeDay: (date: string) => string;
}

const WIDE = 328;
/** Room above, below and beside what is drawn, for numerals of the usual size; larger ones take more. */
const [ABOVE, BELOW, BESIDE] = [24, 24, 36];
const DRAWN = 182;
/** Less than this apart two dates of the usual size under the axis would touch. */
const DATE_PX = 58;

function frameOf(times: number): Frame {
  const top = ABOVE * times;
  return { left: BESIDE * times, right: WIDE - 8, top, bottom: top + DRAWN };
}

const numbers = (some: readonly (number | undefined)[]): number[] =>
  some.filter((one): one is number => one !== undefined);

/** The highest height that is sure to be seen; what is only just possible may leave the paper. */
function highest({ cuts, looks = [], ahead, target_mm, mow_at_mm }: HeightDrawingProps): number {
  const cut = cuts.flatMap(({ before_mm, after_mm }) => numbers([before_mm, after_mm]));
  const read = looks.map(({ height_mm }) => height_mm);
  return (
    1.12 * Math.max(1, ...cut, ...read, ...ahead.map(({ mid }) => mid), ...numbers([target_mm, mow_at_mm]))
  );
}

/** Dates under the axis: today, then the ends and the cuts as far as there is room beside the others. */
function dates(
  { cuts, today, writeDay }: HeightDrawingProps,
  ends: readonly [string, string],
  x: (date: string) => number,
  { left, right }: Frame,
  times: number,
): Tick[] {
  const found: Tick[] = [{ at: Math.min(right - 16 * times, x(today)), text: "today" }];
  const wanted = [...ends, ...cuts.map(({ day }) => day)];
  for (const day of wanted) {
    const at = Math.min(right - 18 * times, Math.max(left + 16 * times, x(day)));
    if (found.every((one) => Math.abs(one.at - at) >= DATE_PX * times))
      found.push({ at, text: writeDay(day) });
  }
  return found;
}

/** One cut: from the height before down to the height after, with the two thirds marked. */
function CutMark({ cut, x, y, foot }: { cut: DrawnCut; x: number; y: (mm: number) => number; foot: number }) {
  const { before_mm, after_mm, lowest_mm } = cut;
  if (after_mm === undefined)
    return <path class="height-unsaid" d={`M${x - 4} ${foot - 10}l8 8m0 -8l-8 8`} />;
  return (
    <g class="height-cut">
      {before_mm === undefined ? null : (
        <line class="height-taken" x1={x} x2={x} y1={y(before_mm)} y2={y(after_mm)} />
      )}
      {lowest_mm === undefined ? null : (
        <line class="height-third" x1={x - 8} x2={x + 8} y1={y(lowest_mm)} y2={y(lowest_mm)} />
      )}
      <circle cx={x} cy={y(after_mm)} r="4.5" />
    </g>
  );
}

/** A diamond: a cut is a dot. */
const DIAMOND = "l6 6l-6 6l-6 -6Z";

/** What is known of a moment: how high the grass came to it, and how high it went on from there. */
interface Moment {
  day: string;
  to?: number | undefined;
  from?: number | undefined;
}

/** A height of the day of a cut was read before it, as the engine takes it. */
function moments({ cuts, looks = [] }: HeightDrawingProps): Moment[] {
  const read = looks.map(({ day, height_mm }) => ({ day, to: height_mm, from: height_mm }));
  const cut = cuts.map(({ day, before_mm, after_mm }) => ({ day, to: before_mm, from: after_mm }));
  return [...read, ...cut].sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
}

/** What grew from one to the next, where both ends are known. */
function grown(all: readonly Moment[], x: (date: string) => number, y: (mm: number) => number): string[] {
  return all.slice(1).flatMap(({ day, to }, at) => {
    const before = all[at];
    if (before?.from === undefined || to === undefined || before.day === day) return [];
    return [
      through([
        [x(before.day), y(before.from)],
        [x(day), y(to)],
      ]),
    ];
  });
}

/** The last cuts of a zone over time, and how high its grass is expected to be on the coming days. */
export function HeightDrawing(props: HeightDrawingProps) {
  const { ahead, today, target_mm, mow_at_mm, write, factor, unit } = props;
  const id = useId();
  const paper = useRef<SVGSVGElement>(null);
  const times = useLetters(paper, WIDE);
  const frame = frameOf(times);
  const looks = props.looks ?? [];
  const all = moments(props);
  const cuts = [...props.cuts].sort((a, b) => (a.day < b.day ? -1 : 1));
  const ends = [all[0]?.day ?? today, ahead.at(-1)?.date ?? today] as const;
  const top = highest(props);
  const across = scaled(0, Math.max(1, daysBetween(ends[0], ends[1])), frame.left + 14, frame.right - 10);
  const x = (date: string) => across(daysBetween(ends[0], date));
  const y = scaled(0, top, frame.bottom, frame.top);
  const path = (of: "low" | "mid" | "high") => ahead.map((one) => [x(one.date), y(one[of])] as const);
  const last = all.at(-1);
  const [next] = ahead;
  return (
    <svg
      ref={paper}
      class="drawing height-drawing"
      viewBox={`0 0 ${WIDE} ${frame.bottom + BELOW * times}`}
      role="img"
      aria-labelledby={`t${id}`}
      style={{ "--letters": `${USUAL * times}px` }}
    >
      <title id={`t${id}`}>
        {`Height of the grass over time, ${cuts.length} ${cuts.length === 1 ? "cut" : "cuts"}${
          looks.length ? `, ${looks.length} more ${looks.length === 1 ? "height" : "heights"}` : ""
        }${ahead.length ? " and the coming days" : ""}; the same figures are listed below`}
      </title>
      <PaperDefs id={id} frame={frame} />
      <Axes
        frame={frame}
        times={times}
        x={dates(props, ends, x, frame, times)}
        y={roundSteps(top, factor, 4).map((mm) => ({ at: y(mm), text: write(mm) }))}
        xName=""
        yName={unit}
      />
      <Level mm={mow_at_mm} y={y} frame={frame} look="height-mow-at" />
      <Level mm={target_mm} y={y} frame={frame} look="height-target" />
      <g clip-path={`url(#c${id})`}>
        {ahead.length > 1 ? (
          <path
            class="height-band"
            d={`${through([...path("high"), ...path("low").reverse()])}Z`}
            fill={`url(#h${id})`}
          />
        ) : null}
        {grown(all, x, y).map((d) => (
          <path key={d} class="height-grown" d={d} />
        ))}
        {next && last?.from !== undefined && last.day < next.date ? (
          <path
            class="height-since"
            d={through([
              [x(last.day), y(last.from)],
              [x(next.date), y(next.mid)],
            ])}
          />
        ) : null}
        {ahead.length > 1 ? <path class="height-mid" d={through(path("mid"))} /> : null}
      </g>
      <line class="height-today" x1={x(today)} x2={x(today)} y1={frame.top} y2={frame.bottom} />
      {looks.map((look) => (
        <path key={look.id} class="height-look" d={`M${x(look.day)} ${y(look.height_mm) - 6}${DIAMOND}`} />
      ))}
      {cuts.map((cut) => (
        <CutMark key={cut.id} cut={cut} x={x(cut.day)} y={y} foot={frame.bottom} />
      ))}
    </svg>
  );
}

interface LevelProps {
  mm: number | undefined;
  y: (mm: number) => number;
  frame: Frame;
  look: string;
}

/** A height that stands across the whole drawing. */
function Level({ mm, y, frame, look }: LevelProps) {
  if (mm === undefined) return null;
  return <line class={`height-level ${look}`} x1={frame.left} x2={frame.right} y1={y(mm)} y2={y(mm)} />;
}

/** Each mark as it is drawn, and what it means. */
const MARKS = {
  cut: {
    says: "Cut: height before and after",
    mark: (
      <g class="height-cut">
        <line class="height-taken" x1="11" x2="11" y1="2" y2="16" />
        <circle cx="11" cy="16" r="4" />
      </g>
    ),
  },
  third: {
    says: "One third off",
    mark: <line class="height-third" x1="3" x2="19" y1="11" y2="11" />,
  },
  look: { says: "Height read, no cut", mark: <path class="height-look" d={`M11 5${DIAMOND}`} /> },
  unsaid: { says: "Cut without a height", mark: <path class="height-unsaid" d="M7 7l8 8m0 -8l-8 8" /> },
  ahead: {
    says: "Expected, 80% likely in the band",
    mark: (
      <>
        <path class="height-band" fill="var(--shade)" d="M1 9L21 2V20L1 15Z" />
        <path class="height-mid" d="M1 12L21 11" />
      </>
    ),
  },
  target: {
    says: "Mowing height",
    mark: <line class="height-level height-target" x1="0" x2="22" y1="11" y2="11" />,
  },
  mow_at: {
    says: "Above this a cut takes over a third",
    mark: <line class="height-level height-mow-at" x1="0" x2="22" y1="11" y2="11" />,
  },
};

/** What the marks that are there mean, beside the drawing. */
export function HeightLegend({ of }: { of: Readonly<Record<keyof typeof MARKS, boolean>> }) {
  const there = (Object.keys(MARKS) as (keyof typeof MARKS)[]).filter((name) => of[name]);
  return (
    <ul class="height-legend">
      {there.map((name) => (
        <li key={name}>
          <Swatch>{MARKS[name].mark}</Swatch>
          {MARKS[name].says}
        </li>
      ))}
    </ul>
  );
}

function Swatch({ children }: { children: ComponentChildren }) {
  return (
    <svg class="mark-swatch" width="22" height="22" viewBox="0 0 22 22" aria-hidden="true">
      {children}
    </svg>
  );
}
