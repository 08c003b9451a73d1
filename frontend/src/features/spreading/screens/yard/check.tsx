import { mass, range } from "../../../../format";
import type { Answer } from "../../../../platform/engine";
import { units } from "../../../../platform/session/session";
import { speech } from "../../../../platform/session/speech";
import { writeDial } from "../../../../records/products";
import { DialDrawing } from "../../../../ui/drawing";
import { Button, ChoiceField, Figure, Notice, NumberField, Page } from "../../../../ui/parts";
import { spreading } from "../../model";
import type { LeftForm, LeftWay, PassOnFoot, Plan } from "../../model/types";
import type { CheckValue, Look } from "../../model/yard/check";
import { ActionRefused, Refusal, sayChance, sayLikely, Waiting } from "../bits";
import { wrongIn } from "./left-typed";
import { HandfulsLeft, LevelLeft, type WayProps, WeighedLeft } from "./left-ways";

const WAYS: { value: LeftWay; label: string }[] = [
  { value: "level", label: "Hopper level" },
  { value: "scale", label: "Weighed" },
  { value: "handfuls", label: "Handfuls" },
];

/** A look into the hopper on the way. Nothing changes until the person says so at the end. */
export function CheckStep() {
  const { check, pass, plan } = spreading.draft.value ?? {};
  if (!check || !pass || !plan) return null;
  const look = spreading.look.value;
  const set = (part: Partial<LeftForm>) => void spreading.change({ check: { ...check, ...part } });
  const wrong = wrongIn(check, look);
  const of = pass.rows.length;
  const after = pass.done > 0 ? `after strip ${pass.done} of ${of}` : `in pass ${pass.number}`;
  const trouble = look && !look.ok && look.field === "covered" ? look.message : undefined;
  return (
    <Page title={`Check ${after}`} back="/" backLabel="Pause and go to Today">
      <p>Stop and shut the gate. How much is left, hopper and bag together?</p>
      <ChoiceField
        label="How did you measure?"
        look="row"
        value={check.way}
        choices={WAYS}
        onInput={(way) => set({ way })}
      />
      <Way left={check} set={set} wrong={wrong} />
      <Walked left={check} set={set} wrong={wrong} />
      {trouble && !inWhole() ? <Notice kind="warn" title={trouble} /> : null}
      {look?.ok ? <Outcome look={look.look} plan={plan} pass={pass} /> : null}
      <ActionRefused />
      <Button onClick={() => void spreading.back()}>Back</Button>
    </Page>
  );
}

function Way(props: WayProps) {
  const expected = spreading.levelNow.value?.level_share;
  if (props.left.way === "scale") return <WeighedLeft {...props} />;
  if (props.left.way === "handfuls") return <HandfulsLeft {...props} />;
  return <LevelLeft {...props} read={spreading.checkLevel.value} expected={expected} />;
}

/** Whether the zone being walked has no strips to count. */
function inWhole(): boolean {
  return spreading.standing.value?.row?.kind === "whole";
}

/** Without strips, the part of the zone walked so far has to be told. */
function Walked({ left, set, wrong }: WayProps) {
  const at = spreading.standing.value;
  if (!inWhole()) return null;
  return (
    <NumberField
      label={`How much of ${at?.zone?.name ?? "this zone"} is done?`}
      hint={`Percent (60) or strips (9 of 14).${at?.done ? " Leave blank for none." : ""}`}
      value={left.covered}
      onInput={(covered) => set({ covered })}
      error={wrong("covered")}
    />
  );
}

interface OutcomeProps {
  look: Look;
  plan: Plan;
  pass: PassOnFoot;
}

