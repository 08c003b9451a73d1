import { signal } from "@preact/signals";
import type { RefObject } from "preact";
import { useId, useLayoutEffect, useRef } from "preact/hooks";
import { Button } from "./button";

export interface ToastOffer {
  text: string;
  /** Offered for as long as the toast stands; the way back from what was recorded is `offerUndo`'s alone. */
  action?: { label: string; act: () => unknown } | undefined;
  /** Offered beside it: takes the line away and does nothing. */
  dismiss?: string | undefined;
  /** Default: 10 s with an action, 5 s without. */
  seconds?: number | undefined;
}

interface Standing extends ToastOffer {
  id: number;
}

const toasts = signal<readonly Standing[]>([]);
const timers = new Map<number, ReturnType<typeof setTimeout>>();
let last = 0;

/** Shows a line at the foot of the screen; returns what takes it away early. */
export function showToast(offer: ToastOffer): () => void {
  last += 1;
  const id = last;
  // A newer line takes the place of a plain one; an offer keeps its ten seconds, and its place, beneath it.
  toasts.value = [{ ...offer, id }, ...toasts.value.filter((toast) => toast.action).slice(0, 1)];
  timers.set(
    id,
    setTimeout(() => dropToast(id), (offer.seconds ?? (offer.action ? 10 : 5)) * 1000),
  );
  return () => dropToast(id);
}

/** Takes every toast away: nothing can be undone once its book is closed. */
export function clearToasts(): void {
  for (const { id } of toasts.value) dropToast(id);
}

function dropToast(id: number): void {
  clearTimeout(timers.get(id));
  timers.delete(id);
  toasts.value = toasts.value.filter((toast) => toast.id !== id);
}

/** The open sheets, the uppermost last: a modal dialog leaves the page beneath neither seen nor heard. */
const sheets = signal<readonly string[]>([]);

/** Where toasts appear; the app shell holds one. While a sheet is open, they are said in it. */
export function Toasts() {
  const box = useRef<HTMLDivElement>(null);
  const shown = sheets.value.length ? NONE : toasts.value;
  // The page makes that much room at its foot, so that whatever lies beneath can be scrolled clear.
  useLayoutEffect(() => {
    const root = document.documentElement.style;
    // Measuring without need would lay the page out once more before its first paint.
    if (shown.length > 0) root.setProperty("--toasts", `${box.current?.offsetHeight ?? 0}px`);
    else root.removeProperty("--toasts");
  }, [shown]);
  return <Lines box={box} shown={shown} />;
}

const NONE: readonly Standing[] = [];

/** The same at the foot of an open sheet; of several, in the uppermost. There from its opening on, so that it is announced. */
export function SheetToasts() {
  const id = useId();
  useLayoutEffect(() => {
    sheets.value = [...sheets.peek(), id];
    return () => {
      sheets.value = sheets.peek().filter((one) => one !== id);
    };
  }, [id]);
  return <Lines shown={sheets.value.at(-1) === id ? toasts.value : NONE} />;
}

function Lines({ shown, box }: { shown: readonly Standing[]; box?: RefObject<HTMLDivElement> }) {
  return (
    <div class="toasts" role="status" ref={box}>
      {shown.map((toast) => (
        <Toast key={toast.id} {...toast} />
      ))}
    </div>
  );
}

function Toast({ id, text, action, dismiss }: Standing) {
  return (
    <div class="toast">
      <span class="toast__text">{text}</span>
      {action ? (
        <Button
          onClick={() => {
            dropToast(id);
            action.act();
          }}
        >
          {action.label}
        </Button>
      ) : (
        <Button onClick={() => dropToast(id)}>OK</Button>
      )}
      {dismiss ? <Button onClick={() => dropToast(id)}>{dismiss}</Button> : null}
    </div>
  );
}
