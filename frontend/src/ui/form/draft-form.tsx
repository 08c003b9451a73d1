/** The form as it is drawn: what was resumed, its fields, what is wrong, why it was not saved, one button. */
import type { ComponentChildren } from "preact";
import { useEffect, useMemo, useRef } from "preact/hooks";
import type { Form, Saved } from "../../forms/form";
import { Button, type Tone } from "../parts/button";
import { Notice } from "../parts/notice";
import { NotSaved } from "../parts/saving";
import { offerUndo, orSay } from "../parts/undo";
import { focusFirstWrong } from "./focus";

type AnyForm<S extends Saved, B> = Pick<
  Form<object, S, B>,
  "form" | "resumed" | "tried" | "busy" | "problem" | "errors" | "open" | "save" | "discard"
>;

/** A form that is opened each time its sheet is; undefined while that is closed. */
export function useForm<M extends { open: (base: B) => Promise<void> }, B = undefined>(
  make: () => M,
  open: boolean,
  base: B,
): M | undefined {
  // biome-ignore lint/correctness/useExhaustiveDependencies: what stands as the sheet opens is what it starts from
  const made = useMemo(() => (open ? make() : undefined), [open]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: see above
  useEffect(() => void made?.open(base), [made]);
  return made;
}

interface DraftFormProps<S extends Saved, B> {
  of: AnyForm<S, B>;
  /** What it is saved over: the record as it stands now, where it is one of those. */
  base: B;
  /** On the button. */
  save: string;
  tone?: Tone;
  /** Said once it is saved. */
  saved: string;
  onSaved: (saved: S) => void;
  /** The way out of a page; a sheet has its own. Returns to the form after an undo. */
  leave?: { out: () => void; back: () => void };
  /** Nothing can be saved yet: what would be is still being worked out. */
  waits?: boolean;
  label?: string;
  class?: string;
  children: ComponentChildren;
}

export function DraftForm<S extends Saved, B>(props: DraftFormProps<S, B>) {
  const { of, base, leave } = props;
  const element = useRef<HTMLFormElement>(null);
  async function save(event: Event): Promise<void> {
    event.preventDefault();
    if (props.waits) return;
    const done = await of.save(base);
    if (!done) return focusFirstWrong(element.current);
    props.onSaved(done);
    offerUndo(props.saved, done.back);
  }
  async function discard(): Promise<void> {
    const done = await orSay(() => of.discard(base));
    if (!done) return;
    leave?.out();
    const back = done.value;
    if (back) offerUndo("Changes discarded.", () => back().then(leave?.back));
  }
  if (!of.form.value) return <p class="quiet">Opening…</p>;
  return (
    <form ref={element} class={props.class ?? "stack"} onSubmit={save} noValidate aria-label={props.label}>
      {of.resumed.value ? <Resumed discard={leave ? undefined : discard} /> : null}
      {props.children}
      <Wrong of={of} />
      <NotSaved of={of} />
      <div class="row">
        <div class="grow">
          <Button type="submit" tone={props.tone ?? "signal"} wide busy={of.busy.value || props.waits}>
            {props.save}
          </Button>
        </div>
        {leave ? (
          <Button tone="quiet" onClick={discard}>
            Discard changes
          </Button>
        ) : null}
      </div>
    </form>
  );
}

function Resumed({ discard }: { discard: (() => void) | undefined }) {
  return (
    <Notice title="Unsaved changes">
      <p>What you entered is still here. Save to keep it.</p>
      {discard ? <Button onClick={discard}>Discard changes</Button> : null}
    </Notice>
  );
}

function Wrong({ of: { tried, errors } }: { of: Pick<AnyForm<Saved, never>, "tried" | "errors"> }) {
  const wrong = tried.value ? Object.keys(errors.value).length : 0;
  const fields = wrong === 1 ? "One field needs" : `${wrong} fields need`;
  return (
    <p class="form-wrong" role="status">
      {wrong ? `${fields} fixing. Nothing you entered is lost.` : ""}
    </p>
  );
}
