import type { Typed } from "../../../../format";
import type { Filled } from "../../../../forms/fields";
import { units } from "../../../../platform/session/session";
import { allowed, isShare } from "../../../../records/kinds";
import { FieldInput } from "../../../../ui/form/field-input";
import { CheckField } from "../../../../ui/parts";
import type { MendField } from "../../model/rejected";

interface MendInputProps {
  field: MendField;
  value: Filled;
  error: string | undefined;
  onInput: (value: Filled) => void;
}

/** One field of an entry, by what the contract says it may hold; what is allowed stands under it. */
export function MendInput({ field, value, error, onInput }: MendInputProps) {
  const { limits, way } = field;
  const label = isShare(limits) ? `${limits.label}, %` : limits.label;
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
  const said = error || way === "flag" ? undefined : allowed(limits, units.value, key);
  const words = { ...(said ? { hint: said } : {}), none: "not chosen" };
  return (
    <FieldInput field={field} label={label} words={words} value={value} error={error} onInput={onInput} />
  );
}
