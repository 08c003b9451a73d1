import { useId } from "preact/hooks";
import { percent } from "../../format";
import { StripHatch } from "../drawing/strip-hatch";
import { Axes } from "./axes";
import { roundSteps, scaled, through } from "./chart-shape";

const WIDE = 328;

interface TrayPassProps {
  /** What each tray caught, left to right; null where nothing is written yet. */
  catches: readonly (number | null)[];
  /** Each catch as it was written. */
  texts: readonly string[];
}

/** More trays than this leave no room for a figure above each. */
const MOST_FIGURES = 12;

/** One pass over the row: each tray with its catch as a hatched bar, the walker's track in the middle. */
export function TrayPass({ catches, texts }: TrayPassProps) {
  const id = useId();
  const most = Math.max(...catches.map((one) => one ?? 0));
  const wide = (WIDE - 16) / catches.length;
  const tall = (one: number) => (most > 0 ? (one / most) * 104 : 0);
  const written = catches.map((one, k) => (one === null ? "not weighed" : texts[k])).join(", ");
  return (
    <svg class="drawing tray-drawing" viewBox={`0 0 ${WIDE} 172`} role="img" aria-labelledby={`t${id}`}>
      <title id={`t${id}`}>{`What ${catches.length} trays caught, left to right: ${written}`}</title>
      <defs>
        <StripHatch id={`h${id}`} gap={6} weight={1.5} />
      </defs>
      <line class="tray-track" x1={WIDE / 2} x2={WIDE / 2} y1="8" y2="150" />
      {catches.map((one, k) => (
        // Trays have no name but their place in the row.
        <g key={k} transform={`translate(${8 + k * wide} 0)`}>
          <rect
            class="tray-bar"
            x={wide * 0.14}
            width={wide * 0.72}
            y={134 - tall(one ?? 0)}
            height={tall(one ?? 0)}
            fill={`url(#h${id})`}
          />
          <path class="tray-box" d={`M${wide * 0.08} 135v9h${wide * 0.84}v-9`} />
          {one !== null && catches.length <= MOST_FIGURES ? (
            <text x={wide / 2} y={129 - tall(one)} text-anchor="middle">
              {texts[k]}
            </text>
          ) : null}
        </g>
      ))}
      <path class="tray-walker" d={`M${WIDE / 2} 150l-7 12h14Z`} />
      <text x="8" y="164">
        left
      </text>
      <text x={WIDE - 8} y="164" text-anchor="end">
        right
      </text>
    </svg>
  );
}

interface TrayOverlapProps {
  catches_g: readonly number[];
  /** Trays from one track to the next. */
  apart: number;
  /** The overlapped pattern over one repeat, from the leftmost tray of the first pass. */
  overlapped_g: readonly number[];
  mean_g: number;
  /** Every second track is walked the other way. */
  mirrored: boolean;
  /** The distance between tracks, written. */
  distance: string;
  unevenness: string;
}

const FLOOR = 138;

/** Three tracks side by side: each pass thin and dashed, what they come to together as one heavy line. */
export function TrayOverlap(props: TrayOverlapProps) {
  const { catches_g, apart, overlapped_g, mean_g, mirrored, distance, unevenness } = props;
  const id = useId();
  const repeat = overlapped_g.length;
  const centre = (catches_g.length - 1) / 2;
  const [from, to] = [Math.floor(centre - apart / 2), Math.ceil(centre + 2.5 * apart)];
  const x = scaled(from, to, 10, WIDE - 10);
  const y = scaled(0, Math.max(...overlapped_g, mean_g) * 1.12, FLOOR, 14);
  const places = Array.from({ length: to - from + 1 }, (_, k) => from + k);
  const sum = places.map((i) => [x(i), y(overlapped_g[((i % repeat) + repeat) % repeat] ?? 0)] as const);
  const tracks = [0, 1, 2].map((k) => ({ at: centre + k * apart, back: mirrored && k % 2 === 1 }));
  return (
    <svg class="drawing tray-drawing" viewBox={`0 0 ${WIDE} 186`} role="img" aria-labelledby={`t${id}`}>
      <title id={`t${id}`}>
        {`Tracks ${distance} apart: what lies on the ground together, unevenness ${unevenness}`}
      </title>
      <clipPath id={`c${id}`}>
        <rect x="10" y="0" width={WIDE - 20} height={FLOOR} />
      </clipPath>
      <g clip-path={`url(#c${id})`}>
        {tracks.map(({ at, back }) => (
          <path key={at} class="tray-single" d={through(single(catches_g, at, back, x, y))} />
        ))}
        <line class="tray-mean" x1="10" x2={WIDE - 10} y1={y(mean_g)} y2={y(mean_g)} />
        <path class="tray-sum" d={through(sum)} />
      </g>
      <path class="axes-frame" d={`M10 ${FLOOR}H${WIDE - 10}`} />
      {tracks.map(({ at, back }) => (
        <path
          key={at}
          class="tray-walker"
          d={back ? `M${x(at)} ${FLOOR + 15}l-7 -12h14Z` : `M${x(at)} ${FLOOR + 3}l-7 12h14Z`}
        />
      ))}
      <path
        class="tray-apart"
        d={`M${x(centre)} ${FLOOR + 22}v10M${x(centre + apart)} ${FLOOR + 22}v10M${x(centre)} ${FLOOR + 27}H${x(centre + apart)}`}
      />
      <text x={(x(centre) + x(centre + apart)) / 2} y={FLOOR + 44} text-anchor="middle">
        {distance}
      </text>
    </svg>
  );
}

