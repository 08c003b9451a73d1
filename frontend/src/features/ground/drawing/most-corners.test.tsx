import { cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { useState } from "preact/hooks";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { checkGroup, MOST_CORNERS } from "../../../records/kinds";
import { BOARD, toBoard } from "../../../ui/drawing/board";
import {
  atMost,
  type Corner,
  NO_OUTLINE,
  type OutlineForm,
  withCorner,
  withObstacle,
} from "../model/outline";
import { type Dot, nextRing, noTrace, type TraceForm, tapped } from "../model/trace";
import { blankForm } from "../model/zone-form";
import { outlineFound } from "../model/zone-outline";
import { OutlineFields } from "../screens/measure/outline";
import { viewOf } from "./outline-editor";

beforeEach(() => {
  const box = { left: 0, top: 0, width: BOARD.wide, height: BOARD.tall } as DOMRect;
  vi.spyOn(Element.prototype, "getBoundingClientRect").mockReturnValue(box);
});

afterEach(cleanup);

/** Along a circle, so that every corner bends. */
const ring = (corners: number): Corner[] =>
  Array.from({ length: corners }, (_, k) => {
    const turn = (2 * Math.PI * k) / corners;
    return [50 * Math.cos(turn), 50 * Math.sin(turn)];
  });
const outline = (ground: number, ...holes: number[]): OutlineForm => ({
  ...NO_OUTLINE,
  points: ring(ground),
  holes: holes.map(ring),
});
const cornersOf = ({ points, holes }: OutlineForm) => [points, ...holes].flat().length;

describe("an outline of as many corners as are allowed", () => {
  it("takes one more up to 400 in all, obstacles counted, and none beyond", () => {
    expect(cornersOf(withCorner(outline(200, MOST_CORNERS - 201), 0, 3))).toBe(MOST_CORNERS);
    const full = outline(200, MOST_CORNERS - 200);
    expect(withCorner(full, 0, 3)).toBe(full);
    expect(withObstacle(outline(MOST_CORNERS - 3), [0, 0], 1).holes).toEqual([]);
    expect(withObstacle(outline(MOST_CORNERS - 4), [0, 0], 1).holes).toHaveLength(1);
  });

  it("says so on the drawing, whose buttons and edges add no more", () => {
    // Four corners far apart, so that their edges can be taken hold of.
    const full: OutlineForm = { ...NO_OUTLINE, points: ring(4), holes: [ring(MOST_CORNERS - 4)] };
    const seen: OutlineForm[] = [];
    function Held() {
      const [now, setNow] = useState(full);
      return (
        <OutlineFields
          outline={now}
          onInput={(next) => {
            seen.push(next);
            setNow(next);
          }}
        />
      );
    }
    render(<Held />);
    expect(screen.getByText(/^This outline has 400 corners in all, the most allowed\./)).toBeTruthy();
    fireEvent.click(screen.getByRole("button", { name: "Add a corner" }));
    fireEvent.click(screen.getByRole("button", { name: "Add an obstacle" }));
    const view = viewOf(full);
    const [x, y] = toBoard(view, [25, 25]);
    const board = screen.getByRole("group", { name: /Outline of the zone/ });
    const finger = (dx: number) => ({ clientX: x + dx, clientY: y, pointerId: 1, button: 0 });
    fireEvent.pointerDown(board, finger(0));
    fireEvent.pointerMove(board, finger(20));
    fireEvent.pointerUp(board, finger(20));
    expect(Math.max(0, ...seen.map(cornersOf))).toBeLessThanOrEqual(MOST_CORNERS);
    fireEvent.click(screen.getByRole("button", { name: "Remove the corner" }));
    expect(screen.queryByText(/the most allowed/)).toBeNull();
  });

  it("that was traced stops there too", () => {
    const known: Dot[] = [
      [0, 0],
      [9, 0],
    ];
    const traced = (rings: Dot[][]): TraceForm => ({ ...noTrace("m"), known, rings });
    const room = traced([ring(300), ring(99)]);
    expect(tapped(room, [1, 1]).rings[1]).toHaveLength(100);
    expect(tapped(tapped(room, [1, 1]), [2, 2]).rings[1]).toHaveLength(100);
    expect(nextRing(traced([ring(MOST_CORNERS)])).rings).toHaveLength(1);
  });

  it("that was walked is kept with the corners that matter most, never more than 400", () => {
    const walked = ring(2400);
    const kept = outlineFound(
      { ...blankForm("metric").measures, method: "gps" },
      { area_m2: 7854, points_m: walked },
    );
    expect(kept?.points_m.length).toBeLessThanOrEqual(MOST_CORNERS);
    expect(kept?.points_m.length).toBeGreaterThan(20);
    expect(atMost(ring(MOST_CORNERS))).toHaveLength(MOST_CORNERS);
  });

  it("is refused by the form beyond that, before the book would set it aside", () => {
    const ground = (corners: number) => ({
      area_m2: 9,
      method: "outline",
      outline: { points_m: ring(200), holes_m: [ring(corners - 200)] },
    });
    expect(checkGroup("zone", "ground", ground(MOST_CORNERS), "metric")).toEqual({});
    expect(checkGroup("zone", "ground", ground(MOST_CORNERS + 1), "metric")).toEqual({
      outline: "The outline has 401 corners in all. At most 400 are allowed. Remove some.",
    });
  });
});
