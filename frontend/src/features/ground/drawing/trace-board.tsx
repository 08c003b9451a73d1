/** The picture of a plan with what is traced on it. A loupe shows what lies under the finger. */
import { useId, useRef, useState } from "preact/hooks";
import { BOARD, fromBoard, nearest, panned, type Spot, toBoard, type View } from "../../../ui/drawing/board";
import { type BoardHandle, Handles } from "../../../ui/drawing/board-handles";
import { useTouch } from "../../../ui/drawing/board-touch";
import { NorthMark } from "../../../ui/drawing/north-mark";
import {
  type Dot,
  dotOf,
  dragged,
  handlesOfTrace,
  sayTraceHandle,
  type TraceForm,
  type TraceHandle,
  traceKey,
} from "../model/trace";

export interface TraceBoardProps {
  href: string;
  width: number;
  height: number;
  trace: TraceForm;
  onChange: (trace: TraceForm) => void;
  /** A tap on the picture, or the cross in the middle. */
  onTap: (dot: Dot) => void;
  chosen: string | undefined;
  onChoose: (key: string) => void;
  label: string;
  view: View;
  onView: (view: View) => void;
}

const LOUPE = { radius: 46, times: 3 };

export function TraceBoard(props: TraceBoardProps) {
  const { trace, onChange, onTap, chosen, onChoose, label, view, onView } = props;
  const [finger, setFinger] = useState<Spot | undefined>(undefined);
  const held = useRef<TraceHandle | undefined>(undefined);
  const now = useRef({ trace, view });
  now.current = { trace, view };
  const all = handlesOfTrace(trace);
  const spots = all.map(
    (handle): BoardHandle => ({
      key: traceKey(handle),
      at: toBoard(view, dotOf(trace, handle) ?? [0, 0]),
      label: sayTraceHandle(trace, handle),
      look: handle.kind === "known" ? "known" : "corner",
    }),
  );

  function put(handle: TraceHandle, to: Dot): void {
    const next = dragged(now.current.trace, handle, inside(to, props));
    now.current = { ...now.current, trace: next };
    onChange(next);
  }

  const touch = useTouch({
    grab: (at) => {
      const near = nearest(
        spots.map((spot) => spot.at),
        at,
      );
      held.current = all[near];
      if (near >= 0) onChoose(spots[near]?.key ?? "");
      return spots[near]?.at;
    },
    drag: (to) => held.current && put(held.current, fromBoard(now.current.view, to)),
    pan: (dx, dy) => {
      now.current = { ...now.current, view: panned(now.current.view, dx, dy) };
      onView(now.current.view);
    },
    tap: (at) => onTap(inside(fromBoard(now.current.view, at), props)),
    down: setFinger,
  });

  function nudge(key: string, right: number, up: number): void {
    const handle = all.find((one) => traceKey(one) === key);
    const dot = handle && dotOf(trace, handle);
    // One dot of the screen: the nearer the view, the finer the step.
    if (handle && dot) put(handle, [dot[0] + right / view.scale, dot[1] - up / view.scale]);
  }

  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing groups its handles; a fieldset cannot stand in for it
    <svg
      class="board board--picture trace-board"
      viewBox={`0 0 ${BOARD.wide} ${BOARD.tall}`}
      role="group"
      aria-label={label}
      {...touch}
    >
      <Picture {...props} view={view} />
      <Lines trace={trace} view={view} />
      <path class="trace-middle" d={`M${BOARD.wide / 2} ${BOARD.tall / 2 - 9}v18m-9 -9h18`} />
      <Handles handles={spots} chosen={chosen} onChoose={onChoose} onNudge={nudge} />
      <NorthMark north={trace.north} x={BOARD.wide - 30} y={32} />
      {finger ? <Loupe {...props} view={view} at={finger} /> : null}
    </svg>
  );
}

/** A place kept on the picture. */
function inside([x, y]: Dot, { width, height }: Pick<TraceBoardProps, "width" | "height">): Dot {
  return [Math.min(width, Math.max(0, x)), Math.min(height, Math.max(0, y))];
}

type PictureProps = Pick<TraceBoardProps, "href" | "width" | "height" | "view">;

function Picture({ href, width, height, view }: PictureProps) {
  const [x, y] = toBoard(view, [0, 0]);
  return (
    <image
      href={href}
      x={x}
      y={y}
      width={width * view.scale}
      height={height * view.scale}
      preserveAspectRatio="none"
    />
  );
}

function Lines({ trace, view }: Pick<TraceBoardProps, "trace" | "view">) {
  const trail = (dots: Dot[]) => `M${dots.map((dot) => toBoard(view, dot).join(" ")).join("L")}`;
  const last = trace.rings.length - 1;
  return (
    <>
      {trace.known.length > 1 ? <Twice d={trail(trace.known)} look="trace-known" /> : null}
      {trace.rings.map((ring, k) =>
        ring.length > 1 ? (
          <Twice
            key={`${k}.${ring.length}`}
            d={trail(ring) + (ring.length > 2 ? "Z" : "")}
            look={k === last ? "trace-ring is-open" : "trace-ring"}
          />
        ) : null,
      )}
    </>
  );
}

/** A line on a light halo, so that it is seen on any picture. */
function Twice({ d, look }: { d: string; look: string }) {
  return (
    <>
      <path class="trace-ring--under" d={d} />
      <path class={look} d={d} />
    </>
  );
}

/** What lies under the finger, three times as large, in the corner the finger is not in. */
function Loupe({ at, view, trace, ...picture }: TraceBoardProps & { at: Spot }) {
  const id = useId();
  const { radius, times } = LOUPE;
  const left = at[0] > BOARD.wide / 2 || at[1] > BOARD.tall / 2;
  const [cx, cy] = [left ? radius + 6 : BOARD.wide - radius - 6, radius + 6];
  const [x, y] = fromBoard(view, at);
  const near: View = { ...view, scale: view.scale * times, x, y };
  return (
    <g class="loupe" pointer-events="none">
      <clipPath id={`l${id}`}>
        <circle cx={cx} cy={cy} r={radius} />
      </clipPath>
      <g clip-path={`url(#l${id})`}>
        <circle class="loupe__ground" cx={cx} cy={cy} r={radius} />
        <g transform={`translate(${cx - BOARD.wide / 2} ${cy - BOARD.tall / 2})`}>
          <Picture {...picture} view={near} />
          <Lines trace={trace} view={near} />
        </g>
      </g>
      <circle class="loupe__rim" cx={cx} cy={cy} r={radius} />
      <path class="loupe__cross" d={`M${cx - 16} ${cy}h32M${cx} ${cy - 16}v32`} />
    </g>
  );
}
