import { useState } from "preact/hooks";
import { showTyped, type Typed, temperature, unitsFor } from "../../../format";
import { units } from "../../../platform/session/session";
import { forming } from "../../../records/live";
import { DraftForm, useForm } from "../../../ui/form/draft-form";
import {
  Button,
  ChoiceField,
  Notice,
  NotSaved,
  offerUndo,
  Sheet,
  UnitField,
  useSaving,
} from "../../../ui/parts";
import { asking, keeper, place } from "../model";
import { type ClimateDraft, type ClimateForm, createClimateForm, MONTHS } from "../model/climate";
import type { Climate } from "../model/place";
import { sayPlace, TROUBLE } from "./words";

const FROM = {
  two: "two numbers",
  months: "twelve numbers",
  archive: "the weather service",
  own: "your own days",
};

/** What the year is like, to look at. */
export function ClimatePart() {
  const [open, setOpen] = useState(false);
  const known = place.climate.value;
  const has = known.monthly_mean_c !== undefined || known.warmest_c !== undefined;
  return (
    <section class="section" aria-labelledby="climate">
      <h2 id="climate">Climate</h2>
      {has ? (
        <ClimateFacts climate={known} />
      ) : (
        <p>Two numbers are enough. With no signal, Evenfall goes by them.</p>
      )}
      <div class="row">
        <Button tone={has ? "plain" : "signal"} onClick={() => setOpen(true)}>
          {has ? "Edit the climate" : "Add the climate"}
        </Button>
      </div>
      <LookUp />
      <ClimateSheet open={open} onClose={() => setOpen(false)} />
    </section>
  );
}

function ClimateFacts({ climate }: { climate: Climate }) {
  const { warmest_c, coldest_c, monthly_mean_c, climate_typed, climate_from, climate_years } = climate;
  const typed = (climate_typed ?? {}) as Record<string, Typed | undefined>;
  const say = (c: number, as?: Typed) => (as?.amount ? showTyped(as) : temperature(c, units.value).text);
  const means = monthly_mean_c ?? [];
  return (
    <dl class="facts">
      {means.length ? (
        <>
          <dt>Warmest month</dt>
          <dd>
            {say(Math.max(...means))}, {MONTHS[means.indexOf(Math.max(...means))]}
          </dd>
          <dt>Coldest month</dt>
          <dd>
            {say(Math.min(...means))}, {MONTHS[means.indexOf(Math.min(...means))]}
          </dd>
        </>
      ) : (
        <>
          <dt>Warmest month</dt>
          <dd>{warmest_c === undefined ? "–" : say(warmest_c, typed["warmest"])}</dd>
          <dt>Coldest month</dt>
          <dd>{coldest_c === undefined ? "–" : say(coldest_c, typed["coldest"])}</dd>
        </>
      )}
      <dt>From</dt>
      <dd>
        {FROM[climate_from ?? "two"]}
        {climate_years ? `, ${climate_years}` : ""}
      </dd>
    </dl>
  );
}

/** A keeper may have the service's archive asked once; what leaves the server is said before. */
function LookUp() {
  const [open, setOpen] = useState(false);
  const [says, setSays] = useState<string | undefined>(undefined);
  const saving = useSaving();
  if (!keeper.value || !place.known.value) return null;
  const { latitude_deg = 0, longitude_deg } = place.place.value;

  async function look(): Promise<void> {
    setSays(undefined);
    const found = await asking.climate();
    if (!found) return;
    const { monthly_mean_c, years } = found;
    if (found.state !== "known" || !monthly_mean_c || !years) {
      setSays(
        found.state === "off"
          ? "This server has no weather service."
          : (TROUBLE[found.trouble ?? ""] ?? "There is no climate for this place."),
      );
      return;
    }
    const value: Climate = { monthly_mean_c, climate_from: "archive", climate_years: years };
    let made: Awaited<ReturnType<typeof place.saveClimate>>;
    const save = async () => {
      made = await place.saveClimate(value);
    };
    if (!(await saving.run(save))) return;
    setOpen(false);
    offerUndo("Climate saved.", made?.back);
  }

  const problem = says ?? asking.problem.value;
  return (
    <>
      <div>
        <Button tone="quiet" onClick={() => setOpen(true)}>
          Look up the climate
        </Button>
      </div>
      <Sheet open={open} onClose={() => setOpen(false)} title="Look up the climate?">
        <div class="stack">
          <p>
            The server tells a weather service this place:{" "}
            <strong>{sayPlace(latitude_deg, longitude_deg)}</strong>. Nothing else leaves it. The answer
            replaces the climate you entered.
          </p>
          <div aria-live="assertive">{problem ? <Notice kind="bad">{problem}</Notice> : null}</div>
          <NotSaved of={saving} />
          <Button tone="signal" wide onClick={look} busy={asking.busy.value}>
            Look it up
          </Button>
        </div>
      </Sheet>
    </>
  );
}

function ClimateSheet({ open, onClose }: { open: boolean; onClose: () => void }) {
  const form = useForm(() => createClimateForm(forming, place), open, undefined);
  return (
    <Sheet open={open} onClose={onClose} title="Climate">
      {form ? (
        <DraftForm
          of={form}
          base={undefined}
          save="Save the climate"
          saved="Climate saved."
          onSaved={onClose}
        >
          <Means of={form} />
        </DraftForm>
      ) : null}
    </Sheet>
  );
}

const WAYS: { value: ClimateDraft["way"]; label: string }[] = [
  { value: "two", label: "Two numbers" },
  { value: "months", label: "Twelve months" },
];

function Means({ of }: { of: ClimateForm }) {
  const now = of.form.value;
  if (!now) return null;
  return (
    <>
      <ChoiceField
        label="How you know it"
        value={now.way}
        onInput={(way) => of.change({ way })}
        choices={WAYS}
      />
      {now.way === "two" ? <Two of={of} now={now} /> : <Twelve of={of} now={now} />}
    </>
  );
}

interface MeansProps {
  of: ClimateForm;
  now: ClimateDraft;
}

function Two({ of: { change, errors }, now }: MeansProps) {
  const offered = unitsFor("temperature", units.value);
  return (
    <>
      <UnitField
        label="Mean of the warmest month"
        hint="Day and night together."
        units={offered}
        value={now.warmest}
        onInput={(warmest) => change({ warmest })}
        error={errors.value["warmest_c"]}
      />
      <UnitField
        label="Mean of the coldest month"
        units={offered}
        value={now.coldest}
        onInput={(coldest) => change({ coldest })}
        error={errors.value["coldest_c"]}
      />
    </>
  );
}

function Twelve({ of: { change, errors }, now: { months } }: MeansProps) {
  return (
    <div class="fields-2">
      {months.map((typed, at) => (
        <UnitField
          key={MONTHS[at]}
          label={MONTHS[at] ?? ""}
          units={unitsFor("temperature", units.value)}
          value={typed}
          onInput={(to) => change({ months: months.map((one, where) => (where === at ? to : one)) })}
          error={errors.value[`month${at}`]}
        />
      ))}
    </div>
  );
}
