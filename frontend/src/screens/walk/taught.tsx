import { Narrowing } from "../../drawing/narrowing";
import { useEngine } from "../../engine";
import { date, percent, range, rate } from "../../format";
import { walk } from "../../models";
import { units } from "../../models/session";
import { writeDial } from "../../models/shed-facts";
import { type TaughtAsk, type TaughtValue, taughtAsk } from "../../models/walk-taught";
import type { Plan } from "../../models/walk-types";
import { Button, Figure } from "../../parts";
import { Refusal, Waiting } from "./bits";

/** What this walk changed in what is known of spreader and product. */
export function Taught({ plan }: { plan: Plan }) {
  const { spreader } = walk.choice.value;
  const ask = taughtAsk(walk.draft.value?.id ?? "", plan, walk.pastRows.value, spreader);
  const { answer } = useEngine<TaughtValue>("spreading.taught", ask?.args ?? null);
  if (!ask) return null;
  return (
    <section class="section" aria-labelledby="taught">
      <h2 id="taught">What this walk taught</h2>
      {answer?.value ? (
        <Lesson plan={plan} ask={ask} taught={answer.value} working={answer.working} />
      ) : answer?.error ? (
        <Refusal answer={answer} />
      ) : (
        <Waiting />
      )}
      {spreader ? <Button href={`/shed/spreader/${spreader.id}`}>See the spreader’s curve</Button> : null}
    </section>
  );
}

interface LessonProps {
  plan: Plan;
  ask: TaughtAsk;
  taught: TaughtValue;
  working: Parameters<typeof Figure>[0]["working"];
}

function Lesson({ plan, ask, taught, working }: LessonProps) {
  const { dial, before, after, band_before, band_after } = taught;
  const system = units.value;
  const say = (kg_m2: number) => rate(kg_m2, system);
  const width = band_after === null ? undefined : percent(band_after).text;
  return (
    <>
      <p class="walk__lesson">{sayLesson(taught, ask)}</p>
      <p>{taught.reason}</p>
      {after ? (
        <>
          <div class="figures">
            <Figure
              label={`At dial ${writeDial(dial, plan.dial.step)} a pass puts down`}
              value={say(after.mid).text}
              note={`likely ${range(say(after.low), say(after.high)).text}`}
              working={working}
            />
            {width === undefined ? null : (
              <Figure
                label="Width of the likely range"
                value={width}
                note={band_before === null ? undefined : `was ${percent(band_before).text}`}
                working={working}
              />
            )}
          </div>
          <Narrowing before={before} after={after} write={(kg_m2) => say(kg_m2).text} />
        </>
      ) : null}
    </>
  );
}

/** "Holes now run 12% freer than before (passes of 12 Apr 2026 to 2 May 2026)." */
export function sayLesson({ says, change_share }: TaughtValue, { before }: TaughtAsk): string {
  if (says === "first" || change_share === null)
    return "The first passes to learn from: the curve begins here.";
  const span = before && (before.from === before.to ? date(before.to) : sayDays(before.from, before.to));
  const then = span ? ` (passes of ${span})` : "";
  if (says === "as_before") return `The holes run as before${then}.`;
  return `The holes now run ${percent(Math.abs(change_share)).text} ${says} than before${then}.`;
}

function sayDays(from: string, to: string): string {
  const [one, other] = [date(from), date(to)];
  return one === other ? one : `${one} to ${other}`;
}
