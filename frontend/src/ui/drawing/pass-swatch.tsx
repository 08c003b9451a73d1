import { useId } from "preact/hooks";
import { StripHatch } from "./strip-hatch";

/** A small chip with a pass's number and its hatch, for lists and cards. */
export function PassSwatch({ pass, size = 40 }: { pass: number; size?: number }) {
  const id = `swatch-${useId()}`;
  return (
    <svg class="pass-swatch" width={size} height={size} viewBox="0 0 40 40" aria-hidden="true">
      <defs>
        <StripHatch id={id} pass={pass} />
      </defs>
      <rect class="swatch-ground" x="1" y="1" width="38" height="38" fill={`url(#${id})`} />
      <circle class="swatch-disc" cx="20" cy="20" r="11" />
      <text class="swatch-number" x="20" y="25" text-anchor="middle">
        {pass}
      </text>
    </svg>
  );
}
