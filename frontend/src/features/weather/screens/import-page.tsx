/** A table of daily weather, looked at before it is taken. */
import { useState } from "preact/hooks";
import { useLocation } from "wouter-preact";
import { count, date, rain, type System, speed, temperature } from "../../../format";
import { units } from "../../../platform/session/session";
import {
  Button,
  ChoiceField,
  Notice,
  NotSaved,
  offerUndo,
  Page,
  Sideways,
  useSaving,
} from "../../../ui/parts";
import { own } from "../model";
import { type Looked, MOST_BYTES, type Read, type Told } from "../model/own-days";
import { sayDays } from "./words";

type Found = NonNullable<Read["value"]>;

const HERE = 8;
const TOO_LARGE = "This file is too large. Cut it into parts of at most 1.5 MB.";
const UNREADABLE = "This file could not be read. Choose it again.";

export function ImportPage() {
  const [problem, setProblem] = useState<string | undefined>(undefined);
  const looked = own.looked.value;
  async function choose(event: Event & { currentTarget: HTMLInputElement }): Promise<void> {
    const [file] = event.currentTarget.files ?? [];
    setProblem(undefined);
    if (!file) return;
    if (file.size > MOST_BYTES) return setProblem(TOO_LARGE);
    try {
      await own.look(file.name, await file.text());
    } catch {
      setProblem(UNREADABLE);
    }
  }
  return (
    <Page title="Import days" back="/weather" backLabel="Back to Place and weather">
      <div class="stack">
        <p>A CSV file: one day a line, with a date and temperatures or rain. °F or °C, in or mm.</p>
        <div class="field">
          <label class="field__label" for="weather-file">
            File
          </label>
          <input
            id="weather-file"
            class="input"
            type="file"
            accept=".csv,.tsv,.txt,text/csv,text/plain"
            aria-describedby={problem ? "weather-file-error" : undefined}
            aria-invalid={problem ? "true" : undefined}
            onChange={choose}
          />
          <span aria-live="polite">
            {problem ? (
              <span class="field__error" id="weather-file-error">
                <span>{problem}</span>
              </span>
            ) : null}
          </span>
        </div>
        {looked ? <Preview looked={looked} /> : null}
      </div>
    </Page>
  );
}

function Preview({ looked }: { looked: Looked }) {
  const { answer } = looked;
  if (!answer) return <p aria-busy="true">Reading the table …</p>;
  if (answer.error)
    return (
      <Notice kind="bad" alert>
        <p>{answer.error.message}</p>
      </Notice>
    );
  const found = answer.value;
  return (
    <div class="stack" aria-live="polite">
      <Open looked={looked} needs={found.needs} />
      {found.needs.length ? null : <Days looked={looked} found={found} />}
    </div>
  );
}

const QUESTIONS: {
  [Name in keyof Told]-?: { label: string; choices: { value: NonNullable<Told[Name]>; label: string }[] };
} = {
  temperature_unit: {
    label: "Temperatures are in",
    choices: [
      { value: "f", label: "°F" },
      { value: "c", label: "°C" },
    ],
  },
  rain_unit: {
    label: "Rain is in",
    choices: [
      { value: "in", label: "in" },
      { value: "mm", label: "mm" },
      { value: "cm", label: "cm" },
    ],
  },
  wind_unit: {
    label: "Wind is in",
    choices: [
      { value: "mph", label: "mph" },
      { value: "km_h", label: "km/h" },
      { value: "m_s", label: "m/s" },
      { value: "kn", label: "knots" },
    ],
  },
  date_order: {
    label: "Dates are written",
    choices: [
      { value: "month_first", label: "month/day/year" },
      { value: "day_first", label: "day/month/year" },
    ],
  },
};
const NAMES = Object.keys(QUESTIONS) as (keyof Told)[];