/** What was expected, where it is heading, and the two ways on. */
function Outcome({ look, plan, pass }: OutcomeProps) {
  const answer = spreading.checked.value;
  if (!answer) return <Waiting />;
  if (!answer.value) return <Refusal answer={answer} />;
  const write = (n: number) => writeDial(n, plan.dial.step);
  const value = answer.value;
  const now = mass(look.reading.left_kg, units.value).text;
  const { low, high } = value.expected_now_range_kg;
  const should = range(mass(low, units.value), mass(high, units.value)).text;
  return (
    <section class="section" aria-labelledby="check-says">
      <h2 id="check-says">{saysAdvice(value, write)}</h2>
      {value.scorched ? (
        <Notice kind="bad" alert title="Too much is down here">
          <p>{value.reason}</p>
        </Notice>
      ) : (
        <p>{value.reason}</p>
      )}
      <div class="figures">
        <Figure
          label="Expected by now"
          value={mass(value.expected_now_kg, units.value).text}
          note={`likely ${should}, you have ${now}`}
          working={answer.working}
        />
      </div>
      <Ahead answer={answer} value={value} pass={pass} plan={plan} />
      <Decide value={value} pass={pass} write={write} />
    </section>
  );
}

const ADVICE: Record<CheckValue["advice"], (dial: string) => string> = {
  keep: (dial) => `Keep dial ${dial}`,
  close: () => "Close the gate",
  stop: (dial) => `Stop: too much here. Then dial ${dial}`,
  lower: (dial) => `Lower: dial ${dial}`,
  higher: (dial) => `Higher: dial ${dial}`,
};

const saysAdvice = ({ advice, dial }: CheckValue, write: (n: number) => string): string =>
  ADVICE[advice](write(dial));

interface AheadProps {
  answer: Answer<CheckValue>;
  value: CheckValue;
  pass: PassOnFoot;
  plan: Plan;
}

function Ahead({ answer, value, pass, plan }: AheadProps) {
  const write = (n: number) => writeDial(n, plan.dial.step);
  const same = value.dial === pass.dial || value.advice === "close";
  const asIs = sayLikely(value.likely_end_as_is_kg);
  const then = sayLikely(value.likely_end_kg);
  return (
    <>
      <div class="spread__dial">
        <Figure
          size="big"
          label="Dial"
          value={write(same ? pass.dial : value.dial)}
          working={answer.working}
        />
        <DialDrawing {...plan.dial} at={same ? pass.dial : value.dial} write={write} />
      </div>
      <div class="figures">
        <Figure
          label={`Left at the end, dial ${write(pass.dial)}`}
          value={asIs.mid}
          note={`likely ${asIs.range}`}
          working={answer.working}
        />
        {same ? null : (
          <Figure
            label={`Left at the end, dial ${write(value.dial)}`}
            value={then.mid}
            note={`likely ${then.range}`}
            working={answer.working}
          />
        )}
        <Figure
          label="Chance of running out"
          value={sayChance(value.chance_of_running_out)}
          working={answer.working}
        />
      </div>
    </>
  );
}

interface DecideProps {
  value: CheckValue;
  pass: PassOnFoot;
  write: (n: number) => string;
}

function Decide({ value, pass, write }: DecideProps) {
  const busy = spreading.busy.value;
  const change = value.dial !== pass.dial && value.advice !== "close" && value.advice !== "keep";
  async function set(dial: number): Promise<void> {
    if (await spreading.decide(dial)) speech.say(`Dial ${write(dial)}.`);
  }
  return (
    <div class="spread__on">
      {change ? (
        <Button tone="signal" size="yard" wide busy={busy} onClick={() => void set(value.dial)}>
          Set dial to {write(value.dial)}
        </Button>
      ) : null}
      <Button
        tone={value.advice === "keep" ? "signal" : "plain"}
        size="yard"
        wide
        busy={busy}
        onClick={() => void set(pass.dial)}
      >
        Keep dial {write(pass.dial)}
      </Button>
      {value.advice === "close" ? (
        <Button tone="signal" size="yard" wide busy={busy} onClick={() => void spreading.endPass()}>
          End pass {pass.number} here
        </Button>
      ) : null}
    </div>
  );
}
