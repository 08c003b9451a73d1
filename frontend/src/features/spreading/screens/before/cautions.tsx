import { useId, useState } from "preact/hooks";
import { CheckField, Notice, Page } from "../../../../ui/parts";
import { spreading } from "../../model";
import { type CautionGroup, confirm, isConfirmed, signalWord } from "../../model/before/cautions";
import { StepLine, WayOn } from "../bits";
import { KeepClear } from "./keep-clear";

/** Cautions to confirm, one tick a heading; they never stand in for the label. */
export function CautionStep() {
  const [tried, setTried] = useState(false);
  const { product } = spreading.choice.value;
  const confirmed = spreading.draft.value?.confirmed ?? [];
  const groups = spreading.cautions.value;
  const open = groups.filter((group) => !isConfirmed(group, confirmed));
  const word = signalWord(product);
  function on(): void {
    setTried(true);
    if (open.length === 0) void spreading.go("load");
  }
  return (
    <Page title="Safety check" back="/" backLabel="Back to Today">
      <StepLine at={3} />
      {word ? (
        <Notice kind="warn" title={word.word}>
          <p>{word.says}</p>
        </Notice>
      ) : null}
      {product?.remarks ? (
        <Notice title="From the label">
          <p class="spread__remarks">{product.remarks}</p>
        </Notice>
      ) : null}
      <KeepClear />
      <p>Tap each box when every line under it is true. If one is not, wait for another day.</p>
      {groups.map((group) => (
        <Group
          key={group.key}
          group={group}
          checked={isConfirmed(group, confirmed)}
          onInput={(now) => void spreading.change({ confirmed: confirm(group, confirmed, now) })}
        />
      ))}
      <p class="spread__open" role="status">
        {tried && open.length ? `Still to confirm: ${open.map(({ says }) => says).join(", ")}.` : ""}
      </p>
      <WayOn onGo={on}>Next: load</WayOn>
    </Page>
  );
}

interface GroupProps {
  group: CautionGroup;
  checked: boolean;
  onInput: (checked: boolean) => void;
}

/** A heading with its tick, and beneath it every line the tick stands for. */
function Group({ group, checked, onInput }: GroupProps) {
  const lines = useId();
  return (
    <fieldset class="spread__cautions" aria-describedby={lines}>
      <legend class="sr">{group.says}</legend>
      <CheckField label={`${group.says}: all true`} checked={checked} onInput={onInput} />
      <ul id={lines}>
        {group.cautions.map(({ key, says }) => (
          <li key={key}>{says}</li>
        ))}
      </ul>
    </fieldset>
  );
}
