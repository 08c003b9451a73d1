/**
 * Today's first look, drawn in advance for the script that runs before the app (`first-frame`). It is drawn by the app
 * itself: this script, read once more under another name, is an app that has opened no book yet, as at every start.
 */
import { effect } from "@preact/signals";
import { render } from "preact";
import { Router } from "wouter-preact";
import { isoDay } from "../format";
import { showDay } from "../platform/session/clock";
import { recallSession } from "../platform/session/session";
import { BUILD, type KeptLook, keepFrame, keptLook } from "../platform/store/looks";
import type { Look } from "../records/look";
import { App } from "./app";

const NAME = "#frames";

export type Draw = (day: string) => string;

/** Who waits for the script read once more: its own name would not tell it, being lost on the way through the worker. */
interface Waiting {
  evenfallFrames?: ((draw: Draw) => void) | undefined;
}

const waiting = globalThis as Waiting;

/** There is one place it is drawn for, and it leads nowhere. */
const atToday = (): [string, () => void] => ["/", () => undefined];

export function drawFrame(day: string): string {
  recallSession();
  showDay(day);
  const place = document.createElement("div");
  render(
    <Router hook={atToday}>
      <App />
    </Router>,
    place,
  );
  const html = place.innerHTML;
  // Before any of its effects: nothing follows anything, and no title is set.
  render(null, place);
  return html;
}

/** What the script read once more does, and all it does. Returns whether this is it. */
export function offerFrames(): boolean {
  const take = waiting.evenfallFrames;
  take?.(drawFrame);
  return take !== undefined;
}

let drawing: Promise<Draw> | undefined;

function readOnceMore(): Promise<Draw> {
  const another = BUILD + NAME;
  drawing ??= new Promise<Draw>((done, refuse) => {
    waiting.evenfallFrames = done;
    const over = () => (waiting.evenfallFrames = undefined);
    import(/* @vite-ignore */ another).catch(refuse).finally(over);
  });
  return drawing;
}

const whenIdle: (work: () => void) => void = globalThis.requestIdleCallback ?? ((work) => setTimeout(work));
const idle = (): Promise<void> => new Promise((done) => whenIdle(done));

/** The first moment at which what it says of zones to keep off is over. */
function untilWhen({ keptOff }: Look, now: number): number | null {
  const ends = Object.values(keptOff).map(({ until }) => Date.parse(until));
  const ahead = ends.filter((end) => end > now);
  return ahead.length ? Math.min(...ahead) : null;
}

/** A day at a time, each when nothing else is to do, until all are drawn or what they show is old. */
export async function writeFrames(mine: KeptLook, read: () => Promise<Draw> = readOnceMore): Promise<void> {
  await idle();
  const draw = await read();
  const look = mine.look as Look;
  const until = untilWhen(look, Date.now());
  for (const day of Object.keys(look.days).sort()) {
    if (day < isoDay() || Date.parse(`${day}T00:00`) >= (until ?? Number.POSITIVE_INFINITY)) continue;
    await idle();
    if (keptLook.peek() !== mine) return;
    keepFrame(day, { book: mine.book, until, html: draw(day) });
  }
}

export function followFrames(): void {
  effect(() => {
    const mine = keptLook.value;
    if (mine) void writeFrames(mine).catch(() => undefined);
  });
}
