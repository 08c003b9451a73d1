/** What the marks of the chart of soil warmth mean; there before the chart itself. */
import type { ComponentChildren } from "preact";
import type { SoilDrawn } from "./soil-plot";

const LINES = [
  { air: "measured", says: "Measured air" },
  { air: "forecast", says: "Forecast" },
  { air: "climate", says: "Climate alone" },
] as const;

/** Only what is in the chart. */
export function SoilLegend({ drawn: { days, points, marks } }: { drawn: SoilDrawn }) {
  const has = (used: boolean) => points.some((one) => one.used === used);
  return (
    <ul class="plot-legend">
      {LINES.filter(({ air }) => days.some((day) => day.air === air)).map(({ air, says }) => (
        <li key={air}>
          <Swatch>
            <path class={`plot-line plot-line--${air}`} d="M1 8h32" />
          </Swatch>
          {says}
        </li>
      ))}
      <li>
        <Swatch>
          <path class="plot-line plot-line--range" d="M3 15l10 -14M11 15l10 -14M19 15l10 -14" />
        </Swatch>
        Likely range, 8 in 10
      </li>
      {has(true) ? (
        <li>
          <Swatch>
            <circle class="plot-point" cx="17" cy="8" r="6" />
          </Swatch>
          Your reading
        </li>
      ) : null}
      {has(false) ? (
        <li>
          <Swatch>
            <rect class="plot-point plot-point--off" x="12" y="3" width="10" height="10" />
          </Swatch>
          Reading not used here
        </li>
      ) : null}
      {marks.length ? (
        <li>
          <Swatch>
            <path class="plot-line plot-line--mark" d="M1 8h32" />
          </Swatch>
          Threshold
        </li>
      ) : null}
    </ul>
  );
}

function Swatch({ children }: { children: ComponentChildren }) {
  return (
    <svg width="34" height="16" viewBox="0 0 34 16" aria-hidden="true">
      {children}
    </svg>
  );
}
