/** The board plans are drawn and mended on: how its own dots and the plan's lengths go into each other. */

export type Spot = [x: number, y: number];

/** The board's size in its own dots; about one dot a pixel on a narrow phone. */
export const BOARD = { wide: 320, tall: 300 } as const;
/** A finger's reach: a target of 48 dots across. */
export const REACH = 24;
const MARGIN = 34;
const MIDDLE: Spot = [BOARD.wide / 2, BOARD.tall / 2];

export interface View {
  /** The place on the plan that lies in the middle of the board. */
  x: number;
  y: number;
  /** Dots of the board for one unit of the plan. */
  scale: number;
  /** 1 where the plan's y runs up (metres), -1 where it runs down (a picture). */
  up: 1 | -1;
}

export function toBoard({ x, y, scale, up }: View, [px, py]: Spot): Spot {
  return [MIDDLE[0] + (px - x) * scale, MIDDLE[1] - (py - y) * scale * up];
}

export function fromBoard({ x, y, scale, up }: View, [bx, by]: Spot): Spot {
  return [x + (bx - MIDDLE[0]) / scale, y - ((by - MIDDLE[1]) / scale) * up];
}

/** The view that shows all of these places, with room round them for a finger. */
export function viewOn(spots: Spot[], up: View["up"], least = 1): View {
  const span = (at: 0 | 1): [number, number] => {
    const all = spots.map((spot) => spot[at]);
    return all.length ? [Math.min(...all), Math.max(...all)] : [0, least];
  };
  const [[left, right], [low, high]] = [span(0), span(1)];
  const wide = Math.max(right - left, least);
  const tall = Math.max(high - low, least);
  const scale = Math.min((BOARD.wide - 2 * MARGIN) / wide, (BOARD.tall - 2 * MARGIN) / tall);
  return { x: (left + right) / 2, y: (low + high) / 2, scale, up };
}

/** The whole of a picture, edge to edge. */
export function fitPicture(width: number, height: number): View {
  const scale = Math.min(BOARD.wide / width, BOARD.tall / height);
  return { x: width / 2, y: height / 2, scale, up: -1 };
}

/** Nearer or farther about a place, which stays where it is on the board; the middle where none is given. */
export function zoomed(view: View, factor: number, about?: Spot): View {
  if (!about) return { ...view, scale: view.scale * factor };
  return {
    ...view,
    scale: view.scale * factor,
    x: about[0] + (view.x - about[0]) / factor,
    y: about[1] + (view.y - about[1]) / factor,
  };
}

/** The view after the plan was dragged by so many dots of the board. */
export function panned(view: View, dx: number, dy: number): View {
  return { ...view, x: view.x - dx / view.scale, y: view.y + (dy / view.scale) * view.up };
}

/** Whether a place lies on the board as it is shown. */
export function inSight(view: View, spot: Spot): boolean {
  const [x, y] = toBoard(view, spot);
  return x >= 0 && x <= BOARD.wide && y >= 0 && y <= BOARD.tall;
}

/** Which of these places on the board lies nearest to a touch, within reach; -1 for none. */
export function nearest(spots: readonly Spot[], [x, y]: Spot, reach: number = REACH): number {
  let [best, found] = [reach, -1];
  spots.forEach(([sx, sy], k) => {
    const far = Math.hypot(sx - x, sy - y);
    if (far > best) return;
    [best, found] = [far, k];
  });
  return found;
}
