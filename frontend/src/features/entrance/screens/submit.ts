/** Sending an entrance form: what the server says goes beside the fields, the rest above them. */
import { useState } from "preact/hooks";
import type { Outcome } from "../../../platform/sync/http";
import { focusFirstWrong } from "../../../ui/form/focus";

export type Problems = Record<string, string>;

export interface Submitting {
  busy: boolean;
  /** By field name; "" holds what belongs to no field. */
  problems: Problems;
  submit: (check: Problems, send: () => Promise<Outcome<unknown>>) => Promise<boolean>;
}

export const NO_SIGNAL =
  "No answer from the server. You need a signal to sign in the first time. What you entered stays here. Try again when you have one.";

function problemsOf(outcome: Outcome<unknown>): Problems {
  if (outcome.ok) return {};
  if (outcome.status === 0) return { "": outcome.code === "no_answer" ? NO_SIGNAL : outcome.message };
  const fields = outcome.fields ?? {};
  return Object.keys(fields).length ? fields : { "": outcome.message };
}

export function useSubmit(form: { current: HTMLFormElement | null }): Submitting {
  const [busy, setBusy] = useState(false);
  const [problems, setProblems] = useState<Problems>({});

  function show(found: Problems): void {
    setProblems(found);
    focusFirstWrong(form.current);
  }

  async function submit(check: Problems, send: () => Promise<Outcome<unknown>>): Promise<boolean> {
    if (busy) return false;
    if (Object.keys(check).length) {
      show(check);
      return false;
    }
    setBusy(true);
    const outcome = await send();
    setBusy(false);
    show(problemsOf(outcome));
    return outcome.ok;
  }

  return { busy, problems, submit };
}

/** What a new password may be, as the server's validators and its longest length want it. */
export const NEW_PASSWORD =
  "The password is missing. Allowed: 10 to 256 characters, not digits only, such as a few words of your own.";
export const KNOWN_PASSWORD = "The password is missing. Enter the one you signed up with.";

/** "Your name is missing" and the like, for what must not be blank. */
export function missing(values: Record<string, [value: string, says: string]>): Problems {
  return Object.fromEntries(
    Object.entries(values).flatMap(([name, [value, says]]) => (value.trim() ? [] : [[name, says]])),
  );
}
