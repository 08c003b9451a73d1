/** A zone traced over the picture of a plan. */
import { useEffect, useState } from "preact/hooks";
import { unitsFor } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { newId, store } from "../../../../platform/store";
import { MOST_CORNERS } from "../../../../records/kinds";
import { BOARD, fitPicture, fromBoard, zoomed } from "../../../../ui/drawing/board";
import { Button, Notice, offerUndo, UnitField } from "../../../../ui/parts";
import { TraceBoard } from "../../drawing/trace-board";
import { picture as keptPicture, type PlanPicture, shrunk } from "../../model/plan-picture";
import {
  canNextRing,
  canUndo,
  type Dot,
  dotOf,
  dragged,
  handlesOfTrace,
  hasRoom,
  newest,
  nextRing,
  noTrace,
  sayTraceHandle,
  stepOf,
  type TraceForm,
  tapped,
  traceKey,
  undone,
} from "../../model/trace";
import { BoardButtons } from "./board-buttons";
import { MendButton } from "./gps";
import { NorthField } from "./north";
import { shownErrors, type WayProps } from "./shown";

type Kept = { picture: PlanPicture; href: string } | "asking" | "elsewhere";

/** The picture of that id as this phone keeps it, under an address the page may show. */
function useKept(id: string): Kept {
  const [kept, setKept] = useState<Kept>("asking");
  useEffect(() => {
    let href: string | undefined;
    let wanted = true;
    keptPicture(store.drafts, id).then(
      (picture) => {
        if (!wanted) return;
        if (!picture) return setKept("elsewhere");
        href = URL.createObjectURL(new Blob([picture.bytes], { type: picture.type }));
        setKept({ picture, href });
      },
      () => wanted && setKept("elsewhere"),
    );
    return () => {
      wanted = false;
      if (href) URL.revokeObjectURL(href);
    };
  }, [id]);
  return kept;
}

export function TracePlan(props: WayProps) {
  const { trace } = props.measures;
  if (!trace.picture)
    return (
      <div class="stack">
        <p class="quiet">
          Use a survey sheet, a site plan or a view from straight above. The picture stays on this phone and
          is never sent.
        </p>
        <PickPicture {...props} says="Choose a picture of the plan" first />
      </div>
    );
  return <OnPicture key={trace.picture} {...props} id={trace.picture} />;
}

interface PickProps extends WayProps {
  says: string;
  first?: boolean;
}

/** The phone's own way to a picture: its camera, its roll or a file. */
function PickPicture({ editor, measures, says, first }: PickProps) {
  const [trouble, setTrouble] = useState<string | undefined>(undefined);
  const [busy, setBusy] = useState(false);
  async function take(input: HTMLInputElement): Promise<void> {
    const file = input.files?.[0];
    if (!file) return;
    setBusy(true);
    setTrouble(undefined);
    try {
      const picture = await shrunk(file);
      const { unit } = measures.trace.distance;
      const trace = { ...noTrace(unit), picture: newId(), width: picture.width };
      const back = await editor.layPicture(trace, picture);
      if (!first) offerUndo("New picture. Trace it again.", back);
    } catch {
      setTrouble(
        `Can’t read ${file.name} as a picture. Choose a JPEG or PNG. You can photograph a PDF or save it as one.`,
      );
    } finally {
      input.value = "";
      setBusy(false);
    }
  }
  const wrong = trouble ?? shownErrors(editor)["trace.picture"];
  return (
    <div class="field">
      <label class={`button pick ${first ? "button--signal button--wide" : ""}`} aria-busy={busy}>
        {busy ? "Reading the picture …" : says}
        <input
          type="file"
          accept="image/*"
          aria-invalid={wrong ? "true" : undefined}
          onChange={(event) => void take(event.currentTarget)}
        />
      </label>
      <span aria-live="polite">{wrong ? <span class="field__error">{wrong}</span> : null}</span>
    </div>
  );
}

