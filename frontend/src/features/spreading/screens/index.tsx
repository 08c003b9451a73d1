/** The job: one step to a page, the step kept on the phone. */
import { useEffect } from "preact/hooks";
import "../style.css";
import { Page } from "../../../ui/parts";
import { spreading } from "../model";
import type { SpreadStep } from "../model/types";
import { AimStep } from "./before/aim";
import { CautionStep } from "./before/cautions";
import { ChooseStep } from "./before/choose";
import { LoadStep } from "./before/load";
import { FinishStep } from "./finish";
import { NextStep } from "./next";
import { OnTrail, useTrail } from "./on-trail";
import { YardStep } from "./yard";
import { CheckStep } from "./yard/check";
import { LeftStep } from "./yard/left";

const STEPS: Record<SpreadStep, () => preact.JSX.Element | null> = {
  choose: ChooseStep,
  aim: AimStep,
  cautions: CautionStep,
  load: LoadStep,
  yard: YardStep,
  check: CheckStep,
  left: LeftStep,
  next: NextStep,
  finish: FinishStep,
};

export default function Spreading() {
  useEffect(() => {
    void spreading.open();
  }, []);
  const ready = spreading.draft.value !== undefined && spreading.loaded.value;
  const leave = useTrail();
  const none = ready && spreading.draft.value === null;
  useEffect(() => {
    if (none) spreading.begin();
  }, [none]);
  const step = spreading.step.value;
  if (!ready || !step)
    return (
      <Page title="Spreading" back="/">
        <p class="quiet">Loading…</p>
      </Page>
    );
  const Step = STEPS[step];
  return (
    <OnTrail value={leave}>
      <Step key={step} />
    </OnTrail>
  );
}
