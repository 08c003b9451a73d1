import { useId, useMemo } from "preact/hooks";
import "./plan.css";
import { StripHatch } from "../../../ui/drawing/strip-hatch";
import {
  type ClearGround,
  ClearWords,
  clearPath,
  Foot,
  NowArrow,
  Numerals,
  type OutBand,
  OutGround,
  OutHatch,
  OutWords,
  StartFlag,
} from "./plan-marks";
import {
  type Frame,
  frameOf,
  groundPath,
  holesPath,
  lineOf,
  type PlanOutline,
  type PlanRow,
  rowsAt,
  sayRow,
  type ZoneRows,
} from "./plan-shape";

export interface PlanZone {
  id: string;
  name: string;
  outline?: PlanOutline | null | undefined;
}

export interface RouteDrawingProps {
  zones: readonly PlanZone[];
  /** The rows of `swath.tour`, in the order walked. */
  rows: readonly PlanRow[];
  /** Number of the row being walked; 0 before the job, one past the last after it. */
  at: number;
  /** Which pass the rows belong to: chooses the hatch. Earlier passes show faintly beneath. */
  pass: number;
  /** Swath in metres: how wide a strip is drawn. */
  swath_m: number;
  size?: Size;
  /** What is drawn, said first; otherwise the zone's name. */
  label?: string;
  /** Rows of earlier passes that get no more: drawn over with a lattice, named in words. */
  out?: readonly OutBand[];
  /** Where some of a zone stays clear of water, the ground its strips lie on; the rest is drawn as a band. */
  clear?: readonly ClearGround[] | undefined;
  /** Chooses the scale bar, no longer than what is given and round in the reader's units. */
  scale?: (most_m: number) => { length_m: number; text: string };
}

const ROOMS = {
  compact: { wide: 340, high: 200, margin: 8 },
  large: { wide: 340, high: 400, margin: 10 },
};
/** Room for scale bar and north mark beneath the ground. */
const FOOT = 28;
/** Bands are drawn a little narrower than the swath, so that neighbours stay apart. */
const BAND = 0.84;

interface Laid {
  zone: PlanZone;
  outline: PlanOutline;
  frame: Frame;
  ground: string;
  holes: string;
  /** A line for every row of the zone, in the order walked. */
  lines: string[];
}

type Size = "compact" | "large";

function layOut(
  zones: readonly PlanZone[],
  all: readonly PlanRow[],
  zone_id: string | undefined,
  size: Size,
): Laid | null {
  const zone = zones.find(({ id }) => id === zone_id);
  const { outline } = zone ?? {};
  const frame = outline ? frameOf(outline.points_m, ROOMS[size]) : null;
  if (!zone || !outline || !frame) return null;
  const lines = all
    .filter((row) => row.zone_id === zone_id)
    .map(({ points_m, kind }) => (points_m ? lineOf(points_m, frame.place, kind === "header") : ""));
  const [ground, holes] = [groundPath(outline, frame), holesPath(outline, frame)];
  return { zone, outline, frame, ground, holes, lines };
}

function titleOf(
  { zone }: Laid,
  { rows, done, now }: ZoneRows,
  { pass, label, out = [], clear }: RouteDrawingProps,
): string {
  const where = now ? `now ${sayRow(rows, now)}` : done ? "all walked" : "nothing walked yet";
  const gone = out.some(({ zone_id }) => zone_id === zone.id)
    ? ". The ground under the lattice gets no more"
    : "";
  const off = clear?.some(({ zone_id }) => zone_id === zone.id) ? ". The band at the water stays clear" : "";
  return `${label ?? zone.name} from above, to scale. Pass ${pass}: ${done} of ${rows.length} rounds and strips walked, ${where}${gone}${off}`;
}

/**
 * The zone being walked, from above and to scale: strips as bands of the swath's width in their pass's
 * hatch, the walked ones filled, the one being walked in the signal colour with an arrow. What does not
 * change from strip to strip is laid out once for a plan.
 */
