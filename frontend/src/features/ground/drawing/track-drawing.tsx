/** The line walked so far, from above and to scale: where it began, where the phone is now, what is still open. */
import { BOARD, type Spot, toBoard, viewOn } from "../../../ui/drawing/board";
import { ScaleBar } from "./outline-editor";

interface TrackProps {
  points_m: Spot[];
  label: string;
  scale: (most_m: number) => { length_m: number; text: string };
  closed: boolean;
}

/** Least width shown, metres: the first steps do not fill the board with their own error. */
const LEAST_M = 12;

export function TrackDrawing({ points_m, label, scale, closed }: TrackProps) {
  const view = viewOn(points_m, 1, LEAST_M);
  const spots = points_m.map((point) => toBoard(view, point));
  const [first, last] = [spots[0], spots.at(-1)];
  if (!first || !last) return null;
  const line = spots.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L");
  return (
    <svg
      class="drawing board board--still"
      viewBox={`0 0 ${BOARD.wide} ${BOARD.tall}`}
      role="img"
      aria-label={label}
    >
      <path class="track-line" d={`M${line}${closed ? "Z" : ""}`} />
      {closed ? null : <path class="track-close" d={`M${last.join(" ")}L${first.join(" ")}`} />}
      <rect class="track-start" x={first[0] - 6} y={first[1] - 6} width={12} height={12} />
      {closed ? null : <circle class="track-here" cx={last[0]} cy={last[1]} r={8} />}
      <g class="north-mark">
        <path class="north-mark__needle" d={`M${BOARD.wide - 20} 12l6 18l-6 -4l-6 4Z`} />
        <text x={BOARD.wide - 20} y={44}>
          N
        </text>
      </g>
      <ScaleBar view={view} scale={scale} />
    </svg>
  );
}
