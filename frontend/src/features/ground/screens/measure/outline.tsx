/** An outline drawn or mended corner by corner. */
import { useRef, useState } from "preact/hooks";
import { roundLength, type Typed, unitOf, unitsFor } from "../../../../format";
import { parse } from "../../../../forms/amount";
import { units } from "../../../../platform/session/session";
import { BOARD, type View, zoomed } from "../../../../ui/drawing/board";
import { Button, offerUndo, UnitField } from "../../../../ui/parts";
import { handleOf, nudged, OutlineEditor, viewOf } from "../../drawing/outline-editor";
import {
  FULL,
  type Handle,
  handleKey,
  hasRoom,
  NO_OUTLINE,
  OBSTACLE_CORNERS,
  type OutlineForm,
  placeOf,
  rectangle,
  removable,
  sayHandle,
  withCircle,
  withCorner,
  withObstacle,
  without,
} from "../../model/outline";
import { BoardButtons } from "./board-buttons";
import { NorthField } from "./north";
import { shownErrors, type WayProps } from "./shown";

interface OutlineFieldsProps {
  outline: OutlineForm;
  onInput: (outline: OutlineForm) => void;
  error?: string | undefined;
}

export function DrawOutline({ editor, measures, set }: WayProps) {
  return (
    <OutlineFields
      outline={measures.outline}
      onInput={(outline) => set({ outline })}
      error={shownErrors(editor)["outline"]}
    />
  );
}

export function OutlineFields(props: OutlineFieldsProps) {
  return props.outline.points.length ? <Drawing {...props} /> : <Begin {...props} />;
}

/** A rectangle of two measured lengths, to be dragged into shape. */
function Begin({ onInput, error }: OutlineFieldsProps) {
  const blank = { amount: "", unit: unitOf("length", units.value).key };
  const [sides, setSides] = useState<{ long: Typed; wide: Typed }>({ long: blank, wide: blank });
  const [tried, setTried] = useState(false);
  const read = {
    long: parse(sides.long.amount, sides.long.unit),
    wide: parse(sides.wide.amount, sides.wide.unit),
  };
  const wrong = (side: "long" | "wide"): string | undefined => {
    const one = read[side];
    if (!tried) return undefined;
    if (!one.ok) return one.message;
    return one.si > 0 ? undefined : "Enter a length above 0.";
  };
  function layOut(): void {
    setTried(true);
    if (read.long.ok && read.wide.ok && read.long.si > 0 && read.wide.si > 0)
      onInput(rectangle(read.long.si, read.wide.si));
  }
  return (
    <div class="stack">
      <p class="quiet">Start with a rectangle about the size of the zone. Then drag its corners.</p>
      <div class="fields-2">
        <UnitField
          label="Length, about"
          units={unitsFor("length", units.value)}
          words
          value={sides.long}
          onInput={(long) => setSides({ ...sides, long })}
          error={wrong("long") ?? error}
        />
        <UnitField
          label="Width, about"
          units={unitsFor("length", units.value)}
          words
          value={sides.wide}
          onInput={(wide) => setSides({ ...sides, wide })}
          error={wrong("wide")}
        />
      </div>
      <Button onClick={layOut}>Draw it</Button>
    </div>
  );
}

/** How large a new obstacle is drawn, as a share of the board. */
const NEW_SHARE = 0.08;

