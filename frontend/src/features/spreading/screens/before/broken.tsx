/** Rules that the job as chosen would break: each is answered, or the job waits. */
import { date } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { breachFigures, breachSource, breachTitle, isWeather } from "../../../../records/limits/say";
import { CheckField, Figure, Notice } from "../../../../ui/parts";
import { spreading } from "../../model";
import type { Broken } from "../../model/before/broken";
import { MISSING, WhyPhosphate } from "./answers";

export function BrokenRule({ broken, tried }: { broken: Broken; tried: boolean }) {
  const { kind, breaches, right_from } = broken;
  const nameOf = (id: string) =>
    spreading.choice.value.zones.find((zone) => zone.id === id)?.name ?? "A zone";
  const [first] = breaches;
  if (!first) return null;
  return (
    <Notice kind="warn" title={breachTitle(kind)}>
      <p>{first.says}</p>
      <ul class="spread__list">
        {breaches.map((one) => (
          <li key={one.zone}>
            {[`${nameOf(one.zone)}:`, breachFigures(one, units.value) || "all of it."].join(" ")}
          </li>
        ))}
      </ul>
      {first.loosens.map((one) => (
        <p key={one}>{one}</p>
      ))}
      <p class="quiet">{breachSource(first)}</p>
      <Figure
        label="Wait until"
        value={right_from ? date(right_from) : "no date"}
        note={
          right_from
            ? "for all these zones"
            : isWeather(kind)
              ? "Check again another day."
              : "Waiting alone does not help."
        }
        working={spreading.rulesChecked.value?.working?.filter((step) => step.of === "this job")}
      />
      <Answer broken={broken} tried={tried} />
    </Notice>
  );
}

function Answer({ broken: { key, kind }, tried }: { broken: Broken; tried: boolean }) {
  const answers = spreading.draft.value?.answers ?? {};
  const given = answers[key] ?? "";
  const error = tried && !given ? MISSING : undefined;
  const set = (answer: string) => void spreading.change({ answers: { ...answers, [key]: answer } });
  if (kind.startsWith("phosphate")) return <WhyPhosphate given={given} set={set} error={error} />;
  const label = isWeather(kind)
    ? "I read this and looked outside. It is not so here."
    : "I read this. The label and local rules allow it.";
  return (
    <CheckField label={label} checked={given !== ""} onInput={(on) => set(on ? "read" : "")} error={error} />
  );
}
