import { cleanup, fireEvent, render } from "@testing-library/preact";
import { useState } from "preact/hooks";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { BOARD, fitPicture, toBoard } from "../../../ui/drawing/board";
import { type OutlineForm, rectangle, withObstacle } from "../model/outline";
import { type Dot, noTrace, type TraceForm, tapped } from "../model/trace";
import { OutlineEditor, viewOf } from "./outline-editor";
import { TraceBoard } from "./trace-board";

beforeEach(() => {
  // One dot of the board is one pixel of the screen, from its upper left corner.
  const box = { left: 0, top: 0, width: BOARD.wide, height: BOARD.tall } as DOMRect;
  vi.spyOn(Element.prototype, "getBoundingClientRect").mockReturnValue(box);
});

afterEach(cleanup);

const FIELD = rectangle(20, 10);
const finger = (x: number, y: number) => ({ clientX: x, clientY: y, pointerId: 1, button: 0 });

function drawn(outline: OutlineForm) {
  const seen: { outline: OutlineForm; begins: boolean }[] = [];
  function Held() {
    const [now, setNow] = useState(outline);
    const [chosen, setChosen] = useState<string | undefined>(undefined);
    const [view, setView] = useState(() => viewOf(outline));
    return (
      <OutlineEditor
        outline={now}
        onChange={(next, begins) => {
          seen.push({ outline: next, begins });
          setNow(next);
        }}
        chosen={chosen}
        onChoose={setChosen}
        label="Outline"
        scale={(most) => ({ length_m: most, text: "bar" })}
        view={view}
        onView={setView}
      />
    );
  }
  const screen = render(<Held />);
  return { ...screen, seen, last: () => seen.at(-1)?.outline };
}

describe("an outline under the hand", () => {
  it("names every corner and moves it by the arrow keys, up being up", () => {
    const { getByRole, last } = drawn(FIELD);
    const corner = getByRole("button", { name: "Corner 3 of 4" });
    fireEvent.keyDown(corner, { key: "ArrowRight" });
    fireEvent.keyDown(corner, { key: "ArrowUp" });
    const [x, y] = last()?.points[2] ?? [0, 0];
    expect(x).toBeGreaterThan(20);
    expect(y).toBeGreaterThan(10);
    expect(last()?.points[0]).toEqual([0, 0]);
  });

  it("takes a corner away by the delete key", () => {
    const { getByRole, last } = drawn(FIELD);
    fireEvent.keyDown(getByRole("button", { name: "Corner 2 of 4" }), { key: "Delete" });
    expect(last()?.points).toEqual([FIELD.points[0], FIELD.points[2], FIELD.points[3]]);
  });

  it("drags the corner a finger is near to, by as much as the finger moves", () => {
    const { getByRole, seen, last } = drawn(FIELD);
    const view = viewOf(FIELD);
    const [x, y] = toBoard(view, [20, 10]);
    const board = getByRole("group");
    fireEvent.pointerDown(board, finger(x + 10, y + 8));
    fireEvent.pointerMove(board, finger(x + 10 + 2 * view.scale, y + 8));
    fireEvent.pointerMove(board, finger(x + 10 + 3 * view.scale, y + 8 - view.scale));
    fireEvent.pointerUp(board, finger(x + 10 + 3 * view.scale, y + 8 - view.scale));
    expect(last()?.points[2]).toEqual([23, 11]);
    expect(seen.map(({ begins }) => begins)).toEqual([true, false]);
  });

  it("makes a corner of the plus on an edge when it is dragged", () => {
    const { getByRole, last } = drawn(FIELD);
    const view = viewOf(FIELD);
    const [x, y] = toBoard(view, [10, 0]);
    const board = getByRole("group");
    fireEvent.pointerDown(board, finger(x, y));
    fireEvent.pointerMove(board, finger(x, y + 2 * view.scale));
    fireEvent.pointerUp(board, finger(x, y + 2 * view.scale));
    expect(last()?.points).toEqual([
      [0, 0],
      [10, -2],
      [20, 0],
      [20, 10],
      [0, 10],
    ]);
  });

  it("moves the plan, not the outline, where a finger finds nothing", () => {
    const { getByRole, seen } = drawn(FIELD);
    const board = getByRole("group");
    const before = board.innerHTML;
    fireEvent.pointerDown(board, finger(BOARD.wide / 2, BOARD.tall / 2));
    fireEvent.pointerMove(board, finger(BOARD.wide / 2 + 40, BOARD.tall / 2));
    expect(seen).toEqual([]);
    expect(board.innerHTML).not.toBe(before);
  });

  it("drags an obstacle as a whole by its middle", () => {
    const { getByRole, last } = drawn(withObstacle(FIELD, [10, 5], 2));
    fireEvent.keyDown(getByRole("button", { name: "Obstacle 1, all of it" }), {
      key: "ArrowLeft",
      shiftKey: true,
    });
    const xs = last()?.holes[0]?.map(([x]) => x) ?? [];
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(4, 9);
    expect(Math.max(...xs)).toBeLessThan(12);
  });
});

function traced(trace: TraceForm) {
  const taps: Dot[] = [];
  const changes: TraceForm[] = [];
  const view = fitPicture(640, 480);
  const screen = render(
    <TraceBoard
      href="blob:plan"
      width={640}
      height={480}
      trace={trace}
      onChange={(next) => changes.push(next)}
      onTap={(dot) => taps.push(dot)}
      chosen={undefined}
      onChoose={() => undefined}
      label="Plan"
      view={view}
      onView={() => undefined}
    />,
  );
  return { ...screen, taps, changes, view, board: screen.getByRole("group") };
}

describe("a plan under the hand", () => {
  it("sets a place where a finger taps, in the picture's own dots", () => {
    const { board, taps, view } = traced(noTrace("m"));
    const [x, y] = toBoard(view, [100, 60]);
    fireEvent.pointerDown(board, finger(x, y));
    fireEvent.pointerUp(board, finger(x, y));
    expect(taps[0]?.map(Math.round)).toEqual([100, 60]);
  });

  it("shows what lies under the finger while it is down, and only then", () => {
    const { board } = traced(noTrace("m"));
    fireEvent.pointerDown(board, finger(50, 100));
    expect(board.querySelector(".loupe")).not.toBeNull();
    fireEvent.pointerUp(board, finger(50, 100));
    expect(board.querySelector(".loupe")).toBeNull();
  });

  it("drags a point set before and keeps it on the picture", () => {
    const { board, changes, view } = traced(tapped(noTrace("m"), [600, 240]));
    const [x, y] = toBoard(view, [600, 240]);
    fireEvent.pointerDown(board, finger(x, y));
    fireEvent.pointerMove(board, finger(x + 200, y));
    expect(changes.at(-1)?.known).toEqual([[640, 240]]);
  });

  it("moves a point by the arrow keys, down being down", () => {
    const { getByRole, changes } = traced(tapped(noTrace("m"), [100, 60]));
    fireEvent.keyDown(getByRole("button", { name: "Known point 1 of 2" }), { key: "ArrowDown" });
    expect(changes.at(-1)?.known[0]?.[1]).toBeGreaterThan(60);
  });
});