function Drawing({ outline, onInput }: OutlineFieldsProps) {
  const [view, setView] = useState(() => viewOf(outline));
  const [chosen, setChosen] = useState<string | undefined>("0.0");
  const earlier = useRef<OutlineForm[]>([]);
  const handle = handleOf(outline, chosen);
  const place = handle && placeOf(outline, handle);
  function change(next: OutlineForm, begins = true): void {
    if (begins) earlier.current = [...earlier.current.slice(-49), outline];
    onInput(next);
  }
  function undo(): void {
    const before = earlier.current.pop();
    if (before) onInput(before);
  }
  return (
    <div class="stack">
      <p class="quiet">Drag a corner. Your finger can be beside it. Drag a plus sign to add a corner.</p>
      <OutlineEditor
        outline={outline}
        onChange={change}
        chosen={chosen}
        onChoose={setChosen}
        label="Outline of the zone from above, to scale"
        scale={(most) => roundLength(most, units.value)}
        view={view}
        onView={setView}
      />
      <BoardButtons
        what={handle && sayHandle(outline, handle)}
        onNudge={(right, up) => handle && place && change(nudged(outline, handle, place, view, right, up))}
        onZoom={(factor) => setView(zoomed(view, factor, place))}
      />
      <output class="small">
        {handle ? `Selected: ${sayHandle(outline, handle)}` : "Tap a corner to select it."}
      </output>
      <p aria-live="polite">{hasRoom(outline) ? "" : FULL}</p>
      <div class="ground__halves">
        <CornerButtons outline={outline} handle={handle} onInput={change} onChoose={setChosen} />
        <Button disabled={!earlier.current.length} onClick={undo}>
          Undo
        </Button>
        <Button onClick={() => setView(viewOf(outline))}>Show all</Button>
      </div>
      <ObstacleButtons
        outline={outline}
        view={view}
        onInput={(next, made) => {
          change(next);
          setChosen(handleKey(made));
        }}
      />
      <NorthField north={outline.north} onInput={(north) => onInput({ ...outline, north })} />
      <StartOver outline={outline} onInput={onInput} />
    </div>
  );
}

interface ObstacleProps {
  outline: OutlineForm;
  view: View;
  onInput: (outline: OutlineForm, made: Handle) => void;
}

/** A new obstacle lies in the middle of the board, beside those that lie there already. */
function ObstacleButtons({ outline, view, onInput }: ObstacleProps) {
  const size_m = (NEW_SHARE * BOARD.tall) / view.scale;
  const { length: holes } = outline.holes;
  const { length: circles } = outline.circles;
  const aside = (holes + circles) % 3;
  const at: [number, number] = [view.x + (aside === 2 ? -3 : 3 * aside) * size_m, view.y];
  return (
    <div class="ground__halves">
      <Button
        disabled={!hasRoom(outline, OBSTACLE_CORNERS)}
        onClick={() => onInput(withObstacle(outline, at, size_m), { kind: "whole", ring: holes + 1 })}
      >
        Add an obstacle
      </Button>
      <Button onClick={() => onInput(withCircle(outline, at, size_m), { kind: "middle", circle: circles })}>
        Add a round obstacle
      </Button>
    </div>
  );
}

interface CornerProps {
  outline: OutlineForm;
  handle: Handle | undefined;
  onInput: (outline: OutlineForm) => void;
  onChoose: (key: string) => void;
}

function CornerButtons({ outline, handle, onInput, onChoose }: CornerProps) {
  function add(): void {
    if (handle?.kind !== "corner") return;
    onInput(withCorner(outline, handle.ring, handle.at));
    onChoose(handleKey({ ...handle, at: handle.at + 1 }));
  }
  return (
    <>
      <Button disabled={handle?.kind !== "corner" || !hasRoom(outline)} onClick={add}>
        Add a corner
      </Button>
      <Button
        disabled={!handle || !removable(outline, handle)}
        onClick={() => handle && onInput(without(outline, handle))}
      >
        {handle && handle.kind !== "corner" ? "Remove the obstacle" : "Remove the corner"}
      </Button>
    </>
  );
}

function StartOver({ outline, onInput }: Pick<OutlineFieldsProps, "outline" | "onInput">) {
  function startOver(): void {
    onInput(NO_OUTLINE);
    offerUndo("Outline removed.", async () => onInput(outline));
  }
  return (
    <div>
      <Button tone="quiet" onClick={startOver}>
        Start over
      </Button>
    </div>
  );
}
