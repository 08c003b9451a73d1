import { date } from "../../format";
import { walk } from "../../models";
import type { Warning } from "../../models/walk-warnings";
import { Notice } from "../../parts";

function ago(days: number): string {
  if (days <= 0) return "today";
  return days === 1 ? "yesterday" : `${days} days ago`;
}

/** Zones fed too lately: what the label's interval forbids, and what a person should at least know. */
export function Warnings() {
  const warnings = walk.warnings.value;
  const forbidden = warnings.filter(({ kind }) => kind === "interval");
  const lately = warnings.filter(({ kind }) => kind === "lately");
  return (
    <>
      {forbidden.length ? (
        <Notice kind="warn" title="Too soon by the label">
          <ul class="walk__list">
            {forbidden.map((warning) => (
              <li key={warning.zone.id}>{sayInterval(warning)}</li>
            ))}
          </ul>
          <p>The label comes first: wait, or leave these zones out.</p>
        </Notice>
      ) : null}
      {lately.length ? (
        <Notice title="Lately walked">
          <ul class="walk__list">
            {lately.map(({ zone, days, on }) => (
              <li key={zone.id}>
                {zone.name}: {ago(days)}, {date(on)}.
              </li>
            ))}
          </ul>
        </Notice>
      ) : null}
    </>
  );
}

function sayInterval({ zone, days, on, wants = 0 }: Warning): string {
  return `${zone.name} had this product ${ago(days)} (${date(on)}); the label wants ${wants} days between.`;
}
