import { area, date, mass, percent, rate } from "../../../format";
import { units } from "../../../platform/session/session";
import { nameOf } from "../../../records/log/named";
import { leftOut } from "../../../records/pass-history";
import { MarkSwatch } from "../../../ui/drawing";
import { Button, Notice, orUndo, Sheet } from "../../../ui/parts";
import { curve } from "../model";
import type { LearnedPass, LeftOut } from "../model/curve";

/** What is said of a pass that was not learned from, short in the list and in full on its sheet. */
const WHY: Record<LeftOut, string> = {
  bad: "Ignored.",
  damp: "The product was damp. Not used for later dials.",
  off_dial: "Its setting is not on this dial as entered now.",
  too_old: "Too old to be used.",
  unmeasured: "It used too little to measure. The readings may be off by as much.",
  unreadable: "A figure is missing or not allowed. The other passes still count.",
};

const SHORT: Record<LeftOut, string> = {
  bad: "ignored",
  damp: "damp",
  off_dial: "ignored",
  too_old: "too old",
  unmeasured: "too small to measure",
  unreadable: "ignored",
};

function sayMark({ mark, left_out }: LearnedPass): string {
  if (left_out) return SHORT[left_out];
  return mark === "doubtful" ? "looks off" : "";
}

/** The setting and the rate as measured then; the chart's own rate is one brought to today. */
function titleOf({ dial, measured_kg_m2 }: LearnedPass, write: (setting: number) => string): string {
  if (dial === null || measured_kg_m2 === null) return "Can’t read this pass";
  return `Dial ${write(dial)}: ${rate(measured_kg_m2, units.value).text}`;
}

interface LineProps {
  pass: LearnedPass;
  write: (setting: number) => string;
  open: () => void;
}

/** One pass of the list: a tap opens what it says, the button beside it leaves it out or takes it in. */
export function PassLine({ pass, write, open }: LineProps) {
  const { at, dial, product, mark } = pass;
  const facts = [nameOf(product), sayMark(pass)].filter(Boolean).join(" · ");
  return (
    <li class="curve-line">
      <button type="button" class="line" aria-haspopup="dialog" onClick={open}>
        <MarkSwatch mark={mark} />
        <span class="line__main">
          <span class="line__title">{titleOf(pass, write)}</span>
          <span class="line__facts">
            {date(at.slice(0, 10))}
            {facts ? ` · ${facts}` : ""}
          </span>
        </span>
      </button>
      <Toggle
        pass={pass}
        short
        what={`${date(at.slice(0, 10))}${dial === null ? "" : `, dial ${write(dial)}`}`}
      />
    </li>
  );
}

/** Leaves a pass out of learning or takes it in again; nothing is asked where the mark would change nothing. */
function Toggle({ pass, short, what }: { pass: LearnedPass; short?: boolean; what: string }) {
  const entry = curve.entryNow(pass.entryId);
  if (!entry || (pass.left_out && pass.left_out !== "bad")) return null;
  const out = leftOut(entry);
  const label = out ? "Use this pass" : short ? "Ignore" : "Ignore this pass";
  const turn = () => orUndo(() => curve.setLearning(entry, !out, ""), out ? "Used again." : "Ignored.");
  return (
    <Button onClick={() => void turn()} label={short ? `${label}: ${what}` : undefined}>
      {label}
    </Button>
  );
}

interface SheetProps {
  pass: LearnedPass | undefined;
  write: (setting: number) => string;
  onClose: () => void;
}

/** All that is known of one pass, and whether it is learned from. */
export function PassSheet({ pass, write, onClose }: SheetProps) {
  const system = units.value;
  const { past } = pass?.row ?? {};
  const facts: [string, string | undefined][] =
    pass && past && pass.left_out !== "unreadable"
      ? [
          ["Product", nameOf(pass.product) ?? "not on this phone"],
          ["Dial", write(past.dial)],
          ["Put down", mass(past.used_kg, system).text],
          ["Area covered", area(past.area_m2, system).text],
          ["Measured rate", rateOf(pass.measured_kg_m2)],
          ["At today’s swath, speed and product", convertedRate(pass)],
          ["Ran out early", past.ran_out ? "yes" : undefined],
          ["Nothing came out", past.nothing_came ? "yes" : undefined],
          ["Chance it went wrong", pass.bad_chance === null ? undefined : percent(pass.bad_chance).text],
        ]
      : [];
  return (
    <Sheet
      open={pass !== undefined}
      onClose={onClose}
      title={pass ? `Pass of ${date(pass.at.slice(0, 10))}` : "Pass"}
      actions={pass ? <Toggle pass={pass} what="" /> : null}
    >
      {pass ? <Standing pass={pass} /> : null}
      <dl class="facts">
        {facts.map(([name, value]) =>
          value === undefined
            ? null
            : [<dt key={`${name}-t`}>{name}</dt>, <dd key={`${name}-d`}>{value}</dd>],
        )}
      </dl>
      {pass ? (
        <div>
          <Button href={`/log/${pass.entryId}`}>Open in the log</Button>
        </div>
      ) : null}
    </Sheet>
  );
}

const rateOf = (kg_m2: number | null) => (kg_m2 === null ? undefined : rate(kg_m2, units.value).text);

/** Only where the conversion shows: a figure that is the measured one stands once. */
function convertedRate({ rate_kg_m2, measured_kg_m2 }: LearnedPass): string | undefined {
  const converted = rateOf(rate_kg_m2);
  return converted === rateOf(measured_kg_m2) ? undefined : converted;
}

function Standing({ pass }: { pass: LearnedPass }) {
  // The book's own word: the curve's answer comes a moment after a tap.
  const entry = curve.entryNow(pass.entryId);
  const why = entry && leftOut(entry) ? "bad" : pass.left_out === "bad" ? null : pass.left_out;
  if (why) return <Notice>{WHY[why]}</Notice>;
  if (pass.mark === "doubtful")
    return (
      <Notice kind="warn" title="Looks off">
        <p>Clogged, damp or gate opened late? If so, ignore this pass.</p>
      </Notice>
    );
  return <p>This pass is used for later dials.</p>;
}
