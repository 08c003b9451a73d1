/** The cuts that bring long grass down, none of them more than a third: "4 in tonight, 3 in on Thursday". */
import { count, dayAfter, height, percent, type System, weekday } from "../../../format";
import { sayRefusal } from "../../../forms/refusal";
import { useEngine } from "../../../platform/engine";
import type { AnswerTo, Args } from "../../../platform/engine/types";
import { Figure, Notice } from "../../../ui/parts";

interface WayDownProps {
  /** Of whom, where there are several. */
  name: string;
  args: Args<"mowing.way_down">;
  /** The day of the first cut. */
  from: string;
  today: string;
  system: System;
  /** Said above the cuts. */
  says?: string;
}

type Step = NonNullable<AnswerTo<"mowing.way_down">["value"]>["steps"][number];

function sayDay(day: string, today: string): string {
  return day === today ? "Tonight" : weekday(day);
}

function sayStep({ to_mm, notch, removed_share }: Step, system: System): string {
  const at = notch === null ? "" : `: notch ${notch}`;
  return `cut to ${height(to_mm, system).text}${at}. Takes ${percent(removed_share).text}.`;
}

export function WayDown({ name, args, from, today, system, says }: WayDownProps) {
  const { answer } = useEngine("mowing.way_down", args);
  if (!answer) return <p aria-busy="true">Working out the cuts …</p>;
  if (answer.error) return <Notice kind="bad">{sayRefusal(answer.error, system)}</Notice>;
  const { steps, beyond_mower, reaches, cuts } = answer.value;
  if (beyond_mower)
    return (
      <Notice kind="warn" title={`${name}: too tall for the mower`}>
        <p>No setting leaves two thirds. Trim off a third by hand first, then again every few days.</p>
      </Notice>
    );
  if (!steps.length) return null;
  return (
    <section class="stack stack--tight" aria-label={`${name}: the way down`}>
      {says ? <p>{says}</p> : null}
      <ol class="stack stack--tight">
        {steps.map((step) => (
          <li key={step.day}>
            <strong>{sayDay(dayAfter(from, step.day), today)}</strong>: {sayStep(step, system)}
          </li>
        ))}
      </ol>
      {reaches ? null : <p>The grass grows back faster than this. Mow more often.</p>}
      <Figure
        label={`${name}: cuts to get there`}
        value={count(cuts, "cut").text}
        note="Measure again before each one. Growth in between is not counted."
        working={answer.working}
      />
    </section>
  );
}
