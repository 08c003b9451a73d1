/** What stands on and under a drawn plan: the arrow, the start flag, numerals, scale bar and north mark. */

import type { Point } from "../../../ui/drawing/zone-shape";
import { along, type Frame, lineOf, northOf, type PlanOutline, type PlanRow } from "./plan-shape";

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

/** A row that gets no more, in its zone's own metres; without corners it cannot be drawn. */
export interface OutBand {
  zone_id: string;
  points_m: readonly Point[] | null;
}

interface OutProps {
  out: readonly OutBand[];
  zone_id: string | undefined;
  frame: Frame;
}

const LATTICE = 8;

/** Lines both ways and thick: like no pass's hatch, and told apart without colour. */
export function OutHatch({ id }: { id: string }) {
  return (
    <defs>
      <pattern id={id} width={LATTICE} height={LATTICE} patternUnits="userSpaceOnUse">
        <rect class="plan-out-ground" width={LATTICE} height={LATTICE} />
        <path class="plan-out-line" d={`M0 0L${LATTICE} ${LATTICE}M${LATTICE} 0L0 ${LATTICE}`} />
      </pattern>
    </defs>
  );
}

const bandsOf = (out: readonly OutBand[], zone_id: string | undefined) =>
  out.flatMap((one) => (one.zone_id === zone_id && one.points_m ? [one.points_m] : []));

/** The ground under rows that get no more, as wide as they were walked. */
export function OutGround({ id, out, zone_id, frame, band }: OutProps & { id: string; band: number }) {
  const d = bandsOf(out, zone_id)
    .map((points) => lineOf(points, frame.place))
    .join("");
  return d ? <path class="plan-out" d={d} stroke={`url(#${id})`} stroke-width={band.toFixed(1)} /> : null;
}

const NO_MORE = "No more here";
/** Half of what those words take, so that they stay on the paper. */
const HALF_WORDS = 44;

/** The same in words, on the middle one of those rows. */
export function OutWords({ out, zone_id, frame }: OutProps) {
  const bands = bandsOf(out, zone_id);
  const middle = bands[Math.floor(bands.length / 2)];
  const spot = middle && along(middle.map(frame.place), 0.5);
  if (!spot) return null;
  const x = Math.min(Math.max(spot.at[0], HALF_WORDS), frame.wide - HALF_WORDS);
  return (
    <text class="plan-out-words" x={x.toFixed(1)} y={(spot.at[1] + 4.5).toFixed(1)} text-anchor="middle">
      {NO_MORE}
    </text>
  );
}

/** The ground of a zone its strips lie on, in its own metres: its edges and those of its holes. */
export interface ClearGround {
  zone_id: string;
  ground_m: readonly (readonly Point[])[];
}

/** What of the ground stays clear of water, by the even-odd rule: the ground less what its strips lie on. */
export function clearPath({ ground_m }: ClearGround, ground: string, { place }: Frame): string {
  return ground + ground_m.map((ring) => lineOf(ring, place, true)).join("");
}

const CLEAR = "Water: keep clear";
const HALF_CLEAR = 68;

/** The same in words, in the middle of the outline's corners that its strips do not reach. */
export function ClearWords({
  kept: { ground_m },
  outline,
  frame,
}: {
  kept: ClearGround;
  outline: PlanOutline;
  frame: Frame;
}) {
  const reached = new Set(ground_m.flat().map(([x, y]) => `${x.toFixed(4)} ${y.toFixed(4)}`));
  const gone = outline.points_m.filter(([x, y]) => !reached.has(`${x.toFixed(4)} ${y.toFixed(4)}`));
  const [first, last] = [gone[0], gone.at(-1)];
  if (!first || !last) return null;
  const [ax, ay] = frame.place(first);
  const [bx, by] = frame.place(last);
  const x = Math.min(Math.max((ax + bx) / 2, HALF_CLEAR), frame.wide - HALF_CLEAR);
  const y = Math.min(Math.max((ay + by) / 2 + 4.5, 14), frame.high - 4);
  return (
    <text class="plan-out-words" x={x.toFixed(1)} y={y.toFixed(1)} text-anchor="middle">
      {CLEAR}
    </text>
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
