import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { Sheet } from "./sheet";
import { Working, type WorkingStep } from "./working";

export interface FigureProps {
  label: string;
  /** Already rounded and written by format. */
  value: ComponentChildren;
  working?: readonly WorkingStep[] | undefined;
  note?: ComponentChildren;
  size?: "big" | "walk" | undefined;
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

/** Words instead of a number ("under 1 in 100"): set smaller, so that they stay on one line in a column of a phone. */
const LONG = 9;

function isLong(value: ComponentChildren): boolean {
  return typeof value === "string" && (value.split("\u00a0")[0] ?? "").length > LONG;
}

/** A figure with its label; where the engine computed it, a tap shows its working. */
export function Figure({ label, value, working, note, size }: FigureProps) {
  const [open, setOpen] = useState(false);
  const look = `figure${size ? ` figure--${size}` : isLong(value) ? " figure--words" : ""}`;
  const inside = (
    <>
      <span class="figure__label">{label}</span>
      <span class="figure__value">{withUnit(value)}</span>
      {note ? <span class="figure__note">{note}</span> : null}
    </>
  );
  if (!working?.length) return <div class={look}>{inside}</div>;
  return (
    <>
      <button type="button" class={look} aria-haspopup="dialog" onClick={() => setOpen(true)}>
        {inside}
        <span class="sr">Show the working</span>
      </button>
      <Sheet open={open} onClose={() => setOpen(false)} title={`${label}: the working`}>
        <Working steps={working} />
      </Sheet>
    </>
  );
}
