/** An outline to scale whose corners can be dragged, added and taken away; by finger, gloved thumb or keyboard. */
import { useId, useRef } from "preact/hooks";
import {
  BOARD,
  fromBoard,
  nearest,
  panned,
  REACH,
  type Spot,
  toBoard,
  type View,
  viewOn,
} from "../../../ui/drawing/board";
import { type BoardHandle, Handles } from "../../../ui/drawing/board-handles";
import { useTouch } from "../../../ui/drawing/board-touch";
import { NorthMark } from "../../../ui/drawing/north-mark";
import { StripHatch } from "../../../ui/drawing/strip-hatch";
import {
  type Corner,
  type Handle,
  handleKey,
  handlesOf,
  hasRoom,
  moved,
  type OutlineForm,
  placeOf,
  sayHandle,
  withCorner,
  without,
} from "../model/outline";

export interface OutlineEditorProps {
  outline: OutlineForm;
  /** `begins`: the first change of a drag or a nudge, where an undo would go back to. */
  onChange: (outline: OutlineForm, begins: boolean) => void;
  chosen: string | undefined;
  onChoose: (key: string) => void;
  label: string;
  scale: (most_m: number) => { length_m: number; text: string };
  view: View;
  onView: (view: View) => void;
}

/** Marks in the middle of an edge stand only where the edge is long enough to leave the corners clear. */
const LEAST_EDGE = 56;

export function viewOf({ points, holes, circles }: OutlineForm): View {
  const round = circles.flatMap(({ x_m, y_m, radius_m }): Corner[] => [
    [x_m - radius_m, y_m - radius_m],
    [x_m + radius_m, y_m + radius_m],
  ]);
  return viewOn([...points, ...holes.flat(), ...round], 1);
}

export function handleOf(outline: OutlineForm, key: string | undefined): Handle | undefined {
  return handlesOf(outline).find((handle) => handleKey(handle) === key);
}

interface Edge {
  ring: number;
  at: number;
  spot: Spot;
}

/** The middles of the edges long enough to be taken hold of; none where no more corners are taken. */
function edgesOf(outline: OutlineForm, view: View): Edge[] {
  if (!hasRoom(outline)) return [];
  const { points, holes } = outline;
  return [points, ...holes].flatMap((corners, ring) =>
    corners.flatMap((corner, at): Edge[] => {
      const [ax, ay] = toBoard(view, corner);
      const [bx, by] = toBoard(view, corners[(at + 1) % corners.length] ?? corner);
      if (Math.hypot(bx - ax, by - ay) < LEAST_EDGE) return [];
      return [{ ring, at, spot: [(ax + bx) / 2, (ay + by) / 2] }];
    }),
  );
}

/** Two dots of the board: the nearer the view, the finer the step. */
export function nudged(
  form: OutlineForm,
  handle: Handle,
  [x, y]: Corner,
  view: View,
  right: number,
  up: number,
) {
  const step_m = Math.max(0.01, 2 / view.scale);
  return moved(form, handle, [x + right * step_m, y + up * step_m]);
}

