import { useId } from "preact/hooks";
import { NorthMark, northOn } from "./north-mark";
import { StripHatch } from "./strip-hatch";
import {
  extent,
  type Ground,
  groundOutlines,
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
  /** How the engine adds those up, which says where they stand. */
  method?: string;
  radii_m?: number[];
  /** Corners, and what is cut out of them, as the engine's `area.outline` takes and gives them. */
  points_m?: Point[];
  holes_m?: Point[][];
  circles_m?: Ground["circles_m"];
  /** Bearing of up on the drawing; draws the north mark. */
  north_deg?: number | null;
  /** Strips that way, degrees clockwise from up. */
  heading_deg?: number | undefined;
  /** Passes walked so far: each adds its hatch. */
  passes?: number;
  /** What the drawing shows, said first. */
  label?: string;
  /** A thumbnail beside words that say the same: less room, and nothing read out. */
  small?: boolean;
  /** Chooses the scale bar, no longer than what is given and round in the reader's units; without it none is drawn. */
  scale?: (most_m: number) => { length_m: number; text: string };
}

interface Room {
  wide: number;
  tall: number;
  margin: number;
  /** Under the ground, for the scale bar; more where a north mark stands there too. */
  foot: number;
  northFoot: number;
}

const FULL: Room = { wide: 300, tall: 190, margin: 10, foot: 26, northFoot: 46 };
const SMALL: Room = { wide: 96, tall: 72, margin: 4, foot: 20, northFoot: 24 };

function outlinesOf(props: ZoneDrawingProps): Outline[] {
  if (props.parts) return partsOutlines(props.parts);
  if (props.offsets_m) return offsetsOutline(props.spacing_m ?? 0, props.offsets_m, props.method);
  if (props.radii_m) return radiiOutline(props.radii_m);
  const { points_m = [], holes_m = [], circles_m = [] } = props;
  return points_m.length > 2 ? groundOutlines({ points_m, holes_m, circles_m }) : [];
}

/** Measured ground from above, to scale; cut-outs cross-hatched. */
export function ZoneDrawing(props: ZoneDrawingProps) {
  const id = useId();
  const outlines = outlinesOf(props);
  const { wide, tall } = extent(outlines);
  if (!(wide > 0) || !(tall > 0)) return null;
  const room = props.small ? SMALL : FULL;
  const north = northOn(props.north_deg);
  const foot = north === null ? room.foot : room.northFoot;
  const scale = Math.min((room.wide - 2 * room.margin) / wide, room.tall / tall);
  const high = tall * scale + 2 * room.margin + foot;
  const cuts = outlines.filter((outline) => outline.cut).length;
  const title = `${props.label ?? "Ground from above, to scale"}: ${outlines.length - cuts} drawn, ${cuts} cut out`;
  const said = props.small
    ? { "aria-hidden": true as const }
    : { role: "img" as const, "aria-labelledby": `t${id}` };
  const path = (points: Point[]): string =>
    `M${points.map(([x, y]) => `${room.margin + x * scale} ${room.margin + y * scale}`).join("L")}Z`;
  return (
    <svg
      class={props.small ? "drawing zone-drawing zone-drawing--small" : "drawing zone-drawing"}
      viewBox={`0 0 ${room.wide} ${high}`}
      {...said}
    >
      <title id={`t${id}`}>{title}</title>
      <Hatches id={id} passes={props.passes ?? 0} heading={props.heading_deg} />
      {outlines.map((outline, k) => (
        <Piece
          key={`${k}${outline.cut}`}
          id={id}
          d={path(outline.points)}
          cut={outline.cut}
          passes={props.passes ?? 0}
          strips={props.heading_deg !== undefined}
        />
      ))}
      <Foot room={room} high={high} dots_m={scale} bar={props.scale} north={north} />
    </svg>
  );
}

const numbered = (passes: number): number[] => Array.from({ length: passes }, (_, k) => k + 1);

function Hatches({ id, passes, heading }: { id: string; passes: number; heading: number | undefined }) {
  return (
    <defs>
      <StripHatch id={`c${id}`} gap={5} weight={1.2} line="hatch-line" />
      <StripHatch id={`x${id}`} gap={5} weight={1.2} line="hatch-line" angle={135} />
      {heading === undefined ? null : <StripHatch id={`h${id}`} gap={14} weight={1.2} angle={heading} />}
      {numbered(passes).map((pass) => (
        <StripHatch key={pass} id={`p${pass}${id}`} pass={pass} />
      ))}
    </defs>
  );
}

interface PieceProps {
  id: string;
  d: string;
  cut: boolean;
  passes: number;
  strips: boolean;
}

function Piece({ id, d, cut, passes, strips }: PieceProps) {
  if (cut)
    return (
      <g class="zone-cut">
        <path class="zone-cut__ground" d={d} />
        <path d={d} fill={`url(#c${id})`} />
        <path d={d} fill={`url(#x${id})`} />
      </g>
    );
  return (
    <g class="zone-ground">
      <path d={d} />
      {strips ? <path class="zone-pass" d={d} fill={`url(#h${id})`} /> : null}
      {numbered(passes).map((pass) => (
        <path key={pass} class="zone-pass" d={d} fill={`url(#p${pass}${id})`} />
      ))}
    </g>
  );
}

interface FootProps {
  room: Room;
  high: number;
  dots_m: number;
  bar: ZoneDrawingProps["scale"];
  north: number | null;
}

/** Scale bar and north mark, under the ground. */
function Foot({ room, high, dots_m, bar, north }: FootProps) {
  const shown = bar?.((room.wide - 2 * room.margin) / dots_m / 3);
  const low = high - 14;
  return (
    <>
      {shown ? (
        <g class="zone-scale">
          <path d={`M${room.margin} ${low}v6h${shown.length_m * dots_m}v-6`} />
          <text x={room.margin + shown.length_m * dots_m + 5} y={low + 7}>
            {shown.text}
          </text>
        </g>
      ) : null}
      <NorthMark
        north={north}
        x={room.wide - room.margin - (room === SMALL ? 8 : 14)}
        y={high - (room === SMALL ? 12 : 16)}
        small={room === SMALL}
      />
    </>
  );
}
