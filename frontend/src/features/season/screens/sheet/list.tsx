/** The same steps as a list: each with its days, what it takes, and the same way to move it. */
import { useRef } from "preact/hooks";
import { today } from "../../../../platform/session/clock";
import { units } from "../../../../platform/session/session";
import { named } from "../../../../records/log/named";
import { Button } from "../../../../ui/parts";
import type { Flag } from "../../drawing/sheet-shape";
import { moving, sheet } from "../../model/sheet";
import type { Sheet } from "../../model/sheet/sheet";
import { sayJob } from "../jobs";
import { bandName } from "./board";
import { MovingPanel } from "./moving-panel";
import { sayDays, sayFlag } from "./words";

interface Listed {
  flag: Flag;
  /** Of a step on several bands: what each takes. */
  parts: { flag: Flag; name: string }[];
}

/** Every step once, by its days. */
function listed({ bands }: Sheet["value"]): Listed[] {
  const found = new Map<string, Listed>();
  for (const band of bands)
    for (const flag of band.flags) {
      const one = found.get(flag.step) ?? { flag, parts: [] };
      one.parts.push({ flag, name: bandName(band) });
      found.set(flag.step, one);
    }
  return [...found.values()].sort((a, b) => a.flag.from.localeCompare(b.flag.from));
}

export function StepList({ value }: { value: Sheet["value"] }) {
  const rows = listed(value);
  if (!rows.length) return <p>No steps in this year.</p>;
  return (
    <ul class="lines">
      {rows.map((one) => (
        <StepLine key={one.flag.step} {...one} />
      ))}
    </ul>
  );
}

function StepLine({ flag, parts }: Listed) {
  const line = useRef<HTMLLIElement>(null);
  const kept = sheet.kept.value.find(({ id }) => id === flag.step);
  const name = kept ? sayJob(kept) : flag.job;
  const mine = moving.picked.value?.step.id === flag.step;
  const begin = (weeks: number) => moving.pick(flag.step, flag, weeks);
  const back = () => requestAnimationFrame(() => line.current?.querySelector<HTMLElement>("button")?.focus());
  const product = flag.product ? named(flag.product, "a product not on this phone") : undefined;
  const days = sayDays(flag.from, flag.to, today());
  return (
    <li class="line season-line" ref={line}>
      <div class="line__main">
        <span class="line__title">
          {name}: {days}
        </span>
        <span class="line__facts">
          {[
            product,
            ...parts.map((one) => [one.name, sayFlag(one.flag, units.value)].filter(Boolean).join(": ")),
          ]
            .filter(Boolean)
            .join(" · ")}
          {flag.locked ? " · Stays where it is" : ""}
        </span>
      </div>
      {mine ? (
        <MovingPanel onDone={back} />
      ) : (
        <div class="season-moving__acts">
          {flag.earlier_weeks ? (
            <Button label={`Move a week earlier: ${name}, ${days}`} onClick={() => begin(-1)}>
              Move a week earlier
            </Button>
          ) : null}
          {flag.later_weeks ? (
            <Button label={`Move a week later: ${name}, ${days}`} onClick={() => begin(1)}>
              Move a week later
            </Button>
          ) : null}
        </div>
      )}
    </li>
  );
}
