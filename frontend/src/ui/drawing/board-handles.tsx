/** What can be taken hold of on a board: by touch through the board itself, by keyboard here. */
import type { ComponentChildren } from "preact";
import { REACH, type Spot } from "./board";

export interface BoardHandle {
  key: string;
  /** On the board. */
  at: Spot;
  label: string;
  look: "corner" | "whole" | "round" | "known";
}

interface HandlesProps {
  handles: readonly BoardHandle[];
  chosen: string | undefined;
  onChoose: (key: string) => void;
  /** Moved by the arrow keys, in steps to the right and up. */
  onNudge: (key: string, right: number, up: number) => void;
  onRemove?: ((key: string) => void) | undefined;
}

const KEYS: Record<string, readonly [right: number, up: number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};
const FAR = 10;
/** More corners than this are stepped through by buttons; a press of Tab for each would be a long way. */
const MOST_STOPS = 40;

export function Handles({ handles, chosen, onChoose, onNudge, onRemove }: HandlesProps) {
  function pressed(event: KeyboardEvent, key: string): void {
    const way = KEYS[event.key];
    const steps = event.shiftKey ? FAR : 1;
    if (way) onNudge(key, way[0] * steps, way[1] * steps);
    else if (onRemove && (event.key === "Delete" || event.key === "Backspace")) onRemove(key);
    else return;
    event.preventDefault();
  }
  return (
    <g>
      {handles.map(({ key, at: [x, y], label, look }) => (
        // biome-ignore lint/a11y/useSemanticElements: a button of HTML cannot stand inside a drawing
        <g
          key={key}
          class={key === chosen ? "handle is-chosen" : "handle"}
          role="button"
          aria-label={label}
          aria-pressed={key === chosen}
          tabIndex={handles.length <= MOST_STOPS || key === chosen ? 0 : -1}
          onFocus={() => onChoose(key)}
          onKeyDown={(event) => pressed(event, key)}
        >
          <rect class="handle__reach" x={x - REACH} y={y - REACH} width={2 * REACH} height={2 * REACH} />
          <Mark x={x} y={y} look={look} />
        </g>
      ))}
    </g>
  );
}

function Mark({ x, y, look }: { x: number; y: number; look: BoardHandle["look"] }): ComponentChildren {
  if (look === "round") return <circle class="handle__mark" cx={x} cy={y} r={6} />;
  if (look === "whole")
    return <path class="handle__mark" d={`M${x} ${y - 8}L${x + 8} ${y}L${x} ${y + 8}L${x - 8} ${y}Z`} />;
  if (look === "corner") return <rect class="handle__mark" x={x - 5.5} y={y - 5.5} width={11} height={11} />;
  return (
    <path
      class="handle__cross"
      d={`M${x - 11} ${y}H${x - 3}M${x + 3} ${y}H${x + 11}M${x} ${y - 11}V${y - 3}M${x} ${y + 3}V${y + 11}`}
    />
  );
}