/** One pass about its track; walked back, its left lies right. */
function single(
  catches_g: readonly number[],
  at: number,
  back: boolean,
  x: (place: number) => number,
  y: (grams: number) => number,
): [number, number][] {
  const centre = (catches_g.length - 1) / 2;
  const seen = back ? [...catches_g].reverse() : catches_g;
  return seen.map((grams, j) => [x(at + j - centre), y(grams)]);
}

interface UnevennessProps {
  rows: readonly { spacing_m: number; cv_share: number }[];
  limit_share: number;
  /** The distance looked at. */
  chosen_m: number | undefined;
  /** A length without its unit, and the unit. */
  write: (metres: number) => string;
  unit: string;
}

const CHART = { left: 40, right: WIDE - 8, top: 22, bottom: 134 };
/** Above this unevenness nobody spreads; points beyond it stand at the top. */
const MOST_CV = 0.6;

/** Unevenness by distance between tracks, with the limit: filled points are within it, hollow ones over. */
export function UnevennessChart({ rows, limit_share, chosen_m, write, unit }: UnevennessProps) {
  const id = useId();
  const top = Math.min(MOST_CV, Math.max(limit_share * 1.6, ...rows.map((row) => row.cv_share)));
  const farthest = Math.max(...rows.map((row) => row.spacing_m));
  const x = scaled(0, farthest, CHART.left, CHART.right - 8);
  const y = scaled(0, top, CHART.bottom, CHART.top);
  const points = rows.map((row) => [x(row.spacing_m), y(Math.min(top, row.cv_share))] as const);
  const within = rows.filter((row) => row.cv_share <= limit_share).length;
  const every = Math.ceil(rows.length / 6);
  return (
    <svg class="drawing tray-drawing" viewBox={`0 0 ${WIDE} 172`} role="img" aria-labelledby={`t${id}`}>
      <title id={`t${id}`}>
        {`Unevenness by distance between strips: ${within} of ${rows.length} distances are within the limit`}
      </title>
      <Axes
        frame={CHART}
        x={rows
          .filter((_, k) => (k + 1) % every === 0)
          .map((row) => ({ at: x(row.spacing_m), text: write(row.spacing_m) }))}
        y={roundSteps(top, 0.01, 3).map((at) => ({ at: y(at), text: percent(at).text }))}
        xName={`between tracks, ${unit}`}
        yName="unevenness (CV)"
      />
      <line class="tray-limit" x1={CHART.left} x2={CHART.right} y1={y(limit_share)} y2={y(limit_share)} />
      <path class="tray-line" d={through(points)} />
      {points.map(([px, py], k) => {
        const row = rows[k];
        const look = (row?.cv_share ?? 1) <= limit_share ? "tray-point tray-point--within" : "tray-point";
        return (
          <g key={px} class={look}>
            {row?.spacing_m === chosen_m ? <circle class="tray-chosen" cx={px} cy={py} r="9" /> : null}
            <circle cx={px} cy={py} r="4.5" />
          </g>
        );
      })}
    </svg>
  );
}
