import type { ComponentChildren, JSX } from "preact";
import { useId } from "preact/hooks";
import type { Typed } from "../../format";
import { readAs } from "../../forms/amount";
import { Below, Field, type FieldBase } from "./field";

export interface TextFieldProps extends FieldBase {
  value: string;
  onInput: (text: string) => void;
  type?: "text" | "email" | "password" | "search" | "date" | "datetime-local" | undefined;
  multiline?: boolean | undefined;
  maxLength?: number | undefined;
  autocomplete?: string | undefined;
  name?: string | undefined;
  onBlur?: (() => void) | undefined;
}

type Typing = JSX.TargetedEvent<HTMLInputElement | HTMLTextAreaElement, Event>;

export function TextField(props: TextFieldProps) {
  const { value, onInput, type = "text", multiline, maxLength, autocomplete, name, onBlur, ...field } = props;
  const shared = {
    class: "input",
    value,
    name,
    onBlur,
    onInput: (event: Typing) => onInput(event.currentTarget.value),
  };
  return (
    <Field {...field}>
      {(wiring) =>
        multiline ? (
          <textarea {...wiring} {...shared} maxLength={maxLength} />
        ) : (
          <input
            {...wiring}
            {...shared}
            type={type}
            maxLength={maxLength}
            autocomplete={autocomplete as never}
          />
        )
      }
    </Field>
  );
}

export interface NumberFieldProps extends FieldBase {
  /** Text as typed: a half-typed number is not yet a number. */
  value: string;
  onInput: (text: string) => void;
  /** Written after the number when there is only one unit, such as "%" or "days". */
  unit?: string | undefined;
  /** Key of the unit that was chosen for it elsewhere; one typed behind the number wins, and is said below. */
  chosen?: string | undefined;
  whole?: boolean | undefined;
}

export function NumberField({ value, onInput, unit, chosen, whole, ...field }: NumberFieldProps) {
  const read = chosen && !field.error ? readAs({ amount: value, unit: chosen }) : undefined;
  return (
    <Field {...field} read={read}>
      {(wiring) => (
        <span class={unit ? "pair" : undefined}>
          <input
            {...wiring}
            class="input"
            inputMode={whole ? "numeric" : "decimal"}
            autocomplete="off"
            value={value}
            onInput={(event) => onInput(event.currentTarget.value)}
          />
          {unit ? <span class="pair__unit">{unit}</span> : null}
        </span>
      )}
    </Field>
  );
}

export interface UnitChoice {
  key: string;
  label: string;
}

export interface UnitFieldProps extends FieldBase {
  value: Typed;
  onInput: (typed: Typed) => void;
  /** From format: unitsFor("mass", system). */
  units: readonly UnitChoice[];
  /** A keyboard with letters: here "50 lb" and "12 ft 6 in" are typed often, as labels and tapes have them. */
  words?: boolean | undefined;
}

/** A unit typed behind the number wins over the one chosen; what it was read as stands below. */
export function UnitField({ value, onInput, units, words, ...field }: UnitFieldProps) {
  return (
    <Field {...field} read={field.error ? undefined : readAs(value)}>
      {(wiring) => (
        <span class="pair">
          <input
            {...wiring}
            class="input"
            inputMode={words ? "text" : "decimal"}
            autocomplete="off"
            value={value.amount}
            onInput={(event) => onInput({ ...value, amount: event.currentTarget.value })}
          />
          <select
            class="input"
            aria-label={`Unit of ${field.label}`}
            value={value.unit}
            disabled={field.disabled}
            onFocus={field.onFocus}
            onChange={(event) => onInput({ ...value, unit: event.currentTarget.value })}
          >
            {units.map((unit) => (
              <option key={unit.key} value={unit.key}>
                {unit.label}
              </option>
            ))}
          </select>
        </span>
      )}
    </Field>
  );
}

export interface Choice<V extends string = string> {
  value: V;
  label: string;
}

export interface ChoiceFieldProps<V extends string = string> extends FieldBase {
  value: V;
  onInput: (value: V) => void;
  choices: readonly Choice<V>[];
  /** "row": all choices in sight as radio buttons; "list": a native select. Default: row up to four. */
  look?: "row" | "list" | undefined;
}

export function ChoiceField<V extends string>(props: ChoiceFieldProps<V>) {
  const look = props.look ?? (props.choices.length > 4 ? "list" : "row");
  return look === "row" ? <ChoiceRow {...props} /> : <ChoiceList {...props} />;
}

function ChoiceList<V extends string>({ value, onInput, choices, look: _, ...field }: ChoiceFieldProps<V>) {
  return (
    <Field {...field}>
      {(wiring) => (
        <select
          {...wiring}
          class="input"
          value={value}
          onChange={(event) => onInput(event.currentTarget.value as V)}
        >
          {choices.map((choice) => (
            // Two labels may lead to one value: a grass and what it is called elsewhere.
            <option key={`${choice.value}|${choice.label}`} value={choice.value}>
              {choice.label}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}

function ChoiceRow<V extends string>({ value, onInput, choices, ...field }: ChoiceFieldProps<V>) {
  const made = useId();
  const id = field.id ?? made;
  return (
    <fieldset
      class="field"
      id={id}
      aria-invalid={field.error ? "true" : undefined}
      aria-describedby={field.error ? `${id}-error` : field.hint ? `${id}-hint` : undefined}
      disabled={field.disabled}
      onFocusIn={field.onFocus}
    >
      <legend class="field__label">{field.label}</legend>
      <div class="choices">
        {choices.map((choice) => (
          <label key={choice.value}>
            <input
              type="radio"
              name={id}
              value={choice.value}
              checked={choice.value === value}
              onChange={() => onInput(choice.value)}
            />
            {choice.label}
          </label>
        ))}
      </div>
      <Below id={id} hint={field.hint} error={field.error} />
    </fieldset>
  );
}

export interface CheckFieldProps {
  label: ComponentChildren;
  checked: boolean;
  onInput: (checked: boolean) => void;
  hint?: ComponentChildren;
  error?: string | undefined;
  disabled?: boolean | undefined;
}

export function CheckField({ label, checked, onInput, hint, error, disabled }: CheckFieldProps) {
  const id = useId();
  return (
    <div class="field">
      <label class="check" for={id}>
        <input
          id={id}
          type="checkbox"
          checked={checked}
          disabled={disabled}
          aria-describedby={error ? `${id}-error` : hint ? `${id}-hint` : undefined}
          onChange={(event) => onInput(event.currentTarget.checked)}
        />
        <span>{label}</span>
      </label>
      <Below id={id} hint={hint} error={error} />
    </div>
  );
}
