/** What speaks against the job as chosen: each warning is answered, or the job waits. */

import { date, nitrogen, rate } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { CheckField, Figure, Notice } from "../../../../ui/parts";
import { spreading } from "../../model";
import type { BeforeWarning, BeforeZone } from "../../model/before/before";
import { type Says, useSays } from "./all-there";
import { MISSING, WhyPhosphate } from "./answers";
import { sayAnswer, sayReason, sayTitle, sayZone } from "./before-text";
import { BrokenRule } from "./broken";

export function Before({ says, tried }: { says: Says; tried: boolean }) {
  const found = spreading.stops.value;
  useSays(says, "before", found !== undefined);
  if (found?.error)
    return (
      <Notice kind="warn" title="The rules could not be checked">
        <p>{found.error.message} Check the log for what these zones got recently.</p>
      </Notice>
    );
  const { warnings = [], broken = [] } = found ?? {};
  return (
    <>
      {warnings.map((warning) => (
        <OneWarning key={warning.key} warning={warning} tried={tried} />
      ))}
      {broken.map((one) => (
        <BrokenRule key={one.key} broken={one} tried={tried} />
      ))}
    </>
  );
}

function OneWarning({ warning, tried }: { warning: BeforeWarning; tried: boolean }) {
  const { zones, right_from, ceiling_kg_m2 } = warning;
  const nameOf = (id: string) =>
    spreading.choice.value.zones.find((zone) => zone.id === id)?.name ?? "A zone";
  const most = ceiling_kg_m2 === null ? undefined : sayAmount(warning, ceiling_kg_m2);
  return (
    <Notice kind="warn" title={sayTitle(warning)}>
      <ul class="spread__list">
        {zones.map((zone) => (
          <li key={zone.zone_id}>{sayZone(nameOf(zone.zone_id), zone, amountOf(warning, zone))}</li>
        ))}
      </ul>
      <p>{sayReason(warning, most)}</p>
      <Figure
        label="Wait until"
        value={right_from ? date(right_from) : "no date"}
        note={right_from ? "for all these zones" : "Waiting does not help. Put down less, or leave it."}
        working={workingOf(warning)}
      />
      <Answer warning={warning} tried={tried} />
    </Notice>
  );
}

/** The steps of this warning; the label's own days stand apart from those of the trade. */
function workingOf({ kind, assumed }: BeforeWarning) {
  const of = kind === "interval" && !assumed ? "interval:label" : kind;
  return spreading.before.value?.working?.filter((step) => step.of === of);
}

function sayAmount({ kind }: BeforeWarning, kg_m2: number): string {
  const ofNitrogen = kind === "nitrogen" || kind === "quick" || kind === "all_n";
  return (ofNitrogen ? nitrogen(kg_m2, units.value) : rate(kg_m2, units.value)).text;
}

function amountOf(warning: BeforeWarning, { amount_kg_m2 }: BeforeZone): string | undefined {
  return amount_kg_m2 === null ? undefined : sayAmount(warning, amount_kg_m2);
}

function Answer({ warning, tried }: { warning: BeforeWarning; tried: boolean }) {
  const { key, kind } = warning;
  const answers = spreading.draft.value?.answers ?? {};
  const given = answers[key] ?? "";
  const error = tried && !given ? MISSING : undefined;
  const set = (answer: string) => void spreading.change({ answers: { ...answers, [key]: answer } });
  if (kind === "phosphate" || kind === "phosphate_once")
    return <WhyPhosphate given={given} set={set} error={error} />;
  return (
    <CheckField
      label={sayAnswer(warning)}
      checked={given !== ""}
      onInput={(on) => set(on ? "read" : "")}
      error={error}
    />
  );
}
