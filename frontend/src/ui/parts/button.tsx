import type { ComponentChildren } from "preact";
import { Link } from "wouter-preact";
import { rest } from "../../records/rest";

export type Tone = "plain" | "signal" | "quiet" | "danger";

export interface ButtonProps {
  children: ComponentChildren;
  tone?: Tone | undefined;
  /** A path inside the app: draws a link that looks like a button. */
  href?: string | undefined;
  onClick?: ((event: Event) => void) | undefined;
  type?: "button" | "submit" | undefined;
  disabled?: boolean | undefined;
  /** Something is on its way: the button stays put, says so, and takes no second tap. */
  busy?: boolean | undefined;
  wide?: boolean | undefined;
  size?: "yard" | undefined;
  /** Needed where the content is only an icon. */
  label?: string | undefined;
  pressed?: boolean | undefined;
  describedBy?: string | undefined;
  form?: string | undefined;
}

function classes({ tone = "plain", wide, size }: ButtonProps): string {
  return ["button", `button--${tone}`, wide && "button--wide", size && `button--${size}`]
    .filter(Boolean)
    .join(" ");
}

/** A tap within the rest after a record, on what is not sure to be what it was meant for, is the shake of the one before: it does nothing, not even follow a link. */
function heeding(onClick: ButtonProps["onClick"], busy = false): (event: Event) => void {
  return (event) => {
    if (busy || rest.ignores(event.currentTarget)) event.preventDefault();
    else onClick?.(event);
  };
}

export function Button(props: ButtonProps) {
  const { children, href, type = "button", disabled, busy, label, pressed, describedBy, form } = props;
  if (href !== undefined && !disabled) {
    return (
      <Link href={href} className={classes(props)} aria-label={label} onClick={heeding(props.onClick)}>
        {children}
      </Link>
    );
  }
  return (
    <button
      type={type}
      class={classes(props)}
      disabled={disabled}
      aria-disabled={busy ? "true" : undefined}
      aria-busy={busy ? "true" : undefined}
      aria-label={label}
      aria-pressed={pressed}
      aria-describedby={describedBy}
      form={form}
      onClick={heeding(props.onClick, busy)}
    >
      {children}
    </button>
  );
}
