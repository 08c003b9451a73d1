import { useRef } from "preact/hooks";
import { unitsFor } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { Button, ChoiceField, NumberField } from "../../../../ui/parts";
import type { LinesForm } from "../../model/zone-form";

interface LinesProps {
  /** What one of them is called: "Width", "Length". */
  what: string;
  /** No fewer than this many. */
  least: number;
  /** Where their errors stand: "offsets" or "radii". */
  at: string;
  lines: LinesForm;
  errors: Record<string, string>;
  onInput: (lines: LinesForm) => void;
}

/** A run of lengths in one unit, numbered in the order they were measured. */
export function LinesFields({ what, least, at, lines, errors, onInput }: LinesProps) {
  const box = useRef<HTMLDivElement>(null);
  const { amounts, unit } = lines;
  const put = (k: number, text: string) =>
    onInput({ ...lines, amounts: amounts.map((one, n) => (n === k ? text : one)) });
  function more(): void {
    onInput({ ...lines, amounts: [...amounts, ""] });
    setTimeout(() => [...(box.current?.querySelectorAll("input") ?? [])].at(-1)?.focus(), 0);
  }
  return (
    <div class="stack" ref={box}>
      <ChoiceField
        label={`Unit of all ${what.toLowerCase()}s`}
        look="list"
        value={unit}
        onInput={(key) => onInput({ ...lines, unit: key })}
        choices={unitsFor("length", units.value).map(({ key, label }) => ({ value: key, label }))}
      />
      <div class="lengths">
        {amounts.map((amount, k) => (
          // The place in the row is what a length is: it has no other name.
          <NumberField
            key={`${at}-${k}`}
            label={`${what} ${k + 1}`}
            value={amount}
            chosen={unit}
            onInput={(text) => put(k, text)}
            error={errors[`${at}.${k}`]}
          />
        ))}
      </div>
      <div class="row">
        <Button onClick={more}>Add one</Button>
        {amounts.length > least ? (
          <Button tone="quiet" onClick={() => onInput({ ...lines, amounts: amounts.slice(0, -1) })}>
            Remove the last
          </Button>
        ) : null}
      </div>
    </div>
  );
}
