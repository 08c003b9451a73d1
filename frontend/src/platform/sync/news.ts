/**
 * The server's news that the household's book has moved on (S17): "at number N", nothing more. A hint and no verdict
 * (F10): what is missed is found by the next round, a broken stream is never said on the screen, and the idle round
 * goes on beside it. Only the leading tab listens, only while it is in view.
 */
import { pauseMs } from "./backoff";

export interface News {
  /** True while the stream is open and has said where the household is. */
  flowing(): boolean;
  stop(): void;
}

/** What this needs of the browser's EventSource. */
export interface Stream {
  onAt(heard: (text: string) => void): void;
  onBroken(broken: () => void): void;
  close(): void;
}

export interface NewsParts {
  open(address: string): Stream;
  after(ms: number, work: () => void): () => void;
  /** Calls when the page comes into view and when it goes out of it; returns what ends that. */
  onView(work: () => void): () => void;
  visible(): boolean;
  chance(): number;
}

/** `heard` gets each number the server says; `lost` is called when a stream that flowed has ended. */
export type FollowNews = (household: string, heard: (seq: number) => void, lost?: () => void) => News;

export function createNews(parts: NewsParts): FollowNews {
  return (household, heard, lost = () => undefined) => {
    let stream: Stream | undefined;
    let cancel: () => void = () => undefined;
    let failures = 0;
    let flows = false;

    function close(): void {
      cancel();
      stream?.close();
      stream = undefined;
      const ended = flows;
      flows = false;
      if (ended) lost();
    }

    function connect(): void {
      if (stream || !parts.visible()) return;
      cancel();
      const mine = parts.open(`/api/v1/households/${household}/events`);
      stream = mine;
      mine.onAt((text) => stream === mine && said(text));
      mine.onBroken(() => stream === mine && broken());
    }

    function said(text: string): void {
      const seq = readSeq(text);
      if (seq === undefined) return;
      failures = 0;
      flows = true;
      heard(seq);
    }

    /** Not left to the browser, which comes back every few seconds for ever, or never again after a refusal. */
    function broken(): void {
      close();
      failures += 1;
      cancel = parts.after(pauseMs(failures, parts.chance()), connect);
    }

    const endView = parts.onView(() => (parts.visible() ? connect() : close()));
    connect();
    return {
      flowing: () => flows,
      stop() {
        endView();
        lost = () => undefined;
        close();
      },
    };
  };
}

function readSeq(text: string): number | undefined {
  try {
    const { seq } = JSON.parse(text) as { seq?: unknown };
    return typeof seq === "number" && Number.isSafeInteger(seq) && seq >= 0 ? seq : undefined;
  } catch {
    return undefined;
  }
}

function browserStream(address: string): Stream {
  const source = new EventSource(address);
  return {
    onAt: (heard) => source.addEventListener("at", (event) => heard((event as MessageEvent<string>).data)),
    onBroken: (broken) => source.addEventListener("error", broken),
    close: () => source.close(),
  };
}

const SILENT: FollowNews = () => ({ flowing: () => false, stop: () => undefined });

export const browserNews: FollowNews =
  typeof globalThis.EventSource === "function"
    ? createNews({
        open: browserStream,
        after(ms, work) {
          const timer = setTimeout(work, ms);
          return () => clearTimeout(timer);
        },
        onView(work) {
          document.addEventListener("visibilitychange", work);
          return () => document.removeEventListener("visibilitychange", work);
        },
        visible: () => document.visibilityState === "visible",
        chance: () => Math.random(),
      })
    : SILENT;
