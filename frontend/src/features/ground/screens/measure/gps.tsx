/** The edge of a zone walked with the phone. */
import { useEffect, useMemo } from "preact/hooks";
import { length, roundLength } from "../../../../format";
import { useEngine, type Value } from "../../../../platform/engine";
import { units } from "../../../../platform/session/session";
import { useWakeLock } from "../../../../platform/wake";
import { Button, Figure, Notice, offerUndo } from "../../../../ui/parts";
import { TrackDrawing } from "../../drawing/track-drawing";
import {
  accuracyWord,
  canClose,
  closed,
  createGpsWatch,
  type GpsForm,
  type GpsWatch,
  gpsArgs,
  NO_WALK,
  paused,
  TROUBLES,
  takenBack,
  walking,
  withFix,
} from "../../model/gps-trace";
import type { ZoneEditor } from "../../model/ground";
import { atMost, fewer, formOfOutline } from "../../model/outline";
import { shownErrors, type WayProps } from "./shown";

/** Corners of a walk nearer than this to the line of their neighbours are not worth mending one by one. */
const BEND_M = 0.5;

function putWith(editor: ZoneEditor, step: (gps: GpsForm) => GpsForm): void {
  const measures = editor.form.peek()?.measures;
  if (measures) editor.change({ measures: { ...measures, gps: step(measures.gps) } });
}

/** The watch for as long as this screen is open and the walk goes on. */
function useWatch(editor: ZoneEditor, state: GpsForm["state"]): GpsWatch {
  const watch = useMemo(
    () =>
      createGpsWatch({
        geo: () => navigator.geolocation as Geolocation | undefined,
        secure: window.isSecureContext,
        onFix: (fix) => putWith(editor, (gps) => withFix(gps, fix)),
      }),
    [editor],
  );
  useEffect(() => {
    if (state === "walking") watch.start();
    else watch.stop();
  }, [watch, state]);
  useEffect(() => () => watch.stop(), [watch]);
  return watch;
}

export function WalkEdge({ editor, measures }: WayProps) {
  const { gps } = measures;
  const watch = useWatch(editor, gps.state);
  const track = useEngine("area.track", gps.fixes.length ? gpsArgs(gps) : null);
  const found = track.answer?.value;
  return (
    <div class="stack">
      {gps.state === "new" ? (
        <p class="quiet">
          Start at a corner. Hold the phone flat, open to the sky. Walk slowly once around the edge. Each GPS
          point is saved as you walk, even if the phone locks.
        </p>
      ) : null}
      <TroubleNotice watch={watch} />
      {gps.state === "walking" ? (
        <OnFoot watch={watch} resumed={editor.resumed.value && watch.last.value === undefined} />
      ) : null}
      {found && gps.state !== "closed" ? (
        <Counts gps={gps} watch={watch} found={found} working={track.answer?.working} busy={track.busy} />
      ) : null}
      <Steps editor={editor} gps={gps} watch={watch} found={found} />
      {gps.state === "new" ? <Advice /> : null}
      {found && gps.state !== "closed" ? (
        <TrackDrawing
          points_m={found.points_m}
          closed={false}
          label="The edge walked so far, to scale, north up"
          scale={(most) => roundLength(most, units.value)}
        />
      ) : null}
      {shownErrors(editor)["gps"] ? <Notice kind="bad">{shownErrors(editor)["gps"]}</Notice> : null}
    </div>
  );
}

/** What is honest to say before the walk. */
function Advice() {
  return (
    <Notice title="On a small lawn a tape beats the phone">
      <p>
        A GPS point can be 10 ft (3 m) off or more. That matters on a small lawn. Use GPS for big or odd
        shapes. Use a tape for the rest.
      </p>
      <p>These points are shared with your household.</p>
      <details>
        <summary>How this is worked out</summary>
        <p class="small quiet">
          In a published trial, hand-held receivers read a hectare (2.5 acres) 1.6% too large in the open and
          4% under trees. Single results were 12% off. A lawn is far smaller, so the same error weighs more.
          Source: Revue forestière française 56(6), 2004, abstract.
        </p>
      </details>
    </Notice>
  );
}

function TroubleNotice({ watch }: { watch: GpsWatch }) {
  const trouble = watch.trouble.value;
  if (!trouble) return null;
  const { title, help } = TROUBLES[trouble];
  return (
    <Notice kind="warn" title={title} alert>
      <p>{help}</p>
    </Notice>
  );
}

/** While walking: the screen stays awake, or it is said that it cannot. */
function OnFoot({ watch, resumed }: { watch: GpsWatch; resumed: boolean }) {
  const awake = useWakeLock();
  return (
    <>
      {awake === "absent" ? (
        <p class="quiet">This phone may dim its screen. Your points are saved. Wake it and keep walking.</p>
      ) : null}
      {resumed ? <p>Stand where the line ends, then keep walking.</p> : null}
      {watch.state.value === "asking" && !watch.trouble.value ? (
        <p aria-live="polite">Waiting for the first point. Allow location if the phone asks.</p>
      ) : null}
    </>
  );
}

