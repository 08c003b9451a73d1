/**
 * A job's steps among the browser's entries: back, the phone's or the browser's, is a step back in the job. The draft says
 * where the job stands; the entries only follow it. Where there is no step back, since strips are counted or a pass is in
 * the log, the first back stays and says so, and a second one soon after leaves.
 */
import { type Mark, markHere, move, note, whenThere } from "../../../ui/parts/way-back";

export interface Stand {
  job: string;
  step: string;
}

interface TrailMark extends Mark {
  job?: string;
  step?: string;
  depth?: number;
  /** The step of the entry beneath. */
  below?: string;
}

export interface TrailParts {
  /** Where the job stands now. */
  stand: () => Stand | undefined;
  /** The steps beneath it that back leads to, the first one first; of a job that cannot go back, a guard. */
  beneath: () => readonly string[];
  /** One step back in the job: the step that leads to; undefined where there is none. */
  back: () => string | undefined;
  /** Whether this page was loaded by going back or on. */
  traversed: () => boolean;
  /** Whether the job is done, so that back leaves it. */
  done: () => boolean;
  /** To Today, in place of the job's first entry. */
  home: () => void;
  /** Says that there is no step back; what it returns tells whether that still stands. */
  warn: () => () => boolean;
}

/** The entry beneath a job that cannot go back. */
export const GUARD = "guard";

export function createTrail({ stand, beneath, back, traversed, done, home, warn }: TrailParts) {
  let here: TrailMark = {};
  let warned = () => false;
  let leaving = false;
  let fresh = true;

  const mark = () => markHere() as TrailMark;

  function put(next: TrailMark, fresh: boolean): void {
    here = next;
    note(next, fresh);
  }

  /** On arrival: one entry for each step that back leads to. */
  function layDown({ job, step }: Stand): void {
    const steps = [...beneath(), step];
    steps.forEach((each, depth) => {
      const below = steps[depth - 1];
      put({ job, step: each, depth, ...(below ? { below } : {}) }, depth > 0);
    });
  }

  /** The job stands at this step: the entry follows. */
  function follow(at: Stand): void {
    if (leaving) return;
    const { job, step = "", depth, below } = mark();
    if (job !== at.job || depth === undefined) {
      fresh = false;
      layDown(at);
      return;
    }
    here = mark();
    if (step === at.step) {
      fresh = false;
      return;
    }
    if (fresh) {
      arrive(at, step);
      return;
    }
    if (below === at.step) move(-1);
    else put({ ...at, depth: depth + 1, below: step }, true);
  }

  /** A browser may load the page anew for an entry of before a reload: then back was pressed, with nobody to hear it. */
  function arrive(at: Stand, step: string): void {
    fresh = false;
    if (traversed() && beneath().at(-1) === step) back();
    else put({ ...here, step: at.step }, false);
  }

  /** Back, or on, was pressed; or the entries followed the job. */
  function heard(): void {
    const at = stand();
    const now = mark();
    if (leaving || !at || now.job === undefined) return;
    const by = (here.depth ?? 0) - (now.depth ?? 0);
    if (now.job !== at.job) home();
    else if (now.step === at.step) here = now;
    else if (by > 0) stepBack(now, by);
    else move(by);
  }

  function stepBack(now: TrailMark, by: number): void {
    const to = done() ? undefined : back();
    if (to !== undefined) put({ ...now, step: to }, false);
    else if (done() || warned()) void leave();
    else {
      warned = warn();
      move(by);
    }
  }

  /** Out of the job: none of its entries lies beneath Today then. */
  function leave(): Promise<void> {
    leaving = true;
    const { job, depth = 0 } = mark();
    if (job !== undefined && depth > 0) move(-depth);
    return new Promise((gone) => {
      whenThere(() => {
        home();
        leaving = false;
        gone();
      });
    });
  }

  return { follow, heard, leave };
}
