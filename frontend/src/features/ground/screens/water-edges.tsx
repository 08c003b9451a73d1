/** Which edges of the outline lie at water: on the drawing, and each by name below it. */
import { length } from "../../../format";
import type { Value } from "../../../platform/engine/types";
import { units } from "../../../platform/session/session";
import { BOARD, toBoard, viewOn } from "../../../ui/drawing/board";
import { CheckField } from "../../../ui/parts";
import { type Corner, edgesAtWater, marked } from "../model/outline";
import type { MeasureProps } from "./measure/shown";

type Side = Value<"area.sides">["sides"][number];

export function WaterEdges({ editor, form }: MeasureProps) {
  const corners = editor.corners.value;
  const sides = editor.sides.value?.value?.sides;
  if (!corners.length || !sides) return null;
  const { outline } = form.measures;
  const at = edgesAtWater(outline.water, corners.length);
  const lies = ({ edges }: Side) => edges.every((edge) => at.includes(edge));
  function mark(side: Side, on: boolean): void {
    const water = marked(outline.water, corners.length, side.edges, on);
    editor.change({ measures: { ...form.measures, outline: { ...outline, water } } });
  }
  return (
    <fieldset class="water-edges">
      <legend class="field__label">Edges at the water</legend>
      <p class="field__hint">
        Tap each edge that lies at the water. The plan then keeps its strips clear of it.
      </p>
      <EdgeDrawing corners={corners} sides={sides} lies={lies} mark={mark} />
      {sides.map((side) => (
        <CheckField
          key={side.number}
          label={`Edge ${side.number}, ${length(side.length_m, units.value).text}, at the water`}
          checked={lies(side)}
          onInput={(on) => mark(side, on)}
        />
      ))}
    </fieldset>
  );
}

interface DrawingProps {
  corners: Corner[];
  sides: readonly Side[];
  lies: (side: Side) => boolean;
  mark: (side: Side, on: boolean) => void;
}

/** For finger and eye only: the same stands below as a list, for keyboard and voice. */
function EdgeDrawing({ corners, sides, lies, mark }: DrawingProps) {
  const view = viewOn(corners, 1);
  const placed = corners.map((corner) => toBoard(view, corner));
  const lineOf = ({ edges }: Side): string =>
    edges
      .map((edge) => [placed[edge], placed[(edge + 1) % placed.length]])
      .map(([from, to]) => `M${from?.map(round).join(" ")}L${to?.map(round).join(" ")}`)
      .join("");
  return (
    <svg class="drawing water-edges__drawing" viewBox={`0 0 ${BOARD.wide} ${BOARD.tall}`} aria-hidden="true">
      <path class="water-edges__ground" d={`M${placed.map((at) => at.map(round).join(" ")).join("L")}Z`} />
      {sides.map((side) => (
        <g key={side.number} data-edge={side.number}>
          <path class={lies(side) ? "water-edges__line is-at-water" : "water-edges__line"} d={lineOf(side)} />
          <path class="water-edges__reach" d={lineOf(side)} onPointerUp={() => mark(side, !lies(side))} />
        </g>
      ))}
      {sides.map((side) => (
        <SideNumber key={side.number} side={side} placed={placed} />
      ))}
    </svg>
  );
}

const round = (n: number): number => Math.round(n * 10) / 10;

/** The side's number, half way along its edges and a little outside. */
function SideNumber({ side: { edges, number }, placed }: { side: Side; placed: [number, number][] }) {
  const edge = edges[Math.floor(edges.length / 2)] ?? 0;
  const [from, to] = [placed[edge], placed[(edge + 1) % placed.length]];
  if (!from || !to) return null;
  const middle = [BOARD.wide / 2, BOARD.tall / 2] as const;
  const [x, y] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const far = Math.max(1, Math.hypot(x - middle[0], y - middle[1]));
  const out = 18 / far;
  return (
    <text
      class="water-edges__number"
      x={round(x + (x - middle[0]) * out)}
      y={round(y + (y - middle[1]) * out + 5)}
      text-anchor="middle"
    >
      {number}
    </text>
  );
}
