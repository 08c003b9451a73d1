/** One field of a form that is made from the contract, by what that says it may hold. */
import { type Typed, unitsFor } from "../../format";
import type { Filled, FormField } from "../../forms/fields";
import type { FieldWords } from "../../forms/schema-form";
import { units } from "../../platform/session/session";
import { isShare, quantityOf } from "../../records/kinds";
import { CheckField, ChoiceField, NumberField, TextField, UnitField } from "../parts/inputs";

export interface FieldInputProps {
  field: FormField;
  label: string;
  words?: FieldWords;
  value: Filled;
  error: string | undefined;
  onInput: (value: Filled) => void;
  /** What there is to choose from, where it is another record. */
  things?: readonly { value: string; label: string }[];
}

/** Above so many letters a text is one of several lines. */
const ONE_LINE = 400;
/** What stands after a number that has one unit only. */
const SIGNS: Record<string, string> = {
  "%": "%",
  share: "%",
  day: "days",
  year: "years",
  h: "hours",
  deg: "°",
};

export function FieldInput(props: FieldInputProps) {
  const { field, label, words = {}, value, error, onInput } = props;
  const { limits, way } = field;
  const shared = { label, error, onInput, hint: words.hint };
  switch (way) {
    case "flag":
      return <CheckField {...shared} checked={value === true} />;
    case "amount": {
      const offered = unitsFor(quantityOf(limits) ?? "length", units.value);
      return <UnitField {...shared} value={value as Typed} units={offered} />;
    }
    case "number": {
      const sign = isShare(limits) ? "%" : SIGNS[limits.unit ?? ""];
      return <NumberField {...shared} value={String(value)} unit={sign} whole={limits.type === "integer"} />;
    }
    case "choice":
      return <ChoiceField {...shared} value={String(value)} choices={choicesOf(props)} />;
    case "thing":
      return <ChoiceField {...shared} look="list" value={String(value)} choices={choicesOf(props)} />;
    case "things":
      return <Things {...props} />;
    default: {
      const type = way === "date" ? "date" : way === "moment" ? "datetime-local" : "text";
      const lines = type === "text" && (words.lines ?? (limits.max ?? 0) > ONE_LINE);
      return (
        <TextField {...shared} value={String(value)} type={type} multiline={lines} maxLength={limits.max} />
      );
    }
  }
}

function choicesOf({ field: { limits }, words = {}, things }: FieldInputProps) {
  const none = words.none === undefined ? [] : [{ value: "", label: words.none }];
  const listed = (limits.choices ?? []).map((one) => ({
    value: one,
    label: words.choices?.[one] ?? one.replaceAll("_", " "),
  }));
  return [...none, ...(things ?? listed)];
}

/** Several of a kind, each with a tick. */
function Things({ label, value, error, onInput, things = [] }: FieldInputProps) {
  const chosen = value as readonly string[];
  if (!things.length) return null;
  return (
    <fieldset class="field" aria-invalid={error ? "true" : undefined}>
      <legend class="field__label">{label}</legend>
      {things.map((one) => (
        <CheckField
          key={one.value}
          label={one.label}
          checked={chosen.includes(one.value)}
          onInput={(on) => onInput(on ? [...chosen, one.value] : chosen.filter((id) => id !== one.value))}
        />
      ))}
      <span aria-live="polite">{error ? <span class="field__error">{error}</span> : null}</span>
    </fieldset>
  );
}