export function RouteDrawing(props: RouteDrawingProps) {
  const { zones, rows: all, at, pass, swath_m, size = "compact", scale, out = [], clear } = props;
  const id = useId();
  const here = rowsAt(all, at);
  const { zone_id } = here;
  const laid = useMemo(() => layOut(zones, all, zone_id, size), [zones, all, zone_id, size]);
  if (!laid) return <NoPlan zones={zones} here={here} />;
  const { frame } = laid;
  const kept = clear?.find((one) => one.zone_id === zone_id);
  const high = frame.high + FOOT;
  return (
    <svg
      class={`drawing route-plan route-plan--${size}`}
      viewBox={`0 0 ${frame.wide} ${Math.round(high)}`}
      role="img"
      aria-labelledby={`t${id}`}
    >
      <title id={`t${id}`}>{titleOf(laid, here, props)}</title>
      <Patterns id={id} pass={pass} ground={laid.ground} />
      <OutHatch id={`o${id}`} />
      <path class="plan-ground" d={laid.ground} fill-rule="evenodd" />
      <g clip-path={`url(#g${id})`} style={{ "--band": `${swath_m * frame.scale * BAND}px` }}>
        <Earlier id={id} pass={pass} ground={laid.ground} />
        <Bands hatch={`url(#p${pass}${id})`} lines={laid.lines} done={here.done} now={here.now !== null} />
        <OutGround id={`o${id}`} out={out} zone_id={zone_id} frame={frame} band={swath_m * frame.scale} />
      </g>
      {kept ? (
        <path d={clearPath(kept, laid.ground, frame)} fill={`url(#o${id})`} fill-rule="evenodd" />
      ) : null}
      <path class="plan-hole" d={laid.holes} fill={`url(#c${id})`} />
      <path class="plan-edge" d={laid.ground} />
      <NowArrow now={here.now} frame={frame} />
      <StartFlag first={here.rows[0]} frame={frame} />
      {size === "large" ? <Numerals rows={here.rows} frame={frame} band={swath_m * frame.scale} /> : null}
      <OutWords out={out} zone_id={zone_id} frame={frame} />
      {kept ? <ClearWords kept={kept} outline={laid.outline} frame={frame} /> : null}
      <Foot outline={laid.outline} frame={frame} scale={scale} />
    </svg>
  );
}

function Patterns({ id, pass, ground }: { id: string; pass: number; ground: string }) {
  const passes = Array.from({ length: pass }, (_, k) => k + 1);
  return (
    <defs>
      <clipPath id={`g${id}`}>
        <path d={ground} clip-rule="evenodd" />
      </clipPath>
      <StripHatch id={`c${id}`} gap={5} weight={1.4} />
      {passes.map((one) => (
        <StripHatch key={one} id={`p${one}${id}`} pass={one} />
      ))}
    </defs>
  );
}

/** Earlier passes of this job: their hatch over the whole ground, faint. */
function Earlier({ id, pass, ground }: { id: string; pass: number; ground: string }) {
  return (
    <g class="plan-earlier">
      {Array.from({ length: pass - 1 }, (_, k) => (
        <path key={k} d={ground} fill-rule="evenodd" fill={`url(#p${k + 1}${id})`} />
      ))}
    </g>
  );
}

interface BandsProps {
  hatch: string;
  lines: readonly string[];
  done: number;
  now: boolean;
}

/** A few paths however many strips there are: still to walk, walked, being walked. */
function Bands({ hatch, lines, done, now }: BandsProps) {
  const togo = lines.slice(done).join("");
  return (
    <>
      <path class="plan-band plan-togo" d={togo} />
      <path class="plan-band" d={togo} stroke={hatch} />
      <path class="plan-band plan-done" d={lines.slice(0, done).join("")} />
      {now ? <path class="plan-band plan-now" d={lines[done]} /> : null}
    </>
  );
}

/** A zone without an outline cannot be drawn. */
function NoPlan({ zones, here }: { zones: readonly PlanZone[]; here: ZoneRows }) {
  const name = zones.find((zone) => zone.id === here.zone_id)?.name;
  if (!name) return null;
  return (
    <p class="plan-missing">
      {name} has no outline yet, so no strips are drawn. Edge first, then back and forth.
    </p>
  );
}
