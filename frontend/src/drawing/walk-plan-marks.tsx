/** What stands on and under a drawn plan: the arrow, the start flag, numerals, scale bar and north mark. */
import { along, type Frame, northOf, type PlanOutline, type PlanRow } from "./walk-plan-shape";
import type { Point } from "./zone-shape";

function placed({ points_m }: PlanRow, { place }: Frame): Point[] {
  return (points_m ?? []).map(place);
}

/** Half way along a strip; soon after the start of a round, where one sets off. */
const ARROW_AT = { strip: 0.5, header: 0.15, whole: 0.5 };

/** Which way the strip being walked runs. */
export function NowArrow({ now, frame }: { now: PlanRow | null; frame: Frame }) {
  const spot = now && along(placed(now, frame), ARROW_AT[now.kind]);
  if (!spot) return null;
  const [x, y] = spot.at;
  return (
    <path
      class="plan-arrow"
      d="M0 -9L7.5 7L0 3L-7.5 7Z"
      transform={`translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${spot.angle.toFixed(1)})`}
    />
  );
}

/** A marking flag where the first row of the zone begins. */
export function StartFlag({ first, frame }: { first: PlanRow | undefined; frame: Frame }) {
  const from = first && placed(first, frame)[0];
  if (!from) return null;
  return (
    <g class="plan-start" transform={`translate(${from[0].toFixed(1)} ${from[1].toFixed(1)})`}>
      <path d="M0 0V-19" />
      <path class="plan-start__cloth" d="M0 -19L12 -15L0 -10Z" />
      <circle r="2.5" />
    </g>
  );
}

/** Narrower strips than this have no room for a numeral. */
const LEAST_BAND = 11;

/** Each strip's number at the end where it begins. */
export function Numerals({ rows, frame, band }: { rows: readonly PlanRow[]; frame: Frame; band: number }) {
  if (band < LEAST_BAND) return null;
  const strips = rows.filter(({ kind }) => kind === "strip");
  return (
    <g class="plan-numerals">
      {strips.map((row, k) => {
        const spot = along(placed(row, frame), 0.12);
        if (!spot) return null;
        const [x, y] = spot.at;
        return (
          <text key={row.number} x={x.toFixed(1)} y={(y + 3.5).toFixed(1)} text-anchor="middle">
            {k + 1}
          </text>
        );
      })}
    </g>
  );
}

interface FootProps {
  outline: PlanOutline;
  frame: Frame;
  scale: ((most_m: number) => { length_m: number; text: string }) | undefined;
}

/** Scale bar and north mark, under the ground. */
export function Foot({ outline, frame, scale }: FootProps) {
  const bar = scale?.((frame.wide - 80) / frame.scale / 2.5);
  const north = northOf(outline, frame);
  const under = frame.high + 8;
  return (
    <>
      {bar ? (
        <g class="zone-scale">
          <path d={`M8 ${under}v7h${(bar.length_m * frame.scale).toFixed(1)}v-7`} />
          <text x={14 + bar.length_m * frame.scale} y={under + 8}>
            {bar.text}
          </text>
        </g>
      ) : null}
      {north === null ? null : (
        <g class="plan-north" transform={`translate(${frame.wide - 16} ${under + 3})`}>
          <g transform={`rotate(${north.toFixed(1)})`}>
            <path d="M0 -12L5 9L0 5L-5 9Z" />
          </g>
          <text x="-14" y="5" text-anchor="end">
            N
          </text>
        </g>
      )}
    </>
  );
}
