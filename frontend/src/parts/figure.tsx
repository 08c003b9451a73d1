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

/** A figure with its label; where the engine computed it, a tap shows its working. */
export function Figure({ label, value, working, note, size }: FigureProps) {
  const [open, setOpen] = useState(false);
  const look = `figure${size ? ` figure--${size}` : ""}`;
  const inside = (
    <>
      <span class="figure__label">{label}</span>
      <span class="figure__value">{value}</span>
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