function OnPicture(props: WayProps & { id: string }) {
  const kept = useKept(props.id);
  if (kept === "asking") return <p aria-busy="true">Opening the picture …</p>;
  if (kept === "elsewhere")
    return (
      <div class="stack">
        <Notice title="The picture is not on this phone">
          <p>
            The picture is only on the phone that traced it. You can still edit the corners below, or choose
            another picture to start over.
          </p>
        </Notice>
        <div class="row">
          <MendButton editor={props.editor} />
          <PickPicture {...props} says="Choose another picture" />
        </div>
      </div>
    );
  return <Tracing {...props} kept={kept} />;
}

/** What the finger does next, in a sentence. */
function sayNext(trace: TraceForm): string {
  if (trace.known.length === 0) return "Tap one end of a length you know, such as a house wall.";
  if (trace.known.length === 1) return "Tap its other end.";
  if (!hasRoom(trace))
    return `This outline has ${MOST_CORNERS} corners in all, the most allowed. Tap Undo to set another one.`;
  const ring = trace.rings.length - 1;
  if (ring === 0) return "Tap the corners of the zone in order, around the edge.";
  return `Tap the corners of obstacle ${ring}.`;
}

function Tracing({ editor, measures, set, kept }: WayProps & { kept: Exclude<Kept, string> }) {
  const { trace } = measures;
  const { picture, href } = kept;
  const [view, setView] = useState(() => fitPicture(picture.width, picture.height));
  const [chosen, setChosen] = useState<string | undefined>(undefined);
  const handle = handlesOfTrace(trace).find((one) => traceKey(one) === chosen);
  const dot = handle && dotOf(trace, handle);
  const put = (next: TraceForm) => set({ trace: next });
  function tap(at: Dot): void {
    const next = tapped(trace, at);
    const made = newest(next);
    put(next);
    if (made) setChosen(traceKey(made));
  }
  return (
    <div class="stack">
      <p aria-live="polite">{sayNext(trace)}</p>
      <TraceBoard
        href={href}
        width={picture.width}
        height={picture.height}
        trace={trace}
        onChange={put}
        onTap={tap}
        chosen={chosen}
        onChoose={setChosen}
        label="The plan with what is traced on it"
        view={view}
        onView={setView}
      />
      <BoardButtons
        what={handle && sayTraceHandle(trace, handle)}
        onNudge={(right, up) =>
          handle &&
          dot &&
          put(dragged(trace, handle, [dot[0] + right / view.scale, dot[1] - up / view.scale]))
        }
        onZoom={(factor) => setView(zoomed(view, factor, dot))}
      />
      <output class="small">
        {handle ? `Selected: ${sayTraceHandle(trace, handle)}` : "Drag with one finger to move the plan."}
      </output>
      <TraceButtons
        trace={trace}
        onInput={put}
        onMiddle={() => tap(fromBoard(view, [BOARD.wide / 2, BOARD.tall / 2]))}
      />
      <TraceErrors {...shownErrors(editor)} />
      {stepOf(trace) === "corners" ? (
        <UnitField
          label="Known distance between the first two points"
          units={unitsFor("length", units.value)}
          value={trace.distance}
          onInput={(distance) => put({ ...trace, distance })}
          error={shownErrors(editor)["trace.distance"]}
        />
      ) : null}
      <NorthField north={trace.north} onInput={(north) => put({ ...trace, north })} />
      <div class="row">
        <MendButton editor={editor} />
        <PickPicture editor={editor} measures={measures} set={set} says="Choose another picture" />
      </div>
    </div>
  );
}

function TraceErrors(errors: Record<string, string>) {
  const wrong = errors["trace.known"] ?? errors["trace.corners"];
  return wrong ? <Notice kind="bad">{wrong}</Notice> : null;
}

interface TraceButtonsProps {
  trace: TraceForm;
  onInput: (trace: TraceForm) => void;
  onMiddle: () => void;
}

function TraceButtons({ trace, onInput, onMiddle }: TraceButtonsProps) {
  return (
    <div class="row">
      <Button onClick={onMiddle}>Set a point in the middle</Button>
      <Button disabled={!canUndo(trace)} onClick={() => onInput(undone(trace))}>
        Undo
      </Button>
      <Button disabled={!canNextRing(trace)} onClick={() => onInput(nextRing(trace))}>
        Trace an obstacle
      </Button>
    </div>
  );
}
