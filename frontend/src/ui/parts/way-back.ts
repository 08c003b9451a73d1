/**
 * The browser's entries, so that its back, and the phone's, goes one step back: a sheet is an entry, and so is a step of
 * a job (`features/spreading/screens/trail`). Going is not done at once; what would be written meanwhile waits until it has been, or it
 * would be written in the wrong place.
 */
// First, since it puts its own ears on these: what waits here must be heard by it when it is written, not before.
import "wouter-preact";

export interface Entries {
  readonly state: unknown;
  pushState(state: unknown, unused: string, url?: string | null): void;
  replaceState(state: unknown, unused: string, url?: string | null): void;
  go(by: number): void;
}

/** What is noted with an entry. */
export interface Mark {
  /** The sheets open there, the uppermost last. */
  sheets?: string[];
  [other: string]: unknown;
}

/** Where nothing is heard of having gone, there was no entry to go to. */
const LOST_MS = 500;

let entries: Entries = globalThis.history; // none where tests run without a browser
let going = false;
let lost: ReturnType<typeof setTimeout> | undefined;
const later: (() => void)[] = [];
const open = new Set<string>();
/** Of this start of the app: what an earlier one noted is not open any more. */
const START = Math.random().toString(36).slice(2);
let last = 0;

export function markHere(): Mark {
  return (entries.state ?? {}) as Mark;
}

/** Goes so many entries on, or back. */
export function move(by: number): void {
  going = true;
  clearTimeout(lost);
  lost = setTimeout(arrived, LOST_MS);
  entries.go(by);
}

function arrived(): void {
  going = false;
  clearTimeout(lost);
  for (const write of later.splice(0)) write();
}

/** At once, or once it has gone where it is going. */
export function whenThere(write: () => void): void {
  if (going) later.push(write);
  else write();
}

/** Notes a mark with this entry, or with a new one of the same address. */
export function note(mark: Mark, fresh: boolean): void {
  const how = fresh ? "pushState" : "replaceState";
  whenThere(() => entries[how](mark, ""));
}

/** A sheet opens: back closes it. What is returned is called once it has closed. */
export function enterSheet(close: () => void): () => void {
  last += 1;
  const id = `${START}${last}`;
  open.add(id);
  const isHere = () => markHere().sheets?.includes(id) === true;
  whenThere(() => {
    const here = markHere();
    entries.pushState({ ...here, sheets: [...(here.sheets ?? []), id] }, "");
  });
  const heard = () => {
    if (!isHere()) close();
  };
  addEventListener("popstate", heard);
  return () => {
    open.delete(id);
    removeEventListener("popstate", heard);
    // Not where a link inside has led to another page meanwhile.
    whenThere(() => isHere() && move(-1));
  };
}

/** An entry of a sheet that is open no longer is no place to be: one entry further back. */
function leaveShut(): void {
  const { sheets = [] } = markHere();
  if (sheets.some((id) => !open.has(id))) move(-1);
}

function heard(): void {
  arrived();
  leaveShut();
}

/** Tests have entries of their own. */
export function takeEntries(own: Entries): void {
  entries = own;
  going = false;
  later.length = 0;
}

/** At start: links wait too while it is on its way to another entry. */
export function startWayBack(): void {
  for (const how of ["pushState", "replaceState"] as const) {
    const write = history[how].bind(history);
    history[how] = (...given) => whenThere(() => write(...given));
  }
  addEventListener("popstate", heard);
  leaveShut();
}
