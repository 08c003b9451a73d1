import { useState } from "preact/hooks";
import { count, percent, rate, unitOf } from "../../../format";
import { sayRefusal } from "../../../forms/refusal";
import { type Answer, useEngine } from "../../../platform/engine";
import { units } from "../../../platform/session/session";
import { nameOf } from "../../../records/log/named";
import type { HistoryRow } from "../../../records/pass-history";
import { type Spreader, writeDial } from "../../../records/products";
import { CurveDrawing, drawable, MarkSwatch, type PassMark } from "../../../ui/drawing";
import { Button, ChoiceField, Empty, Figure } from "../../../ui/parts";
import { curve, shed } from "../model";
import {
  type CurveAnswer,
  curveArgs,
  drawnPasses,
  type LearnedPass,
  learnedPasses,
  productsMet,
} from "../model/curve";
import { PassLine, PassSheet } from "./curve-pass";

/** What a spreader's passes taught about its dial: the curve, how sure it is, and every pass it rests on. */
export function CurvePart({ id }: { id: string }) {
  const spreader = shed.spreaders.value.find((one) => one.id === id);
  if (!spreader || !drawable(spreader.dial)) return null;
  const rows = curve.rows(spreader);
  return (
    <section class="section" aria-labelledby="learned">
      <h2 id="learned">What past passes show</h2>
      {rows.length ? <Learned spreader={spreader} rows={rows} /> : <NothingYet />}
    </section>
  );
}

function NothingYet() {
  return (
    <Empty title="No pass yet" action={<Button href="/spread">Start spreading</Button>}>
      <p>
        Each pass adds a point: dial setting and rate. The app uses them to predict other settings. After 2 or
        3 jobs it is close.
      </p>
    </Empty>
  );
}

/** Passes in the list before more are asked for. */
const FIRST_LINES = 6;

function Learned({ spreader, rows }: { spreader: Spreader; rows: readonly HistoryRow[] }) {
  const [wanted, setWanted] = useState<string | undefined>(undefined);
  const [opened, setOpened] = useState<string | undefined>(undefined);
  const met = productsMet(rows);
  const productId = wanted ?? met[0] ?? "";
  const product = shed.products.value.find((one) => one.id === productId);
  const args = curveArgs(spreader, product, productId, rows);
  const { answer, busy } = useEngine("spreading.curve", args);
  const passes = learnedPasses(answer?.value, rows);
  const write = (setting: number) => writeDial(setting, spreader.dial.step);
  return (
    <>
      <ChoiceField
        label="Curve for"
        look="list"
        value={productId}
        choices={met.map((one) => ({ value: one, label: nameOf(one) ?? "Product not on this phone" }))}
        onInput={setWanted}
      />
      {answer?.error ? <p role="status">{sayRefusal(answer.error, units.value)}</p> : null}
      {answer?.value ? (
        <>
          <Sureness answer={answer} busy={busy} />
          <CurveDrawing
            dial={spreader.dial}
            points={answer.value.points}
            past={drawnPasses(passes)}
            write={(kg_m2) => rate(kg_m2, units.value).number}
            factor={unitOf("rate", units.value).factor}
            unit={unitOf("rate", units.value).label}
            writeDial={write}
            chosen={opened}
            onPick={setOpened}
          />
          <Legend passes={passes} />
          <PassList passes={passes} write={write} open={setOpened} />
          <PassSheet
            pass={passes.find((one) => one.key === opened)}
            write={write}
            onClose={() => setOpened(undefined)}
          />
        </>
      ) : null}
    </>
  );
}

/** The width of the band in one figure: it shrinks as passes are walked. */
function Sureness({ answer, busy }: { answer: Answer<CurveAnswer>; busy: boolean }) {
  const { within_share, passes_used } = answer.value ?? {};
  return (
    <div class="figures">
      <Figure
        label="Accuracy"
        value={within_share === undefined ? "not known" : `within ± ${percent(within_share).text}`}
        working={answer.working}
        busy={busy}
        note={`9 in 10 passes, from ${count(passes_used ?? 0, "pass", "passes").text}`}
      />
    </div>
  );
}

const MARKS: Record<PassMark, string> = {
  this: "a pass with this product",
  other: "with another product",
  doubtful: "looks off",
  left_out: "ignored",
};

function Legend({ passes }: { passes: readonly LearnedPass[] }) {
  const seen = (Object.keys(MARKS) as PassMark[]).filter((mark) => passes.some((one) => one.mark === mark));
  return (
    <ul class="curve-legend" aria-label="What the drawing shows">
      <li>Solid line: expected rate. Hatched: where 9 in 10 passes fall.</li>
      {seen.map((mark) => (
        <li key={mark}>
          <MarkSwatch mark={mark} /> {MARKS[mark]}
        </li>
      ))}
    </ul>
  );
}

interface ListProps {
  passes: readonly LearnedPass[];
  write: (setting: number) => string;
  open: (key: string) => void;
}

function PassList({ passes, write, open }: ListProps) {
  const [all, setAll] = useState(false);
  const shown = all ? passes : passes.slice(0, FIRST_LINES);
  return (
    <>
      <h3>Past passes</h3>
      <p class="quiet">
        Each shows the rate measured then. The drawing uses today’s swath, speed and product.
      </p>
      <ul class="lines">
        {shown.map((pass) => (
          <PassLine key={pass.key} pass={pass} write={write} open={() => open(pass.key)} />
        ))}
      </ul>
      {shown.length < passes.length ? (
        <div>
          <Button onClick={() => setAll(true)}>All {count(passes.length, "pass", "passes").text}</Button>
        </div>
      ) : null}
    </>
  );
}
