import { mass } from "../../format";
import { walk } from "../../models";
import { units } from "../../models/session";
import type { LeftField } from "../../models/walk-left";
import type { LeftForm, LeftWay } from "../../models/walk-types";
import { ChoiceField, Figure, Page } from "../../parts";
import { ActionRefused, WayOn } from "./bits";
import { HandfulsLeft, LevelLeft, RanOut, WeighedLeft } from "./left-ways";

const WAYS: { value: LeftWay; label: string }[] = [
  { value: "scale", label: "Weighed" },
  { value: "level", label: "Hopper level" },
  { value: "handfuls", label: "Handfuls" },
  { value: "ran_out", label: "Ran out" },
  { value: "nothing", label: "Nothing came out" },
];

export interface WayProps {
  left: LeftForm;
  set: (part: Partial<LeftForm>) => void;
  /** The message that belongs to a field, once something was typed there. */
  wrong: (field: LeftField) => string | undefined;
}

export function LeftStep() {
  const { left, pass } = walk.draft.value ?? {};
  const reading = walk.reading.value;
  if (!left || !pass) return null;
  const set = (part: Partial<LeftForm>) => void walk.change({ left: { ...left, ...part } });
  const wrong = (field: LeftField) =>
    reading && !reading.ok && reading.field === field && typedIn(left, field) ? reading.message : undefined;
  const saved = walk.draft.value?.ops[pass.id] !== undefined;
  return (
    <Page title={`Left after pass ${pass.number}`} back="/" backLabel="Put the walk aside and go to Today">
      <p>There was {mass(pass.start_kg, units.value).text} in hopper and bag before it.</p>
      <ChoiceField
        label="How do you know?"
        look="row"
        value={left.way}
        choices={WAYS}
        onInput={(way) => set({ way })}
      />
      <Way left={left} set={set} wrong={wrong} />
      <Used />
      <ActionRefused />
      <WayOn onGo={() => void walk.record()} busy={walk.busy.value || saved} disabled={!reading?.ok}>
        Save pass {pass.number}
      </WayOn>
    </Page>
  );
}

/** An empty field is not scolded while it waits to be filled; the button waits too. */
function typedIn(left: LeftForm, field: LeftField): boolean {
  const texts: Partial<Record<LeftField, string>> = {
    weight: left.weight.amount,
    level: left.level_share === null ? "" : "set",
    density: left.density.amount,
    in_bag: left.in_bag.amount,
    handfuls: left.handfuls,
    handful: left.handfuls,
    covered: left.covered,
  };
  return (texts[field] ?? "x").trim() !== "";
}

function Way(props: WayProps) {
  if (props.left.way === "scale") return <WeighedLeft {...props} />;
  if (props.left.way === "level") return <LevelLeft {...props} />;
  if (props.left.way === "handfuls") return <HandfulsLeft {...props} />;
  if (props.left.way === "ran_out") return <RanOut {...props} />;
  return (
    <p>
      Noted: nothing fell at this setting. The pass counts as not walked. Look for a lump or a shut gate
      before the next.
    </p>
  );
}

/** What the pass put down, with its one-line working. */
function Used() {
  const reading = walk.reading.value;
  const start_kg = walk.draft.value?.pass?.start_kg ?? 0;
  if (!reading?.ok) return null;
  const { left_kg, used_kg } = reading.reading;
  const working = [
    {
      what: "Put down in this pass",
      formula: "what there was before less what is left",
      numbers: { before_kg: start_kg, left_kg },
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
