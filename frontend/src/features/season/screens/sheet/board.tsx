/** The drawn year in its own box: flags are moved by finger, mouse and keys, and the rules answer meanwhile. */
import type { RefObject } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";
import { nitrogen, unitOf } from "../../../../format";
import { today } from "../../../../platform/session/clock";
import { units } from "../../../../platform/session/session";
import { named, sayZones } from "../../../../records/log/named";
import {
  FLAG_WIDE,
  type Flag,
  laidOut,
  ON_SCREEN,
  type PlacedFlag,
  WEEK,
  weekAt,
} from "../../drawing/sheet-shape";
import { YearDrawing, YearLegend } from "../../drawing/year-drawing";
import { moving, sheet } from "../../model/sheet";
import type { Sheet } from "../../model/sheet/sheet";
import { sayJob } from "../jobs";
import { takeIt } from "./moving-panel";
import { onCloth, sayBags, sayDays, sayFlag, shortened } from "./words";

const LETTER = 16;
/** As much of a name as a phone shows at once; its flags and the list say all of it. */
const NAME_LETTERS = 28;
/** Less than this a finger only rested on the flag. */
const MOVED_PX = 8;
/** So near to the edge of the box the paper goes on under the finger. */
const EDGE_PX = 28;

export const bandName = ({ zones }: { zones: readonly string[] }) => sayZones(zones) || "The whole yard";

export function drawingOf(value: Sheet["value"]) {
  const system = units.value;
  const { unit } = nitrogen(1, system);
  const one = (n: number) => nitrogen(n, system).number;
  return {
    value,
    title: `The year as a sheet, ${value.bands.length === 1 ? "1 band" : `${value.bands.length} bands`}; the same steps are in the list`,
    bandName,
    flagLines: (flag: PlacedFlag) => [onCloth(jobOf(flag)), sayFlag(flag, system)] as const,
    write: one,
    factor: unitOf("nitrogen", system).factor,
    unit,
  };
}

const jobOf = (flag: Pick<Flag, "step" | "job">): string => {
  const kept = sheet.kept.value.find(({ id }) => id === flag.step);
  return kept ? sayJob(kept) : flag.job;
};

/** Everything a flag tells, for who cannot see it. */
export function sayWhole(flag: Flag, band: { zones: readonly string[] }): string {
  const product = flag.product ? named(flag.product, "a product not on this phone") : "";
  const bags = flag.bags === null ? "" : sayBags(flag.bags, units.value);
  const state = flag.state === "planned" ? (flag.late ? "late" : "") : sayFlag(flag, units.value);
  const facts = [jobOf(flag), bandName(band), sayDays(flag.from, flag.to, today()), product, bags, state];
  return [...facts, flag.locked ? "stays where it is" : ""].filter(Boolean).join(", ");
}

export function Board({ value }: { value: Sheet["value"] }) {
  const box = useRef<HTMLElement>(null);
  const paper = useRef<HTMLDivElement>(null);
  const { wide, high, bands } = laidOut(value, ON_SCREEN);
  const now = moving.picked.value;
  const rem = (px: number) => `${px / LETTER}rem`;
  useToday(box, paper, value.today_week, wide);
  return (
    <>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways must be reached by keys */}
      <section ref={box} class="season-sheet" aria-label="The year, week by week" tabIndex={0}>
        <div ref={paper} class="season-sheet__paper" style={{ "--sheet-wide": wide, height: rem(high) }}>
          <YearDrawing
            {...drawingOf(value)}
            room={ON_SCREEN}
            moving={now && { step: now.step.id, weeks: now.weeks }}
          />
          {bands.map(({ band, top, flags }) => (
            <div key={band.group}>
              <div class="season-sheet__name" style={{ top: rem(top + 4) }}>
                <h3>{shortened(bandName(band), NAME_LETTERS)}</h3>
              </div>
              {flags.map((flag) => (
                <FlagButton
                  key={flag.step}
                  flag={flag}
                  says={sayWhole(flag, band)}
                  weekPx={() => ((paper.current?.getBoundingClientRect().width ?? wide) / wide) * WEEK}
                  box={() => box.current}
                  place={{
                    left: rem(flag.left),
                    top: rem(top + ON_SCREEN.name + flag.lane * ON_SCREEN.flag),
                    width: rem(FLAG_WIDE),
                    height: rem(ON_SCREEN.flag),
                  }}
                />
              ))}
            </div>
          ))}
        </div>
      </section>
      <YearLegend
        products={value.products.map((id) => named(id, "a product not on this phone"))}
        unit={nitrogen(1, units.value).unit}
      />
    </>
  );
}