export function OutlineEditor(props: OutlineEditorProps) {
  const { outline, onChange, chosen, onChoose, label, scale, view, onView } = props;
  const id = useId();
  const held = useRef<Handle | undefined>(undefined);
  // The view as it stands while a finger is down: several moves may come before the next drawing.
  const now = useRef({ outline, view });
  now.current = { outline, view };
  const fresh = useRef(true);
  const spots = handlesOf(outline).map((handle): BoardHandle => {
    const at = toBoard(view, placeOf(outline, handle) ?? [0, 0]);
    return {
      key: handleKey(handle),
      at,
      label: sayHandle(outline, handle),
      look: handle.kind === "corner" ? "corner" : handle.kind === "whole" ? "whole" : "round",
    };
  });
  const edges = edgesOf(outline, view);

  function put(next: OutlineForm): void {
    now.current = { ...now.current, outline: next };
    onChange(next, fresh.current);
    fresh.current = false;
  }

  function once(next: OutlineForm): void {
    fresh.current = true;
    put(next);
  }

  function grab(at: Spot): Spot | undefined {
    const near = nearest(
      spots.map((spot) => spot.at),
      at,
    );
    if (near >= 0) {
      held.current = handlesOf(outline)[near];
      onChoose(spots[near]?.key ?? "");
      return spots[near]?.at;
    }
    const edge =
      edges[
        nearest(
          edges.map(({ spot }) => spot),
          at,
          REACH * 0.75,
        )
      ];
    if (!edge) return undefined;
    put(withCorner(outline, edge.ring, edge.at));
    held.current = { kind: "corner", ring: edge.ring, at: edge.at + 1 };
    onChoose(handleKey(held.current));
    return edge.spot;
  }

  const touch = useTouch({
    grab,
    drag: (to) => {
      const { outline: form, view: seen } = now.current;
      if (held.current) put(moved(form, held.current, fromBoard(seen, to)));
    },
    pan: (dx, dy) => {
      now.current = { ...now.current, view: panned(now.current.view, dx, dy) };
      onView(now.current.view);
    },
    tap: () => undefined,
    down: (at) => {
      if (!at) fresh.current = true;
    },
  });

  function nudge(key: string, right: number, up: number): void {
    const handle = handleOf(outline, key);
    const place = handle && placeOf(outline, handle);
    if (handle && place) once(nudged(outline, handle, place, view, right, up));
  }

  function remove(key: string): void {
    const handle = handleOf(outline, key);
    if (handle) once(without(outline, handle));
  }

  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing groups its handles; a fieldset cannot stand in for it
    <svg
      class="board outline-editor"
      viewBox={`0 0 ${BOARD.wide} ${BOARD.tall}`}
      role="group"
      aria-label={label}
      {...touch}
    >
      <defs>
        <StripHatch id={`a${id}`} gap={6} weight={1.2} />
        <StripHatch id={`b${id}`} gap={6} weight={1.2} angle={135} />
      </defs>
      <Plan outline={outline} view={view} hatch={[`url(#a${id})`, `url(#b${id})`]} />
      {edges.map(({ ring, at, spot: [x, y] }) => (
        <path key={`${ring}.${at}`} class="edge-mark" d={`M${x - 5} ${y}h10M${x} ${y - 5}v10`} />
      ))}
      <Handles handles={spots} chosen={chosen} onChoose={onChoose} onNudge={nudge} onRemove={remove} />
      <NorthMark north={outline.north} x={BOARD.wide - 30} y={32} />
      <ScaleBar view={view} scale={scale} />
    </svg>
  );
}

const trail = (spots: Spot[]): string => `M${spots.map(([x, y]) => `${x} ${y}`).join("L")}Z`;

/** The ground and what is cut out of it, cross-hatched. */
function Plan({ outline, view, hatch }: { outline: OutlineForm; view: View; hatch: string[] }) {
  const ring = (corners: Corner[]) => trail(corners.map((corner) => toBoard(view, corner)));
  return (
    <>
      <g class="zone-ground">{outline.points.length ? <path d={ring(outline.points)} /> : null}</g>
      <g class="zone-cut">
        {hatch.map((fill) => [
          ...outline.holes.map((hole, k) => <path key={`h${k}`} d={ring(hole)} fill={fill} />),
          ...outline.circles.map(({ x_m, y_m, radius_m }, k) => {
            const [cx, cy] = toBoard(view, [x_m, y_m]);
            return <circle key={`c${k}`} cx={cx} cy={cy} r={radius_m * view.scale} fill={fill} />;
          }),
        ])}
      </g>
    </>
  );
}

export function ScaleBar({ view, scale }: Pick<OutlineEditorProps, "view" | "scale">) {
  const bar = scale((BOARD.wide / view.scale) * 0.3);
  return (
    <g class="zone-scale">
      <path d={`M10 ${BOARD.tall - 14}v6h${bar.length_m * view.scale}v-6`} />
      <text x={16 + bar.length_m * view.scale} y={BOARD.tall - 7}>
        {bar.text}
      </text>
    </g>
  );
}
