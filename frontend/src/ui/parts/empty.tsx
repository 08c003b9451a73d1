import type { ComponentChildren } from "preact";

export interface EmptyProps {
  title: string;
  /** What belongs here and the next step to it. */
  children?: ComponentChildren;
  action?: ComponentChildren;
}

/** A blank leaf of the book that says what goes on it. */
export function Empty({ title, children, action }: EmptyProps) {
  return (
    <section class="empty">
      <h2>{title}</h2>
      {typeof children === "string" ? <p>{children}</p> : children}
      {action}
    </section>
  );
}
