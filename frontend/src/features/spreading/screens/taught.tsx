import { date, percent, range, rate } from "../../../format";
import { useEngine } from "../../../platform/engine";
import { units } from "../../../platform/session/session";
import { writeDial } from "../../../records/products";
import { Button, Figure } from "../../../ui/parts";
import { Narrowing } from "../drawing/narrowing";
import { spreading } from "../model";
import { type TaughtAsk, type TaughtValue, taughtAsk } from "../model/taught";
import type { Plan } from "../model/types";
import { Refusal, Waiting } from "./bits";

/** What this job changed in what is known of spreader and product. */
export function Taught({ plan }: { plan: Plan }) {
  const { spreader } = spreading.choice.value;
  const ask = taughtAsk(spreading.draft.value?.id ?? "", plan, spreading.pastRows.value, spreader);
  const { answer } = useEngine("spreading.taught", ask?.args ?? null);
  if (!ask) return null;
  return (
    <section class="section" aria-labelledby="taught">
      <h2 id="taught">What changed</h2>
      {answer?.value ? (
        <Lesson plan={plan} ask={ask} taught={answer.value} working={answer.working} />
      ) : answer?.error ? (
        <Refusal answer={answer} />
      ) : (
        <Waiting />
      )}
      {spreader ? <Button href={`/shed/spreader/${spreader.id}`}>See the spreader’s passes</Button> : null}
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
      <p class="spread__lesson">{sayLesson(taught, ask)}</p>
      <p>{taught.reason}</p>
      {after ? (
        <>
          <div class="figures">
            <Figure
              label={`Rate at dial ${writeDial(dial, plan.dial.step)}`}
              value={say(after.mid).text}
              note={`likely ${range(say(after.low), say(after.high)).text}`}
              working={working}
            />
            {width === undefined ? null : (
              <Figure
                label="Uncertainty"
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

/** "Your spreader puts down 12% more than before, 12 Apr 2026 to 2 May 2026." */
export function sayLesson({ says, change_share }: TaughtValue, { before }: TaughtAsk): string {
  if (says === "first" || change_share === null) return "First passes saved for this spreader.";
  const span = before && (before.from === before.to ? date(before.to) : sayDays(before.from, before.to));
  const then = span ? `, ${span}` : "";
  if (says === "as_before") return `Your spreader flows as before${then}.`;
  return `Your spreader puts down ${percent(Math.abs(change_share)).text} ${says === "freer" ? "more" : "less"} than before${then}.`;
}

function sayDays(from: string, to: string): string {
  const [one, other] = [date(from), date(to)];
  return one === other ? one : `${one} to ${other}`;
}
