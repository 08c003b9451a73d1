import { useId } from "preact/hooks";
import { StripHatch } from "./strip-hatch";
import {
  extent,
  fromCorner,
  type Outline,
  offsetsOutline,
  type Point,
  partsOutlines,
  radiiOutline,
  type ShapePart,
} from "./zone-shape";

interface ZoneDrawingProps {
  /** Shapes as the engine's `area.shapes` takes them; each drawn to one scale. */
  parts?: ShapePart[];
  spacing_m?: number;
  offsets_m?: number[];
  radii_m?: number[];
  points_m?: Point[];
  /** Passes walked so far: each adds its hatch. */
  passes?: number;
  /** What the drawing shows, said first. */
  label?: string;
  /** Chooses the scale bar, no longer than what is given and round in the reader's units; without it none is drawn. */
  scale?: (most_m: number) => { length_m: number; text: string };
}

const WIDE = 300;
const MOST_TALL = 190;
const MARGIN = 10;

function outlinesOf(props: ZoneDrawingProps): Outline[] {
  if (props.parts) return partsOutlines(props.parts);
  if (props.offsets_m) return offsetsOutline(props.spacing_m ?? 0, props.offsets_m);
  if (props.radii_m) return radiiOutline(props.radii_m);
  const points = props.points_m ?? [];
  // A plan has north up: its y runs the other way from paper's.
  return points.length > 2 ? [{ points: fromCorner(points.map(([x, y]) => [x, -y])), cut: false }] : [];
}

function path(points: Point[], scale: number): string {
  return `M${points.map(([x, y]) => `${MARGIN + x * scale} ${MARGIN + y * scale}`).join("L")}Z`;
}

/** Measured ground from above, to scale; cut-outs cross-hatched. */
export function ZoneDrawing(props: ZoneDrawingProps) {
  const id = useId();
  const outlines = outlinesOf(props);
  const { wide, tall } = extent(outlines);
  if (!(wide > 0) || !(tall > 0)) return null;
  const scale = Math.min((WIDE - 2 * MARGIN) / wide, MOST_TALL / tall);
  const high = tall * scale + 2 * MARGIN + 26;
  const bar = props.scale?.((WIDE - 2 * MARGIN) / scale / 3);
  const passes = Array.from({ length: props.passes ?? 0 }, (_, k) => k + 1);
  const cuts = outlines.filter((outline) => outline.cut).length;
  const title = `${props.label ?? "Ground from above, to scale"}: ${outlines.length - cuts} drawn, ${cuts} cut out`;
  return (
    <svg class="drawing zone-drawing" viewBox={`0 0 ${WIDE} ${high}`} role="img" aria-labelledby={`t${id}`}>
      <title id={`t${id}`}>{title}</title>
      <defs>
        <StripHatch id={`c${id}`} gap={5} weight={1.4} line="hatch-line" />
        {passes.map((pass) => (
          <StripHatch key={pass} id={`p${pass}${id}`} pass={pass} />
        ))}
      </defs>
      {outlines.map((outline, k) => {
        const d = path(outline.points, scale);
        return (
          <g key={`${k}${outline.cut}`} class={outline.cut ? "zone-cut" : "zone-ground"}>
            <path d={d} fill={outline.cut ? `url(#c${id})` : undefined} />
            {!outline.cut &&
              passes.map((pass) => <path key={pass} class="zone-pass" d={d} fill={`url(#p${pass}${id})`} />)}
          </g>
        );
      })}
      {bar ? (
        <g class="zone-scale">
          <path d={`M${MARGIN} ${high - 14}v6h${bar.length_m * scale}v-6`} />
          <text x={MARGIN + bar.length_m * scale + 6} y={high - 7}>
            {bar.text}
          </text>
        </g>
      ) : null}
    </svg>
  );
}
