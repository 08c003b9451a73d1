import { useState } from "preact/hooks";
import { walk } from "../../models";
import { signalWord } from "../../models/walk-cautions";
import { CheckField, Notice, Page } from "../../parts";
import { StepLine, WayOn } from "./bits";

/** Cautions to confirm one by one; they never stand in for the label. */
export function CautionStep() {
  const [tried, setTried] = useState(false);
  const { product } = walk.choice.value;
  const confirmed = walk.draft.value?.confirmed ?? [];
  const cautions = walk.cautions.value;
  const open = cautions.filter(({ key }) => !confirmed.includes(key)).length;
  const word = signalWord(product);
  const tick = (key: string, on: boolean) =>
    void walk.change({ confirmed: on ? [...confirmed, key] : confirmed.filter((one) => one !== key) });
  function on(): void {
    setTried(true);
    if (open === 0) void walk.go("load");
  }
  return (
    <Page title="Care before the walk" back="/" backLabel="Back to Today">
      <StepLine at={3} />
      {word ? (
        <Notice kind="warn" title={word.word}>
          <p>{word.says}</p>
        </Notice>
      ) : null}
      {product?.remarks ? (
        <Notice title="From the label">
          <p class="walk__remarks">{product.remarks}</p>
        </Notice>
      ) : null}
      <fieldset class="walk__cautions">
        <legend class="field__label">Tick each as it is so</legend>
        {cautions.map(({ key, says }) => (
          <CheckField
            key={key}
            label={says}
            checked={confirmed.includes(key)}
            onInput={(now) => tick(key, now)}
          />
        ))}
      </fieldset>
      <p class="walk__open" role="status">
        {tried && open ? `${open} still to tick. If one cannot be so, walk another day.` : ""}
      </p>
      <WayOn onGo={on}>Next: the load</WayOn>
    </Page>
  );
}
