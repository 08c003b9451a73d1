import { Plus } from "lucide-preact";
import type { ComponentChildren } from "preact";
import { Button } from "../parts/button";
import { Empty } from "../parts/empty";

interface ListSectionProps<R> {
  id: string;
  title: string;
  /** Where another one is added, and the words for it. */
  add: readonly [href: string, says: string];
  rows: readonly R[];
  /** Nothing is said of an empty list that was not read yet. */
  loaded: boolean;
  /** What stands there while there is none. */
  none: readonly [title: string, says: string];
  /** A line of it. */
  children: (row: R) => ComponentChildren;
}

/** All there is of something, a line each, with the way to add one. */
export function ListSection<R>({ id, title, add, rows, loaded, none, children }: ListSectionProps<R>) {
  return (
    <section class="section" aria-labelledby={id}>
      <div class="list-head">
        <h2 id={id}>{title}</h2>
        <Button href={add[0]}>
          <Plus aria-hidden="true" size={20} />
          {add[1]}
        </Button>
      </div>
      {rows.length ? (
        <ul class="lines">{rows.map(children)}</ul>
      ) : loaded ? (
        <Empty title={none[0]}>
          <p>{none[1]}</p>
        </Empty>
      ) : null}
    </section>
  );
}