/** A year that holds today opens there, with the weeks just past beside it; another at its beginning. */
function useToday(
  box: RefObject<HTMLElement>,
  paper: RefObject<HTMLElement>,
  week: number | null,
  wide: number,
): void {
  useLayoutEffect(
    () => showWeek(box.current, paper.current, week, wide),
    [box.current, paper.current, week, wide],
  );
}

function showWeek(
  box: HTMLElement | null,
  paper: HTMLElement | null,
  week: number | null,
  wide: number,
): void {
  if (!box || !paper) return;
  const px = paper.getBoundingClientRect().width / wide;
  box.scrollLeft = week === null ? 0 : px * weekAt(week) - box.clientWidth / 3;
}

interface FlagButtonProps {
  flag: PlacedFlag;
  says: string;
  place: Record<string, string>;
  /** So many pixels are a week, and the box that scrolls. */
  weekPx: () => number;
  box: () => HTMLElement | null;
}

function FlagButton({ flag, says, place, weekPx, box }: FlagButtonProps) {
  const drag = useRef<{ x: number; scroll: number; moved: boolean } | undefined>(undefined);
  /** The tap that ends a drag is no tap. */
  const dragged = useRef(false);
  const mine = () => moving.picked.peek()?.step.id === flag.step;
  const pick = () => {
    if (!mine()) moving.pick(flag.step, flag);
  };
  const movable = flag.earlier_weeks + flag.later_weeks > 0;

  function onPointerMove(event: PointerEvent) {
    const from = drag.current;
    const frame = box();
    if (!from || !frame || !movable) return;
    if (Math.abs(event.clientX - from.x) > MOVED_PX) from.moved = true;
    if (!from.moved) return;
    pick();
    const { left, right } = frame.getBoundingClientRect();
    if (event.clientX > right - EDGE_PX) frame.scrollLeft += weekPx();
    if (event.clientX < left + EDGE_PX) frame.scrollLeft -= weekPx();
    moving.to(Math.round((event.clientX - from.x + frame.scrollLeft - from.scroll) / weekPx()));
  }

  function onPointerUp() {
    const from = drag.current;
    drag.current = undefined;
    dragged.current = from?.moved === true;
    if (dragged.current) void takeIt();
  }

  function onKeyDown(event: KeyboardEvent) {
    if (event.key === "Escape" && mine()) moving.leave();
    else if (event.key === "Enter" && mine()) void takeIt();
    else if (movable && (event.key === "ArrowLeft" || event.key === "ArrowRight")) {
      pick();
      moving.by(event.key === "ArrowLeft" ? -1 : 1);
    } else return;
    event.preventDefault();
  }

  return (
    <button
      type="button"
      class="season-flag"
      style={place}
      aria-label={says}
      aria-describedby={movable ? "season-how" : undefined}
      aria-disabled={movable ? undefined : "true"}
      data-step={flag.step}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        drag.current = { x: event.clientX, scroll: box()?.scrollLeft ?? 0, moved: false };
        hold(event);
      }}
      onPointerMove={onPointerMove}
      onPointerUp={onPointerUp}
      onPointerCancel={() => {
        drag.current = undefined;
        if (mine()) moving.leave();
      }}
      onKeyDown={onKeyDown}
      onClick={() => {
        if (!dragged.current && movable) pick();
        dragged.current = false;
      }}
    />
  );
}

/** The finger stays with its flag wherever it goes. */
function hold(event: PointerEvent): void {
  const on = event.currentTarget as Element;
  try {
    on.setPointerCapture(event.pointerId);
  } catch {
    // A pointer that is gone already moves nothing.
  }
}
