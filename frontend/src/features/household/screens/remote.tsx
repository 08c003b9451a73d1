/** What a list of the server shows while it is asked for, when it could not be had, and when a change failed. */
import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";
import type { Remote } from "../../../platform/sync/remote";
import { Button, Notice } from "../../../ui/parts";

/** Asks once for each opening of the page. */
export function useLook({ look }: { look: () => Promise<void> }): void {
  // biome-ignore lint/correctness/useExhaustiveDependencies: the model is one for the life of the app
  useEffect(() => void look(), []);
}

interface ListedProps<V> {
  of: Remote<V>;
  /** What needs signal, in the words of its page. */
  needs: string;
  children: (value: V) => ComponentChildren;
}

/** The list, or why there is none. It stands last on its page: nothing above it moves when it comes. */
export function Listed<V>({ of, needs, children }: ListedProps<V>) {
  const value = of.value.value;
  const problem = of.problem.value;
  return (
    <div class="stack">
      <div aria-live="polite">
        {problem?.of === "" && problem.noSignal ? (
          <p class="row quiet">
            <span>{value ? "No signal. This is the last list." : needs}</span>
            <Button tone="quiet" onClick={() => of.look()}>
              Try again
            </Button>
          </p>
        ) : problem?.of === "" ? (
          <Notice kind="warn" title={value ? "This list may be old" : "This list is not here"}>
            <p>{problem.says}</p>
            <div>
              <Button onClick={() => of.look()}>Try again</Button>
            </div>
          </Notice>
        ) : value === undefined ? (
          <p class="quiet" aria-busy="true">
            Asking the server …
          </p>
        ) : null}
      </div>
      {value === undefined ? null : children(value)}
    </div>
  );
}

/** What went wrong with one thing of a list, beside it. */
export function Wrong({ says }: { says: string | undefined }) {
  return (
    <span aria-live="polite">
      {says ? (
        <span class="field__error">
          <span>{says}</span>
        </span>
      ) : null}
    </span>
  );
}
