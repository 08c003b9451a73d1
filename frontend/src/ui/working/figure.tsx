import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import { Sheet } from "../parts/sheet";
import { Working, type WorkingStep } from "./working";

export interface FigureProps {
  label: string;
  /** Already rounded and written by format. */
  value: ComponentChildren;
  working?: readonly WorkingStep[] | undefined;
  note?: ComponentChildren;
  size?: "big" | "yard" | undefined;
  /** The value is still that to older figures; the one to those as they stand is on its way. */
  busy?: boolean | undefined;
}

/** Most answers come sooner; a mark at every keystroke and every move of a finger would only flicker. */
const LATE_MS = 250;

/** Whether it is busy and has been for a while. */
function useLate(busy: boolean): boolean {
  const [late, setLate] = useState(false);
  useEffect(() => {
    if (!busy) return undefined;
    const timer = setTimeout(() => setLate(true), LATE_MS);
    return () => {
      clearTimeout(timer);
      setLate(false);
    };
  }, [busy]);
  return busy && late;
}

/** The unit is set smaller than the number; format joins the two by a no-break space. */
function withUnit(value: ComponentChildren): ComponentChildren {
  if (typeof value !== "string") return value;
  const at = value.indexOf("\u00a0");
  if (at < 0) return value;
  return (
    <>
      {value.slice(0, at)}
      <span class="figure__unit">{value.slice(at)}</span>
    </>
  );
}

/** Words instead of a number ("under 1%"): set smaller, so that they stay on one line in a column of a phone. */
const LONG = 9;

function isLong(value: ComponentChildren): boolean {
  return typeof value === "string" && (value.split("\u00a0")[0] ?? "").length > LONG;
}

/** A figure with its label; where the engine computed it, a tap shows its working. */
export function Figure({ label, value, working, note, size, busy = false }: FigureProps) {
  const [open, setOpen] = useState(false);
  const late = useLate(busy);
  const shape = size ? ` figure--${size}` : isLong(value) ? " figure--words" : "";
  const look = `figure${shape}${late ? " figure--late" : ""}`;
  // The note speaks of the same older figures, so the words stand in its place.
  const below = late ? "updating …" : note;
  const said = busy ? "true" : undefined;
  const inside = (
    <>
      <span class="figure__label">{label}</span>
      <span class="figure__value">{withUnit(value)}</span>
      {below ? <span class="figure__note">{below}</span> : null}
    </>
  );
  if (!working?.length)
    return (
      <div class={look} aria-busy={said}>
        {inside}
      </div>
    );
  return (
    <>
      <button
        type="button"
        class={look}
        aria-busy={said}
        aria-haspopup="dialog"
        onClick={() => setOpen(true)}
      >
        {inside}
        <span class="sr">How this is worked out</span>
      </button>
      <Sheet open={open} onClose={() => setOpen(false)} title={`${label}: how this is worked out`}>
        {late ? <p>Updating …</p> : <Working steps={working} />}
      </Sheet>
    </>
  );
}
