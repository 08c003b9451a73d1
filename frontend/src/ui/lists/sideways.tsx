import type { ComponentChildren } from "preact";

interface SidewaysProps {
  /** What it is for those who meet it by its name. */
  label: string;
  /** Said of the table before its cells. */
  caption: string;
  class?: string;
  children: ComponentChildren;
}

/** A table that may be wider than a phone: it scrolls by itself, by thumb and by keys. */
export function Sideways({ label, caption, class: more, children }: SidewaysProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways must be reached by keys
    <section class="scroll-x" aria-label={label} tabIndex={0}>
      <table class={more ? `table ${more}` : "table"}>
        <caption class="sr">{caption}</caption>
        {children}
      </table>
    </section>
  );
}
