/** One finger on a board: takes hold of what is near, else moves the plan; a touch that stays put is a tap. */
import { useRef } from "preact/hooks";
import { BOARD, type Spot } from "./board";

const STILL = 6;

export interface Touching {
  /** Takes hold of what is near this spot of the board; undefined where there is nothing. */
  grab: (at: Spot) => Spot | undefined;
  /** What was taken hold of, now here on the board. The finger keeps its distance, so that it hides nothing. */
  drag: (to: Spot) => void;
  pan: (dx: number, dy: number) => void;
  tap: (at: Spot) => void;
  /** A finger is down here (held tells whether it holds something); undefined once it is lifted. */
  down?: (at: Spot | undefined, held: boolean) => void;
}

interface Finger {
  id: number;
  began: Spot;
  last: Spot;
  /** From the finger to what it holds. */
  held: Spot | undefined;
  still: boolean;
}

function spotOf(event: PointerEvent, svg: Element): Spot {
  const box = svg.getBoundingClientRect();
  return [
    ((event.clientX - box.left) / box.width) * BOARD.wide,
    ((event.clientY - box.top) / box.height) * BOARD.tall,
  ];
}

/** Follows the finger beyond the board; a pointer that has gone meanwhile cannot be followed, and need not be. */
function capture(svg: Element, id: number): void {
  try {
    svg.setPointerCapture(id);
  } catch {
    // The finger is off the glass already.
  }
}

/** The handlers for the board's `<svg>`. */
export function useTouch({ grab, drag, pan, tap, down }: Touching) {
  const finger = useRef<Finger | undefined>(undefined);

  function begin(event: PointerEvent): void {
    const svg = event.currentTarget as SVGSVGElement;
    if (finger.current || event.button > 0) return;
    const at = spotOf(event, svg);
    const place = grab(at);
    const held: Spot | undefined = place && [place[0] - at[0], place[1] - at[1]];
    finger.current = { id: event.pointerId, began: at, last: at, held, still: true };
    capture(svg, event.pointerId);
    down?.(place ?? at, place !== undefined);
  }

  function move(event: PointerEvent): void {
    const now = finger.current;
    if (now?.id !== event.pointerId) return;
    const at = spotOf(event, event.currentTarget as Element);
    if (Math.hypot(at[0] - now.began[0], at[1] - now.began[1]) > STILL) now.still = false;
    if (now.still) return;
    if (now.held) {
      const to: Spot = [at[0] + now.held[0], at[1] + now.held[1]];
      drag(to);
      down?.(to, true);
    } else pan(at[0] - now.last[0], at[1] - now.last[1]);
    now.last = at;
  }

  function end(event: PointerEvent): void {
    const now = finger.current;
    if (now?.id !== event.pointerId) return;
    finger.current = undefined;
    down?.(undefined, false);
    if (event.type === "pointerup" && now.still && !now.held) tap(now.began);
  }

  return { onPointerDown: begin, onPointerMove: move, onPointerUp: end, onPointerCancel: end };
}
