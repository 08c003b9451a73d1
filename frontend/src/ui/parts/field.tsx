import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";

export interface FieldBase {
  label: string;
  hint?: ComponentChildren;
  /** What is wrong and what is allowed; shown beside the field and read out with it. */
  error?: string | undefined;
  /** Called when the field takes the focus: lets a drawing point at what the field means. */
  onFocus?: (() => void) | undefined;
  /** Fixed id, where a form wants to move the focus to its first error. */
  id?: string | undefined;
  required?: boolean | undefined;
  disabled?: boolean | undefined;
}

/** What an input must carry so that its label, hint and error belong to it. */
export interface Wiring {
  id: string;
  "aria-describedby": string | undefined;
  "aria-invalid": "true" | undefined;
  required?: boolean | undefined;
  disabled?: boolean | undefined;
  onFocus?: (() => void) | undefined;
}

export interface FieldProps extends FieldBase {
  /** What was read from it, where that can differ from what stands in it: "50 lb". */
  read?: string | undefined;
  children: (wiring: Wiring) => ComponentChildren;
}

/** A label, one input, a hint and an error, tied together for eyes and ears. */
export function Field({ label, hint, error, read, onFocus, id, required, disabled, children }: FieldProps) {
  const made = useId();
  const own = id ?? made;
  const described = [hint ? `${own}-hint` : "", read ? `${own}-read` : "", error ? `${own}-error` : ""]
    .filter(Boolean)
    .join(" ");
  return (
    <div class="field">
      <label class="field__label" for={own}>
        {label}
      </label>
      {children({
        id: own,
        "aria-describedby": described || undefined,
        "aria-invalid": error ? "true" : undefined,
        required,
        disabled,
        onFocus,
      })}
      <Below id={own} hint={hint} error={error} read={read} />
    </div>
  );
}

/** Hint and error under an input; the error is announced as it appears. */
export function Below({
  id,
  hint,
  error,
  read,
}: {
  id: string;
  hint?: ComponentChildren;
  error?: string | undefined;
  read?: string | undefined;
}) {
  return (
    <>
      {hint ? (
        <span class="field__hint" id={`${id}-hint`}>
          {hint}
        </span>
      ) : null}
      <span aria-live="polite">
        {read ? (
          <span class="field__hint" id={`${id}-read`}>
            Read as {read}
          </span>
        ) : null}
        {error ? (
          <span class="field__error" id={`${id}-error`}>
            <span>{error}</span>
          </span>
        ) : null}
      </span>
    </>
  );
}
