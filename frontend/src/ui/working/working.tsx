import { units } from "../../platform/session/session";
import { saySource, useSources } from "./sources";
import { sayDates, sayNumber, sayResult } from "./text";

/** One step of a working, as the engine gives it. */
export interface WorkingStep {
  what: string;
  formula: string;
  numbers: Readonly<Record<string, unknown>>;
  result: unknown;
  unit: string;
  source: string;
  /** The zone or product the step is about, where an answer speaks of several. */
  of?: string;
}

export interface WorkingProps {
  steps: readonly WorkingStep[];
}

/** By name: the engine's own order differs from one runtime to the other. */
function inOrder(numbers: WorkingStep["numbers"]): [string, unknown][] {
  return Object.entries(numbers).sort(([a], [b]) => a.localeCompare(b));
}

/** The working of a figure: each step in words, what went in, what came out, and where the formula is from. */
export function Working({ steps }: WorkingProps) {
  const system = units.value;
  const sources = useSources();
  return (
    <ol class="working">
      {steps.map((step, at) => (
        // Steps have no name of their own and never change order.
        <li key={at}>
          <strong>
            {at + 1}. {sayDates(step.what)}
          </strong>
          <span class="working__formula">{step.formula}</span>
          <dl class="working__numbers">
            {inOrder(step.numbers).map(([name, value]) => {
              const said = sayNumber(name, value, system);
              return [<dt key={`${name}-t`}>{said.name}</dt>, <dd key={`${name}-d`}>{said.text}</dd>];
            })}
          </dl>
          <span class="working__result">= {sayResult(step.result, step.unit, system)}</span>
          <small class="quiet">Source: {saySource(step.source, sources)}</small>
        </li>
      ))}
    </ol>
  );
}