interface CountsProps {
  gps: GpsForm;
  watch: GpsWatch;
  found: Value<"area.track">;
  working: Parameters<typeof Figure>[0]["working"];
  busy: boolean;
}

function Counts({ gps, watch, found, working, busy }: CountsProps) {
  const system = units.value;
  const rough = found.left_out.filter(({ why }) => why === "inaccurate").length;
  const here = (watch.last.value ?? gps.fixes.at(-1))?.accuracy_m;
  return (
    <div class="figures">
      <Figure
        label="Good points"
        value={String(gps.fixes.length - rough)}
        note={rough ? `${rough} too rough, not used` : undefined}
        busy={busy}
      />
      {here === undefined ? null : (
        <Figure
          label={gps.state === "walking" ? "Right now" : "Last point"}
          value={accuracyWord(here)}
          note={`within about ${length(here, system).text}`}
        />
      )}
      <Figure label="Distance" value={length(found.length_m, system).text} working={working} busy={busy} />
    </div>
  );
}

interface StepsProps {
  editor: ZoneEditor;
  gps: GpsForm;
  watch: GpsWatch;
  found: Value<"area.track"> | undefined;
}

function Steps({ editor, gps, watch, found }: StepsProps) {
  const put = (step: (gps: GpsForm) => GpsForm) => putWith(editor, step);
  /** Begins again even where the watch gave up. What matters on foot comes to the top of the screen. */
  function walk(): void {
    put(walking);
    watch.start();
    document.getElementById("measure")?.scrollIntoView({ block: "start" });
  }
  if (gps.state === "new")
    return (
      <Button tone="signal" wide onClick={walk}>
        Start walking the edge
      </Button>
    );
  if (gps.state === "closed") return <Closed editor={editor} gps={gps} onWalk={walk} />;
  const onFoot = gps.state === "walking" && watch.state.value !== "off";
  const more = (
    <Button wide tone={canClose(gps) ? "plain" : "signal"} onClick={walk}>
      {gps.fixes.length ? "Continue walking" : "Start again"}
    </Button>
  );
  const rest = (
    <Button wide onClick={() => put(paused)}>
      Pause
    </Button>
  );
  if (!gps.fixes.length) return onFoot ? rest : more;
  return (
    <div class="stack">
      <div class="ground__halves">
        {onFoot ? rest : more}
        <Button
          wide
          tone="signal"
          disabled={!canClose(gps)}
          onClick={() => put((now) => closed(now, found?.left_out))}
        >
          Close the loop
        </Button>
      </div>
      <div>
        <Button tone="quiet" onClick={() => takeBack(editor, gps)}>
          Undo last stretch
        </Button>
        <p class="small quiet">Removes points since your last pause, up to 10.</p>
      </div>
    </div>
  );
}

function takeBack(editor: ZoneEditor, before: GpsForm): void {
  putWith(editor, takenBack);
  offerUndo("Undone and paused. Walk to where the line ends, then continue.", async () =>
    putWith(editor, () => ({ ...before, state: "paused" })),
  );
}

function Closed({ editor, gps, onWalk }: { editor: ZoneEditor; gps: GpsForm; onWalk: () => void }) {
  function startOver(): void {
    putWith(editor, () => NO_WALK);
    offerUndo("GPS walk removed.", async () => putWith(editor, () => gps));
  }
  return (
    <div class="stack">
      <p>The loop is closed: {gps.fixes.length} points. See the area below.</p>
      <div class="row">
        <MendButton editor={editor} />
        <Button onClick={onWalk}>Continue walking</Button>
        <Button tone="quiet" onClick={startOver}>
          Start over
        </Button>
      </div>
    </div>
  );
}

/** Hands the outline just measured over to be mended corner by corner; what was walked or traced stays in the form. */
export function MendButton({ editor }: { editor: ZoneEditor }) {
  const shown = editor.answer.value?.value;
  if (!shown?.points_m && !shown?.outline_m) return null;
  async function mend(): Promise<void> {
    const measures = editor.form.peek()?.measures;
    // What is shown may be the answer to an older ring, without the corner set last.
    const found = await editor.measure();
    const points = found?.points_m ?? found?.outline_m;
    if (!measures || !found || !points || measures !== editor.form.peek()?.measures) return;
    const walked = measures.method === "gps";
    const north_deg = walked ? 0 : (found.north_deg ?? null);
    const corners = walked ? atMost(fewer(points, BEND_M)) : points;
    const outline = {
      ...formOfOutline({ points_m: corners, holes_m: found.holes_m ?? [], north_deg }),
      sd_m2: found.sd_m2 ?? null,
    };
    editor.change({ measures: { ...measures, method: "outline", outline } });
  }
  return <Button onClick={() => void mend()}>Edit the corners</Button>;
}
