import { useEngine } from "../../engine";
import { area, isoDay, mass, nitrogen, percent, rate, unitsFor } from "../../format";
import { walk } from "../../models";
import { units } from "../../models/session";
import type { AimForm, WalkZone } from "../../models/walk-types";
import { yearAsk } from "../../models/walk-year";
import { ChoiceField, Figure, Notice, NumberField, Page, UnitField } from "../../parts";
import { type Says, useAllThere, useSays } from "./all-there";
import { Refusal, StepLine, sayBags, Waiting, WayOn } from "./bits";
import { HowWalked } from "./how-walked";
import { Warnings } from "./warnings";

const KINDS = [
  { value: "label", label: "The label's rate" },
  { value: "nitrogen", label: "Nitrogen per area" },
  { value: "bag", label: "This bag over this ground" },
] as const;

export function AimStep() {
  const draft = walk.draft.value;
  const { product, area_m2, zones } = walk.choice.value;
  const laid = walk.start.value?.value ? ["plan"] : [];
  const [whole, says] = useAllThere(["once", "start", ...laid, ...zones.map(({ id }) => id)]);
  if (!draft) return null;
  const { aim } = draft;
  const set = (part: Partial<AimForm>) => void walk.change({ aim: { ...aim, ...part } });
  const answer = walk.aim.value;
  const trouble = walk.trouble.value;
  const good = !trouble && answer?.value;
  return (
    <Page title="The aim" back="/" backLabel="Back to Today">
      <StepLine at={2} />
      <p>
        {product?.name} on {area(area_m2, units.value).text}.
      </p>
      <ChoiceField
        label="How much goes down"
        value={aim.kind}
        choices={KINDS}
        onInput={(kind) => set({ kind })}
        error={aim.kind === "label" ? trouble : undefined}
      />
      {aim.kind === "nitrogen" ? (
        <UnitField
          label="Nitrogen, all passes together"
          hint="The label's rate is the most; less is always allowed."
          value={aim.nitrogen}
          units={unitsFor("nitrogen", units.value)}
          onInput={(typed) => set({ nitrogen: typed })}
          error={trouble}
        />
      ) : null}
      {aim.kind === "bag" ? (
        <NumberField
          label="Bags over this ground"
          unit="bags"
          hint="1, 1/2, 1 1/2 …"
          value={aim.bags}
          onInput={(bags) => set({ bags })}
          error={trouble}
        />
      ) : null}
      {trouble ? null : <Refusal answer={answer} />}
      {good ? <AimFigures /> : trouble || answer?.error ? null : <Waiting />}
      <QuickNitrogen says={says} />
      {good ? <YearNitrogen says={says} /> : null}
      {good ? <HowWalked says={says} /> : null}
      <Warnings />
      <WayOn onGo={() => void walk.go("cautions")} disabled={!good || !whole}>
        Next: care
      </WayOn>
    </Page>
  );
}

/** What the aim comes to; every figure opens its working. */
function AimFigures() {
  const answer = walk.aim.value;
  const system = units.value;
  if (!answer?.value) return null;
  const { target_kg_m2, mass_kg, bags, n_kg_m2, label_share } = answer.value;
  const { working } = answer;
  return (
    <div class="figures">
      <Figure label="Product" value={mass(mass_kg, system).text} note={sayBags(bags)} working={working} />
      <Figure label="Rate" value={rate(target_kg_m2, system).text} working={working} />
      {n_kg_m2 === null ? null : (
        <Figure label="Nitrogen it brings" value={nitrogen(n_kg_m2, system).text} working={working} />
      )}
      {label_share === null ? null : (
        <Figure label="Of the label's rate" value={percent(label_share).text} working={working} />
      )}
    </div>
  );
}

/** More quick nitrogen at once than published advice has; advice, not the label. */
function QuickNitrogen({ says }: { says: Says }) {
  const found = walk.once.value;
  useSays(says, "once", found !== undefined || !walk.aim.value?.value?.n_kg_m2);
  const breach = found?.value?.breaches[0];
  if (!breach || walk.trouble.value || walk.aim.value?.error) return null;
  return (
    <Notice kind="warn" title="A lot of quick nitrogen at once">
      <p>
        Published advice keeps quick-release nitrogen at or below{" "}
        {nitrogen(breach.limit_kg_m2, units.value).text} in one application; some places allow half of that.
        Nitrogen of unknown release counts as quick here.
      </p>
    </Notice>
  );
}

function YearNitrogen({ says }: { says: Says }) {
  const n_kg_m2 = walk.aim.value?.value?.n_kg_m2;
  return (
    <>
      {walk.choice.value.zones.map((zone) => (
        <ZoneYear key={zone.id} zone={zone} n_kg_m2={n_kg_m2} says={says} />
      ))}
    </>
  );
}

interface Ledger {
  n_year_kg_m2: number;
  breaches: { ceiling: string; limit_kg_m2: number }[];
}

interface ZoneYearProps {
  zone: WalkZone;
  n_kg_m2: number | null | undefined;
  says: Says;
}

/** Speaks only where this walk would take a zone past what is published for its grass in a year. */
function ZoneYear({ zone, n_kg_m2, says }: ZoneYearProps) {
  const ask = yearAsk(zone, walk.entries.value, n_kg_m2, isoDay());
  const { answer } = useEngine<Ledger>("feeding.ledger", ask?.args ?? null);
  const breach = answer?.value?.breaches[0];
  useSays(says, zone.id, !ask || answer !== undefined);
  if (!ask || !breach || !answer?.value) return null;
  const system = units.value;
  return (
    <Notice kind="warn" title={`${zone.name}: a lot of nitrogen for one year`}>
      <p>
        With this walk it would have had {nitrogen(answer.value.n_year_kg_m2, system).text} this year;
        published advice for {ask.grass} goes up to {nitrogen(breach.limit_kg_m2, system).text}.
      </p>
    </Notice>
  );
}
