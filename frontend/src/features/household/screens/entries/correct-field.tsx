import { type Typed, unitsFor } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { allowed, isShare, quantityOf } from "../../../../records/kinds";
import { CheckField, ChoiceField, NumberField, TextField, UnitField } from "../../../../ui/parts";
import type { Filled, MendField } from "../../model/rejected";

interface MendInputProps {
  field: MendField;
  value: Filled;
  error: string | undefined;
  onInput: (value: Filled) => void;
}

/** One field of an entry, by what the contract says it may hold. */
export function MendInput({ field, value, error, onInput }: MendInputProps) {
  const { limits, way } = field;
  const label = isShare(limits) ? `${limits.label}, %` : limits.label;
  const shared = { label, error, onInput };
  if (way === "flag") return <CheckField label={label} checked={value === true} onInput={onInput} />;
  if (way === "drop")
    return (
      <CheckField
        label={`Remove: ${label}`}
        hint={error ?? "It cannot be edited here."}
        checked={value === true}
        onInput={onInput}
      />
    );
  const key = way === "amount" ? (value as Typed).unit : undefined;
  const hint = error ? undefined : allowed(limits, units.value, key);
  if (way === "amount") {
    const quantity = quantityOf(limits) ?? "length";
    return (
      <UnitField {...shared} hint={hint} value={value as Typed} units={unitsFor(quantity, units.value)} />
    );
  }
  if (way === "number")
    return <NumberField {...shared} hint={hint} value={String(value)} whole={limits.type === "integer"} />;
  if (way === "choice")
    return (
      <ChoiceField
        {...shared}
        look="list"
        value={String(value)}
        choices={["", ...(limits.choices ?? [])].map((one) => ({
          value: one,
          label: one.replaceAll("_", " ") || "not chosen",
        }))}
      />
    );
  const type = way === "date" ? "date" : way === "moment" ? "datetime-local" : "text";
  return (
    <TextField
      {...shared}
      value={String(value)}
      type={type}
      multiline={type === "text" && (limits.max ?? 0) > 200}
    />
  );
}
