import { signal } from "@preact/signals";
import { Button } from "./button";

export interface ToastOffer {
  text: string;
  /** Offered for as long as the toast stands. */
  undo?: { label?: string; act: () => void | Promise<void> } | undefined;
  /** Default: 10 s with an undo, 5 s without. */
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
  // A newer line takes the place of a plain one; an offer to undo keeps its ten seconds beside it.
  toasts.value = [...toasts.value.filter((toast) => toast.undo).slice(-1), { ...offer, id }];
  timers.set(
    id,
    setTimeout(() => dropToast(id), (offer.seconds ?? (offer.undo ? 10 : 5)) * 1000),
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

/** Where toasts appear; the app shell holds one. */
export function Toasts() {
  return (
    <div class="toasts" role="status">
      {toasts.value.map((toast) => (
        <Toast key={toast.id} {...toast} />
      ))}
    </div>
  );
}

function Toast({ id, text, undo }: Standing) {
  return (
    <div class="toast">
      <span class="toast__text">{text}</span>
      {undo ? (
        <Button
          onClick={() => {
            dropToast(id);
            void undo.act();
          }}
        >
          {undo.label ?? "Undo"}
        </Button>
      ) : (
        <Button onClick={() => dropToast(id)}>OK</Button>
      )}
    </div>
  );
}
