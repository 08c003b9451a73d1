import { useId, useRef } from "preact/hooks";
import { type DialScale, numeralSettings } from "../drawing/dial-shape";
import { Axes, PaperDefs } from "./axes";
import { roundSteps, scaled, through } from "./chart-shape";

export interface CurveRow {
  dial: number;
  rate_kg_m2: { low: number; mid: number; high: number };
}

/** A past pass is told apart by its shape: a disc, a square, a cross, a triangle. */
export type PassMark = "this" | "other" | "left_out" | "doubtful";

export interface CurvePoint {
  key: string;
  dial: number;
  rate_kg_m2: number;
  mark: PassMark;
}

interface CurveDrawingProps {
  dial: DialScale;
  points: readonly CurveRow[];
  past: readonly CurvePoint[];
  /** A rate in the reader's unit, without it; how many kg/m2 one of that unit is; and the unit. */
  write: (rate_kg_m2: number) => string;
  factor: number;
  unit: string;
  writeDial: (setting: number) => string;
  /** The pass whose sheet is open. */
  chosen?: string | undefined;
  onPick?: ((key: string) => void) | undefined;
}

const WIDE = 328;
const FRAME = { left: 42, right: WIDE - 8, top: 24, bottom: 214 };
const TALL = 254;
/** A tap this near to a point, in pixels of the screen, means it: half of what a thumb needs. */
const REACH = 24;

/** One past pass, by its shape. */
export function MarkShape({ mark, x, y, size = 5 }: { mark: PassMark; x: number; y: number; size?: number }) {
  const shape = {
    this: <circle cx={x} cy={y} r={size} />,
    other: <rect x={x - size} y={y - size} width={2 * size} height={2 * size} />,
    left_out: (
      <path d={`M${x - size} ${y - size}l${2 * size} ${2 * size}m0 ${-2 * size}l${-2 * size} ${2 * size}`} />
    ),
    doubtful: <path d={`M${x} ${y - size * 1.2}l${size * 1.2} ${size * 2.2}h${-size * 2.4}Z`} />,
  }[mark];
  return <g class={`curve-mark curve-mark--${mark}`}>{shape}</g>;
}

/** How far the chart reaches: past the settings walked so far, and as high as what fell or is expected there. */
export function curveReach(
  dial: DialScale,
  points: readonly CurveRow[],
  past: readonly CurvePoint[],
): { to: number; top: number } {
  const span = dial.highest - dial.lowest;
  const farthest = Math.max(dial.lowest, ...past.map((one) => one.dial));
  const wanted = past.length ? Math.max(span * 0.4, (farthest - dial.lowest) * 1.5) : span;
  const whole = dial.step * Math.ceil(wanted / dial.step - 1e-6);
  const to = Math.min(dial.highest, dial.lowest + whole);
  const seen = points.filter((one) => one.dial <= to);
  const top = Math.max(
    ...seen.map((one) => one.rate_kg_m2.mid * 1.25),
    ...past.map((one) => one.rate_kg_m2 * 1.15),
  );
  return { to, top: top > 0 && Number.isFinite(top) ? top : 1 };
}

/** What every setting is expected to put down: the median, the band nine in ten passes keep to, the passes walked. */
export function CurveDrawing(props: CurveDrawingProps) {
  const { dial, points, past, write, factor, unit, writeDial, chosen, onPick } = props;
  const id = useId();
  const svg = useRef<SVGSVGElement>(null);
  const { to, top } = curveReach(dial, points, past);
  const x = scaled(dial.lowest, to, FRAME.left, FRAME.right - 6);
  const y = scaled(0, top, FRAME.bottom, FRAME.top);
  const path = (of: "low" | "mid" | "high") =>
    points.map((one) => [x(one.dial), y(Math.min(one.rate_kg_m2[of], top * 4))] as const);
  const band = `${through([...path("high"), ...path("low").reverse()])}Z`;

  function pick(event: MouseEvent): void {
    const box = svg.current?.getBoundingClientRect();
    if (!box || !onPick) return;
    const scale = box.width / WIDE;
    const away = (one: CurvePoint) =>
      Math.hypot(
        event.clientX - box.left - x(one.dial) * scale,
        event.clientY - box.top - y(one.rate_kg_m2) * scale,
      );
    const [near] = [...past].sort((a, b) => away(a) - away(b));
    if (near && away(near) <= REACH) onPick(near.key);
  }

  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the list of passes below holds the same as buttons
    <svg
      ref={svg}
      class="drawing curve-drawing"
      viewBox={`0 0 ${WIDE} ${TALL}`}
      role="img"
      aria-labelledby={`t${id}`}
      onClick={pick}
    >
      <title id={`t${id}`}>
        {`Product put down by dial setting, ${writeDial(dial.lowest)} to ${writeDial(to)}, with ${past.length} past passes as points; they are listed below`}
      </title>
      <PaperDefs id={id} frame={FRAME} />
      <Axes
        frame={FRAME}
        x={numeralSettings({ ...dial, highest: to })
          .filter((setting) => setting < to || to === dial.highest)
          .map((setting) => ({ at: x(setting), text: writeDial(setting) }))}
        y={roundSteps(top, factor, 4).map((rate) => ({ at: y(rate), text: write(rate) }))}
        xName={`dial${to < dial.highest ? ` (of ${writeDial(dial.highest)})` : ""}`}
        yName={unit}
      />
      <g clip-path={`url(#c${id})`}>
        <path class="curve-band" d={band} fill={`url(#h${id})`} />
        <path class="curve-mid" d={through(path("mid"))} />
      </g>
      {past
        .filter((one) => one.dial <= to)
        .map((one) => (
          <g key={one.key}>
            {one.key === chosen ? (
              <circle class="curve-chosen" cx={x(one.dial)} cy={y(one.rate_kg_m2)} r="11" />
            ) : null}
            <MarkShape mark={one.mark} x={x(one.dial)} y={y(one.rate_kg_m2)} />
          </g>
        ))}
    </svg>
  );
}

/** The shape of a pass beside its line in a list. */
export function MarkSwatch({ mark }: { mark: PassMark }) {
  return (
    <svg class="mark-swatch" width="22" height="22" viewBox="0 0 22 22" aria-hidden="true">
      <MarkShape mark={mark} x={11} y={11} size={6} />
    </svg>
  );
}
