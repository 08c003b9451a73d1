/** The year as one sheet, drawn or as a list, and on one printed page. */
import { useEffect, useState } from "preact/hooks";
import { date } from "../../../../format";
import { sayRefusal } from "../../../../forms/refusal";
import { units } from "../../../../platform/session/session";
import { Sheet as Aside, Button, ChoiceField, Notice, Working } from "../../../../ui/parts";
import { moving, sheet } from "../../model/sheet";
import { Board } from "./board";
import { StepList } from "./list";
import { MovingPanel } from "./moving-panel";
import { PrintedYear, printYear } from "./print";

export function YearSheet() {
  const [asList, setAsList] = useState(false);
  const [why, setWhy] = useState(false);
  useEffect(() => () => moving.leave(), []);
  const answer = sheet.answer.value;
  if (!sheet.loaded.value || !sheet.kept.value.length) return null;
  const show = (list: boolean) => {
    moving.leave();
    setAsList(list);
  };
  return (
    <section class="section" aria-labelledby="year-sheet">
      <h2 id="year-sheet">The year</h2>
      {answer?.error ? <Notice kind="bad">{sayRefusal(answer.error, units.value)}</Notice> : null}
      <Years />
      {answer?.value ? (
        <>
          {answer.value.climateMissing ? (
            <Notice title="No climate yet">
              <p>Without it the sheet cannot show what the grass needs.</p>
              <Button href="/weather">Add climate</Button>
            </Notice>
          ) : null}
          <div class="season-moving__acts">
            <Button pressed={asList} onClick={() => show(!asList)}>
              As a list
            </Button>
            <Button onClick={printYear}>Print</Button>
            <Button tone="quiet" onClick={() => setWhy(true)}>
              How this is worked out
            </Button>
          </div>
          {asList ? (
            <StepList value={answer.value.value} />
          ) : (
            <>
              <p class="quiet" id="season-how">
                Drag a flag to another week. By keys: arrows move it, Enter takes it, Escape leaves it.
              </p>
              <Board value={answer.value.value} />
              <MovingPanel />
            </>
          )}
          <PrintedYear value={answer.value.value} year={sheet.year.value} />
          <Aside open={why} onClose={() => setWhy(false)} title="How this is worked out">
            <Working steps={answer.working} />
          </Aside>
        </>
      ) : (
        <p>…</p>
      )}
    </section>
  );
}

/** Which year is drawn, where steps lie in more than one. */
function Years() {
  const years = sheet.years.value;
  if (years.length < 2) return null;
  return (
    <ChoiceField
      label="Year from"
      value={sheet.year.value}
      choices={years.map((value) => ({ value, label: date(value) }))}
      onInput={(value) => {
        moving.leave();
        sheet.choose(value);
      }}
    />
  );
}
