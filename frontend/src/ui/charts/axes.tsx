import { StripHatch } from "../drawing/strip-hatch";
import type { Frame, Tick } from "./chart-shape";

interface AxesProps {
  frame: Frame;
  /** Ticks on paper: where they stand, what they say. */
  x: readonly Tick[];
  y: readonly Tick[];
  xName: string;
  yName: string;
  /** So many times the usual letters are written. */
  times?: number;
}

/** The ruled frame of a chart: thin rules across, numbers beside them, what is counted in words. */
export function Axes({ frame, x, y, xName, yName, times = 1 }: AxesProps) {
  const { left, right, top, bottom } = frame;
  return (
    <g class="axes">
      {y.map(({ at, text }) => (
        <g key={text}>
          <line class="axes-rule" x1={left} x2={right} y1={at} y2={at} />
          <text x={left - 5} y={at + 4 * times} text-anchor="end">
            {text}
          </text>
        </g>
      ))}
      {x.map(({ at, text }) => (
        <g key={text}>
          <line class="axes-tick" x1={at} x2={at} y1={bottom} y2={bottom + 5} />
          <text x={at} y={bottom + 4 + 14 * times} text-anchor="middle">
            {text}
          </text>
        </g>
      ))}
      <path class="axes-frame" d={`M${left} ${top}V${bottom}H${right}`} />
      <text class="axes-name" x={left - 5} y={top - 7}>
        {yName}
      </text>
      <text class="axes-name" x={right} y={bottom + 5 + 28 * times} text-anchor="end">
        {xName}
      </text>
    </g>
  );
}

/** What a band is hatched with, `h` and the id, and the paper that nothing is drawn beyond, `c` and the id. */
export function PaperDefs({ id, frame }: { id: string; frame: Frame }) {
  const { left, right, top, bottom } = frame;
  return (
    <defs>
      <StripHatch id={`h${id}`} gap={6} weight={1.3} />
      <clipPath id={`c${id}`}>
        <rect x={left} y={top} width={right - left} height={bottom - top} />
      </clipPath>
    </defs>
  );
}
