import table from "@fixtures/published/tray_tests.json";
import { useEffect, useMemo } from "preact/hooks";
import { useLocation } from "wouter-preact";
import { percent, unitsFor } from "../../../../format";
import { units } from "../../../../platform/session/session";
import type { Row } from "../../../../platform/store/types";
import { TrayPass } from "../../../../ui/drawing";
import { DraftForm } from "../../../../ui/form/draft-form";
import { Button, ChoiceField, Empty, NumberField, Page, UnitField } from "../../../../ui/parts";
import { saySource, useSources } from "../../../../ui/working/sources";
import { shed, trays } from "../../model";
import { type TrayPattern, type TrayTest, traysShown } from "../../model/trays";
import { TrayResult, useTrayAnswer } from "./result";

/** A catch-tray test of one spreader: how to set it up, what the trays caught, what it says. */
export function TraysPage({ id }: { id: string }) {
  const test = useMemo(() => trays.test(id), [id]);
  const row = useMemo(() => shed.row("spreader", id), [id]).value;
  useEffect(() => void test.open(), [test]);
  const back = `/shed/spreader/${id}`;
  const name = String(row?.groups["name"]?.value?.name ?? "the spreader");
  if (!row || row.groups["deleted"]?.value?.deleted === true)
    return (
      <Page title="Tray test" back="/shed" backLabel="Back to the shed">
        {shed.loaded.value ? (
          <Empty title="Not found" action={<Button href="/shed">Back to the shed</Button>}>
            <p>This spreader is not in the shed on this phone. It may have been removed.</p>
          </Empty>
        ) : null}
      </Page>
    );
  return (
    <Page title="Tray test" back={back} backLabel={`Back to ${name}`}>
      <p>
        See how wide <b>{name}</b> throws and whether it favors one side. You need a row of trays.
      </p>
      {test.form.value ? <TestForm test={test} row={row} back={back} /> : <p class="quiet">Opening…</p>}
    </Page>
  );
}

function TestForm({ test, row, back }: { test: TrayTest; row: Row; back: string }) {
  const [, go] = useLocation();
  const { answer, busy } = useTrayAnswer(test);
  return (
    <DraftForm
      of={test}
      base={answer?.value?.widest_m ?? null}
      class="shed__form"
      save="Save the test"
      saved="Tray test saved."
      // The swath at hand would be that of older catches.
      waits={busy}
      onSaved={() => go(back)}
      leave={{ out: () => go(back), back: () => go(`${back}/trays`) }}
    >
      <HowTo open={!test.resumed.value} />
      <RowOfTrays test={test} />
      <Catches test={test} />
      <Reading test={test} />
      <TrayResult test={test} row={row} answer={answer} busy={busy} />
    </DraftForm>
  );
}

function HowTo({ open }: { open: boolean }) {
  const sources = useSources();
  const said = (keys: string[]) =>
    keys.filter((key) => key !== "common practice").map((key) => saySource(key, sources));
  return (
    <details open={open}>
      <summary>How to set up the trays</summary>
      <ol class="shed__steps">
        {table.how.map(({ key, says, sources: keys }) => (
          <li key={key}>
            {says}
            {said(keys).length ? <small class="quiet"> Source: {said(keys).join("; ")}</small> : null}
          </li>
        ))}
      </ol>
      <p class="quiet small">
        Steps without a source are common practice. The label and local rules come first.
      </p>
    </details>
  );
}

interface PartProps {
  test: TrayTest;
}

function RowOfTrays({ test }: PartProps) {
  const form = test.form.value;
  if (!form) return null;
  const errors = test.errors.value;
  const products = shed.products.value.map(({ id, name }) => ({ value: id, label: name }));
  return (
    <section class="section" aria-labelledby="row">
      <h2 id="row">The row</h2>
      <div class="fields-2">
        <NumberField
          label="Trays in the row"
          hint="An odd number: one in the middle."
          whole
          value={form.trays}
          onInput={(count) => test.change({ trays: count })}
          error={errors["trays"]}
        />
        <UnitField
          label="Tray spacing"
          hint="Middle of one tray to middle of the next."
          value={form.spacing}
          units={unitsFor("length", units.value)}
          onInput={(spacing) => test.change({ spacing })}
          error={errors["spacing"]}
        />
      </div>
      <div class="fields-2">
        <ChoiceField
          label="Product"
          hint="Products throw differently."
          look="list"
          value={form.product_id}
          choices={[{ value: "", label: "Not chosen" }, ...products]}
          onInput={(product_id) => test.change({ product_id })}
        />
        <NumberField
          label="Dial"
          hint="Optional."
          value={form.dial}
          onInput={(dial) => test.change({ dial })}
          error={errors["dial"]}
        />
      </div>
    </section>
  );
}

const CATCH_UNITS = ["g", "oz"];

/** What each tray caught, left to right, with the pass drawn as it is typed. */
function Catches({ test }: PartProps) {
  const form = test.form.value;
  const read = test.read.value;
  if (!form || !read) return null;
  const count = traysShown(form);
  const middle = count % 2 ? (count - 1) / 2 : -1;
  const offered = unitsFor("mass", units.value).filter(({ key }) => CATCH_UNITS.includes(key));
  return (
    <section class="section" aria-labelledby="caught">
      <h2 id="caught">What each tray caught</h2>
      <p class="quiet">Left to right, looking the way you walked.</p>
      <ChoiceField
        label="Weighed in"
        value={form.unit}
        choices={offered.map(({ key, label }) => ({ value: key, label }))}
        onInput={(unit) => test.change({ unit })}
      />
      <div class="shed__trays">
        {Array.from({ length: count }, (_, k) => (
          // A tray has no name but its place in the row.
          <NumberField
            key={k}
            label={k === middle ? `Tray ${k + 1}, middle` : `Tray ${k + 1}`}
            value={form.catches[k] ?? ""}
            onInput={(text) => test.setCatch(k, text)}
            error={test.errors.value[`catches.${k}`]}
          />
        ))}
      </div>
      {read.caught.some((one) => one !== null) ? (
        <TrayPass catches={read.caught} texts={form.catches.map((text) => text.trim())} />
      ) : (
        <p class="quiet">Enter the catches to see the pass.</p>
      )}
    </section>
  );
}

const PATTERNS: { value: TrayPattern; label: string }[] = [
  { value: "back_and_forth", label: "Back and forth" },
  { value: "circuit", label: "Round and round" },
];

function Reading({ test }: PartProps) {
  const form = test.form.value;
  const sources = useSources();
  if (!form) return null;
  const limit = table.limits.find(({ limit_share }) => limit_share === form.limit_share);
  const cited = (limit?.sources ?? []).map((key) => saySource(key, sources)).join("; ");
  return (
    <section class="section" aria-labelledby="reading">
      <h2 id="reading">Walking and evenness</h2>
      <ChoiceField
        label="Walking pattern"
        hint={
          form.pattern === "circuit"
            ? "Every strip goes the same way."
            : "Each strip goes against the one beside it."
        }
        look="row"
        value={form.pattern}
        choices={PATTERNS}
        onInput={(pattern) => test.change({ pattern })}
      />
      <ChoiceField
        label="Unevenness allowed"
        hint={limit ? `${limit.says} Source: ${cited}.` : undefined}
        look="row"
        value={String(form.limit_share)}
        choices={table.limits.map(({ limit_share: share }) => ({
          value: String(share),
          label: percent(share).text,
        }))}
        onInput={(share) => test.change({ limit_share: Number(share) })}
      />
    </section>
  );
}