/** What no heading says: asked, never guessed. A choice once made can be made again. */
function Open({ looked: { file, table, told }, needs }: { looked: Looked; needs: readonly string[] }) {
  const asked = NAMES.filter((name) => needs.includes(name) || told[name]);
  if (!asked.length) return null;
  return (
    <>
      {needs.length ? <p>The headings leave something open.</p> : null}
      {asked.map((name) => (
        <ChoiceField
          key={name}
          label={QUESTIONS[name].label}
          value={told[name] ?? ""}
          onInput={(value) => void own.look(file, table, { ...told, [name]: value } as Told)}
          choices={QUESTIONS[name].choices as { value: string; label: string }[]}
        />
      ))}
    </>
  );
}

function sayAgain(again: number, all: number): string {
  if (all === 1) return "It replaces a day you have.";
  return again === 1 ? "1 of them replaces a day you have." : `${again} of them replace days you have.`;
}

function Days({ looked, found }: { looked: Looked; found: Found }) {
  const saving = useSaving();
  const [, go] = useLocation();
  const { days } = found;
  const [first, last] = [days[0], days.at(-1)];
  const again = own.replaced(days);
  async function take(): Promise<void> {
    let taken: Awaited<ReturnType<typeof own.take>>;
    const took = async () => {
      taken = await own.take();
    };
    if (!(await saving.run(took)) || !taken) return;
    go("/weather");
    offerUndo(`${count(taken.count, "day").text} saved.`, taken.back);
  }
  return (
    <>
      <h2>{looked.file}</h2>
      <p>
        {first && last ? `${sayDays(days.length, first.date, last.date)}.` : "No day could be read."}
        {again ? ` ${sayAgain(again, days.length)}` : ""}
      </p>
      {days.length ? <Table found={found} system={units.value} /> : null}
      {found.ignored.length ? <p class="quiet">Not used: {found.ignored.join(", ")}.</p> : null}
      <Problems found={found} />
      <NotSaved of={saving} />
      <div class="row">
        {days.length ? (
          <Button tone="signal" onClick={take} busy={saving.busy.value}>
            Save {count(days.length, "day").text}
          </Button>
        ) : null}
        <Button onClick={own.drop}>Cancel</Button>
      </div>
    </>
  );
}

const COLUMNS = [
  { name: "min_c", head: "Low", say: temperature },
  { name: "max_c", head: "High", say: temperature },
  { name: "mean_c", head: "Mean", say: temperature },
  { name: "rain_mm", head: "Rain", say: rain },
  { name: "et0_mm", head: "Drying", say: rain },
  { name: "wind_m_s", head: "Wind", say: speed },
] as const;

/** The first days as they were understood, in the reader's own units. */
function Table({ found, system }: { found: Found; system: System }) {
  const taken = COLUMNS.filter(({ name }) => found.columns.some((column) => column.name === name));
  return (
    <Sideways label="First days" caption="First days of the table as they were read">
      <thead>
        <tr>
          <th scope="col">Day</th>
          {taken.map(({ name, head }) => (
            <th key={name} scope="col" class="num">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {found.days.slice(0, HERE).map((day) => (
          <tr key={day.date}>
            <th scope="row">{date(day.date)}</th>
            {taken.map(({ name, say }) => (
              <td key={name} class="num">
                {day[name] === undefined ? "–" : say(day[name], system).text}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </Sideways>
  );
}

const WRONG: Record<string, string> = {
  no_date: "not a date",
  no_number: "not a number",
  out_of_range: "not possible as weather",
  min_over_max: "low above high",
  twice: "day stands twice, the first is used",
  ahead: "day is still to come",
  nothing: "nothing in it",
};

/** Rows that are left out, by the number of their line. */
function Problems({ found: { problems, left_out } }: { found: Found }) {
  if (!left_out) return null;
  const more = left_out - problems.length;
  return (
    <Notice kind="warn" title={`${left_out} ${left_out === 1 ? "line" : "lines"} left out`}>
      <ul class="bullets">
        {problems.map(({ line, column, value, code }) => (
          <li key={`${line} ${column}`}>
            Line {line}: {value ? `“${value}” ` : ""}
            {WRONG[code] ?? code}
          </li>
        ))}
      </ul>
      {more > 0 ? <p>{more} more.</p> : null}
    </Notice>
  );
}
