import { useState } from "preact/hooks";
import { mass, nitrogen, percent, rate, unitsFor } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { ChoiceField, Figure, NumberField, Page, UnitField } from "../../../../ui/parts";
import { spreading } from "../../model";
import { unanswered } from "../../model/before/before";
import type { AimForm } from "../../model/types";
import { ActionRefused, Refusal, StepLine, sayBags, sayGround, Waiting, WayOn } from "../bits";
import { useAllThere, useSays } from "./all-there";
import { Before } from "./before";
import { Burns } from "./burn";
import { HowWalked } from "./how-walked";
import { Warnings } from "./warnings";

const KINDS = [
  { value: "label", label: "Label rate" },
  { value: "nitrogen", label: "By nitrogen" },
  { value: "bag", label: "By the bag" },
] as const;

export function AimStep() {
  const draft = spreading.draft.value;
  const [tried, setTried] = useState(false);
  const { product, area_m2 } = spreading.choice.value;
  const laid = spreading.start.value?.value ? ["plan"] : [];
  const feeds = product?.sort === "fertilizer";
  const [whole, says] = useAllThere(["before", "start", ...laid, ...(feeds ? ["burn"] : [])]);
  useSays(says, "burn", spreading.burns.value !== undefined);
  if (!draft) return null;
  const { aim } = draft;
  const set = (part: Partial<AimForm>) => void spreading.change({ aim: { ...aim, ...part } });
  const answer = spreading.aim.value;
  const trouble = spreading.trouble.value;
  const good = !trouble && answer?.value;
  const { warnings = [], broken = [] } = spreading.stops.value ?? {};
  const open = unanswered([...warnings, ...broken], draft.answers);
  function on(): void {
    setTried(true);
    if (open.length === 0) void spreading.go("cautions");
  }
  return (
    <Page title="Amount" back="/" backLabel="Back to Today">
      <StepLine at={2} />
      <p>
        {product?.name} on {sayGround(area_m2)}.
      </p>
      <ChoiceField
        label="Set the rate by"
        value={aim.kind}
        choices={KINDS}
        onInput={(kind) => set({ kind })}
        error={aim.kind === "label" ? trouble : undefined}
      />
      {aim.kind === "nitrogen" ? (
        <UnitField
          label="Nitrogen, all passes together"
          hint="Never more than the label rate. Less is fine."
          value={aim.nitrogen}
          units={unitsFor("nitrogen", units.value)}
          onInput={(typed) => set({ nitrogen: typed })}
          error={trouble}
        />
      ) : null}
      {aim.kind === "bag" ? (
        <NumberField
          label="Bags for this area"
          unit="bags"
          hint="1, 1/2, 1 1/2 …"
          value={aim.bags}
          onInput={(bags) => set({ bags })}
          error={trouble}
        />
      ) : null}
      {trouble ? null : <Refusal answer={answer} />}
      {good ? <AimFigures /> : trouble || answer?.error ? null : <Waiting />}
      {good ? <HowWalked says={says} /> : null}
      {good ? <Before says={says} tried={tried} /> : null}
      {good ? <Burning /> : null}
      <Warnings />
      <ActionRefused />
      <p class="spread__open" role="status">
        {tried && open.length ? sayOpen(open.length) : ""}
      </p>
      <WayOn onGo={on} disabled={!good || !whole}>
        Next: safety
      </WayOn>
    </Page>
  );
}

/** What the aim comes to; every figure opens its working. */
function AimFigures() {
  const answer = spreading.aim.value;
  const system = units.value;
  if (!answer?.value) return null;
  const { target_kg_m2, mass_kg, bags, n_kg_m2, label_share } = answer.value;
  const { working } = answer;
  return (
    <div class="figures">
      <Figure label="Product" value={mass(mass_kg, system).text} note={sayBags(bags)} working={working} />
      <Figure label="Rate" value={rate(target_kg_m2, system).text} working={working} />
      {n_kg_m2 === null ? null : (
        <Figure label="Nitrogen" value={nitrogen(n_kg_m2, system).text} working={working} />
      )}
      {label_share === null ? null : (
        <Figure label="Share of label rate" value={percent(label_share).text} working={working} />
      )}
    </div>
  );
}

function Burning() {
  const { zones } = spreading.choice.value;
  const nameOf = (id: string) => zones.find((zone) => zone.id === id)?.name ?? "A zone";
  return <Burns found={spreading.burns.value} nameOf={nameOf} alone={zones.length === 1} />;
}

function sayOpen(open: number): string {
  return open === 1 ? "One warning still needs an answer." : `${open} warnings still need an answer.`;
}
