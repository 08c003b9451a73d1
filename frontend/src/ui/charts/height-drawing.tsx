import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";
import { daysBetween } from "../../format";
import "./height-drawing.css";
import { Axes, PaperDefs } from "./axes";
import { type Frame, roundSteps, scaled, type Tick, through } from "./chart-shape";

/** A cut as it is drawn; heights that nobody noted are missing. */
export interface DrawnCut {
  id: string;
  day: string;
  before_mm?: number;
  after_mm?: number;
  /** What leaves two thirds of the height before. */
  lowest_mm?: number;
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
const TALL = 230;
const FRAME: Frame = { left: 36, right: WIDE - 8, top: 24, bottom: 206 };
/** Less than this apart two dates under the axis would touch. */
const DATE_PX = 58;

const numbers = (some: readonly (number | undefined)[]): number[] =>
  some.filter((one): one is number => one !== undefined);

/** The highest height that is sure to be seen; what is only just possible may leave the paper. */
function highest({ cuts, ahead, target_mm, mow_at_mm }: HeightDrawingProps): number {
  const cut = cuts.flatMap(({ before_mm, after_mm }) => numbers([before_mm, after_mm]));
  return 1.12 * Math.max(1, ...cut, ...ahead.map(({ mid }) => mid), ...numbers([target_mm, mow_at_mm]));
}

/** Dates under the axis: today, then the ends and the cuts as far as there is room beside the others. */
function dates(
  { cuts, today, writeDay }: HeightDrawingProps,
  ends: readonly [string, string],
  x: (date: string) => number,
): Tick[] {
  const found: Tick[] = [{ at: x(today), text: "today" }];
  const wanted = [...ends, ...cuts.map(({ day }) => day)];
  for (const day of wanted) {
    const at = Math.min(FRAME.right - 18, Math.max(FRAME.left + 16, x(day)));
    if (found.every((one) => Math.abs(one.at - at) >= DATE_PX)) found.push({ at, text: writeDay(day) });
  }
  return found;
}

/** One cut: from the height before down to the height after, with the two thirds marked. */
function CutMark({ cut, x, y }: { cut: DrawnCut; x: number; y: (mm: number) => number }) {
  const { before_mm, after_mm, lowest_mm } = cut;
  if (after_mm === undefined)
    return <path class="height-unsaid" d={`M${x - 4} ${FRAME.bottom - 10}l8 8m0 -8l-8 8`} />;
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

/** What grew between two cuts, where both ends are known. */
function grown(cuts: readonly DrawnCut[], x: (date: string) => number, y: (mm: number) => number): string[] {
  return cuts.slice(1).flatMap((cut, at) => {
    const from = cuts[at];
    if (from?.after_mm === undefined || cut.before_mm === undefined) return [];
    return [
      through([
        [x(from.day), y(from.after_mm)],
        [x(cut.day), y(cut.before_mm)],
      ]),
    ];
  });
}

/** The last cuts of a zone over time, and how high its grass is expected to be on the coming days. */
export function HeightDrawing(props: HeightDrawingProps) {
  const { ahead, today, target_mm, mow_at_mm, write, factor, unit } = props;
  const id = useId();
  const cuts = [...props.cuts].sort((a, b) => (a.day < b.day ? -1 : 1));
  const ends = [cuts[0]?.day ?? today, ahead.at(-1)?.date ?? today] as const;
  const top = highest(props);
  const across = scaled(0, Math.max(1, daysBetween(ends[0], ends[1])), FRAME.left + 14, FRAME.right - 10);
  const x = (date: string) => across(daysBetween(ends[0], date));
  const y = scaled(0, top, FRAME.bottom, FRAME.top);
  const path = (of: "low" | "mid" | "high") => ahead.map((one) => [x(one.date), y(one[of])] as const);
  const last = cuts.at(-1);
  const [next] = ahead;
  return (
    <svg class="drawing height-drawing" viewBox={`0 0 ${WIDE} ${TALL}`} role="img" aria-labelledby={`t${id}`}>
      <title id={`t${id}`}>
        {`Height of the grass over time, ${cuts.length} ${cuts.length === 1 ? "cut" : "cuts"}${
          ahead.length ? " and the coming days" : ""
        }; the same figures are listed below`}
      </title>
      <PaperDefs id={id} frame={FRAME} />
      <Axes
        frame={FRAME}
        x={dates(props, ends, x)}
        y={roundSteps(top, factor, 4).map((mm) => ({ at: y(mm), text: write(mm) }))}
        xName=""
        yName={unit}
      />
      <Level mm={mow_at_mm} y={y} look="height-mow-at" />
      <Level mm={target_mm} y={y} look="height-target" />
      <g clip-path={`url(#c${id})`}>
        {ahead.length > 1 ? (
          <path
            class="height-band"
            d={`${through([...path("high"), ...path("low").reverse()])}Z`}
            fill={`url(#h${id})`}
          />
        ) : null}
        {grown(cuts, x, y).map((d) => (
          <path key={d} class="height-grown" d={d} />
        ))}
        {next && last?.after_mm !== undefined && last.day < next.date ? (
          <path
            class="height-since"
            d={through([
              [x(last.day), y(last.after_mm)],
              [x(next.date), y(next.mid)],
            ])}
          />
        ) : null}
        {ahead.length > 1 ? <path class="height-mid" d={through(path("mid"))} /> : null}
      </g>
      <line class="height-today" x1={x(today)} x2={x(today)} y1={FRAME.top} y2={FRAME.bottom} />
      {cuts.map((cut) => (
        <CutMark key={cut.id} cut={cut} x={x(cut.day)} y={y} />
      ))}
    </svg>
  );
}

/** A height that stands across the whole drawing. */
function Level({ mm, y, look }: { mm: number | undefined; y: (mm: number) => number; look: string }) {
  if (mm === undefined) return null;
  return <line class={`height-level ${look}`} x1={FRAME.left} x2={FRAME.right} y1={y(mm)} y2={y(mm)} />;
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
