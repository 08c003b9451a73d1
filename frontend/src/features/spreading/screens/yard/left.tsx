import { mass } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { CheckField, ChoiceField, Figure, Page } from "../../../../ui/parts";
import { spreading } from "../../model";
import type { LeftForm, LeftWay, PassOnFoot } from "../../model/types";
import { partlyCounted } from "../../model/yard/left";
import { ActionRefused, WayOn } from "../bits";
import { wrongIn } from "./left-typed";
import { HandfulsLeft, LevelLeft, RanOut, type WayProps, WeighedLeft } from "./left-ways";

const WAYS: { value: LeftWay; label: string }[] = [
  { value: "scale", label: "Weighed" },
  { value: "level", label: "Hopper level" },
  { value: "handfuls", label: "Handfuls" },
  { value: "ran_out", label: "Ran out" },
  { value: "nothing", label: "Nothing came out" },
];

export function LeftStep() {
  const { left, pass } = spreading.draft.value ?? {};
  const reading = spreading.reading.value;
  if (!left || !pass) return null;
  const set = (part: Partial<LeftForm>) => void spreading.change({ left: { ...left, ...part } });
  const saved = spreading.draft.value?.ops[pass.id] !== undefined;
  return (
    <Page title={`Left after pass ${pass.number}`} back="/" backLabel="Pause and go to Today">
      <p>You started with {mass(pass.start_kg, units.value).text}.</p>
      {pass.added_kg > 0 ? <p>You added {mass(pass.added_kg, units.value).text} on the way.</p> : null}
      <ChoiceField
        label="How did you measure?"
        look="row"
        value={left.way}
        choices={WAYS}
        onInput={(way) => set({ way })}
      />
      <Way left={left} set={set} wrong={wrongIn(left, reading)} />
      <Covered left={left} set={set} pass={pass} error={wrongIn(left, reading)("whole")} />
      <CheckField
        label="The product was damp"
        hint="Damp passes are not used for later dials."
        checked={pass.damp}
        onInput={(damp) => void spreading.setDamp(damp)}
      />
      <Used />
      <ActionRefused />
      <WayOn
        onGo={() => void spreading.record()}
        busy={spreading.busy.value || saved}
        disabled={!reading?.ok}
      >
        Save pass {pass.number}
      </WayOn>
    </Page>
  );
}

function Way(props: WayProps) {
  const expected = spreading.expected.value?.value?.level_share;
  if (props.left.way === "scale") return <WeighedLeft {...props} />;
  if (props.left.way === "level")
    return <LevelLeft {...props} read={spreading.level.value} expected={expected} />;
  if (props.left.way === "handfuls") return <HandfulsLeft {...props} />;
  if (props.left.way === "ran_out") return <RanOut {...props} />;
  return <p>Nothing came out, so this pass does not count. Check for a lump or a shut gate.</p>;
}

interface CoveredProps {
  left: LeftForm;
  set: (part: Partial<LeftForm>) => void;
  pass: PassOnFoot;
  error: string | undefined;
}

/** Strips left uncounted may still have been walked: asked, never guessed. */
function Covered({ left, set, pass, error }: CoveredProps) {
  if (left.way === "ran_out" || left.way === "nothing" || !partlyCounted(pass)) return null;
  const choices = [
    { value: "all", label: "All of it" },
    { value: "counted", label: `Only the strips counted (${pass.done} of ${pass.rows.length})` },
  ] as const;
  return (
    <ChoiceField
      label="How much did you cover?"
      look="row"
      value={left.whole === null ? ("" as "all") : left.whole ? "all" : "counted"}
      choices={choices}
      onInput={(said) => set({ whole: said === "all" })}
      error={error}
      hint={`${pass.done} of ${pass.rows.length} strips are counted. To finish another day, go back and tap “Stop for today”.`}
    />
  );
}

/** What the pass put down, with its one-line working. */
function Used() {
  const reading = spreading.reading.value;
  const start_kg = spreading.draft.value?.pass?.start_kg ?? 0;
  const added_kg = spreading.draft.value?.pass?.added_kg ?? 0;
  // The room is kept, so that the button under it stays where it is.
  if (!reading?.ok)
    return (
      <div class="figures">
        <Figure label="Left" value="…" />
        <Figure label="Put down" value="…" />
      </div>
    );
  const { left_kg, used_kg } = reading.reading;
  const working = [
    {
      what: "Put down in this pass",
      formula: "what you started with, plus what you added, minus what is left",
      numbers: { before_kg: start_kg, ...(added_kg > 0 ? { added_kg } : {}), left_kg },
      result: used_kg,
      unit: "kg",
      source: "definition",
    },
  ];
  return (
    <div class="figures">
      <Figure label="Left" value={mass(left_kg, units.value).text} />
      <Figure label="Put down" value={mass(used_kg, units.value).text} working={working} />
    </div>
  );
}
