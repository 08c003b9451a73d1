import "./ground.css";

interface NorthMarkProps {
  /** Degrees clockwise from up on the drawing. */
  north: number | null | undefined;
  x: number;
  y: number;
  /** The needle alone, for a thumbnail. */
  small?: boolean;
}

/** An arrow that points to north on a drawing; nothing where north is not known. */
export function NorthMark({ north, x, y, small }: NorthMarkProps) {
  if (typeof north !== "number") return null;
  return (
    <g class="north-mark" transform={`translate(${x} ${y})${small ? " scale(0.6)" : ""}`}>
      <g transform={`rotate(${north})`}>
        <path class="north-mark__needle" d="M0 -15L5 3L0 0L-5 3Z" />
        <path class="north-mark__tail" d="M0 0V11" />
      </g>
      <circle class="north-mark__ring" r={3} />
      {small ? null : (
        <text x={Math.sin((north * Math.PI) / 180) * 21} y={-Math.cos((north * Math.PI) / 180) * 21 + 4}>
          N
        </text>
      )}
    </g>
  );
}

/** Where a drawing with y up shows north, from the bearing of up. */
export function northOn(bearing: number | null | undefined): number | null {
  return typeof bearing === "number" ? (360 - bearing) % 360 : null;
}
