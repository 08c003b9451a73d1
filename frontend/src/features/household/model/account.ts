/** Changing the password and signing out everywhere: the server's to do, so both need signal. */
import { type ReadonlySignal, signal } from "@preact/signals";
import type { Failure } from "../../../platform/sync/http";
import { type Ask, sayFailure } from "../../../platform/sync/remote";

/** What went wrong: beside its field, or "" for the whole. */
export interface Complaint {
  fields: Record<string, string>;
  says: string;
  /** No answer came: no fault of anybody's. */
  noSignal: boolean;
}

export interface Account {
  busy: ReadonlySignal<boolean>;
  problem: ReadonlySignal<Complaint | undefined>;
  /** True once the server has taken the new password; this phone stays signed in, every other one is signed out. */
  changePassword(present: string, chosen: string): Promise<boolean>;
  /** True once every session is ended, this phone's too. What is unsent stays in the book of each phone (S21). */
  signOutEverywhere(): Promise<boolean>;
  /** A page or a question opens with nothing wrong yet. */
  begin(): void;
}

const NEEDS_SIGNAL = "This needs signal. Nothing was changed.";
const PRESENT = "The password you have now is missing. Write the one you sign in with.";
const CHOSEN = "The new password is missing. Allowed: 10 to 256 characters, such as a few words of your own.";

function complaintOf(failure: Failure): Complaint {
  const fields = failure.fields ?? {};
  const noSignal = failure.status === 0;
  if (noSignal) return { fields: {}, says: NEEDS_SIGNAL, noSignal };
  return { fields, says: Object.keys(fields).length ? "" : sayFailure(failure), noSignal };
}

function missing(present: string, chosen: string): Record<string, string> {
  return { ...(present ? {} : { password: PRESENT }), ...(chosen ? {} : { new_password: CHOSEN }) };
}

/** `signOut` ends it on this phone; `synced` sends what waited, now under the session the new password made. */
export function createAccount({
  request,
  signOut,
  synced,
}: {
  request: Ask;
  signOut: () => Promise<void>;
  synced: () => void;
}): Account {
  const busy = signal(false);
  const problem = signal<Complaint | undefined>(undefined);

  async function ask(path: string, body: object): Promise<boolean> {
    if (busy.value) return false;
    busy.value = true;
    problem.value = undefined;
    const outcome = await request("POST", `accounts/${path}`, body);
    busy.value = false;
    if (!outcome.ok) problem.value = complaintOf(outcome);
    return outcome.ok;
  }

  return {
    busy,
    problem,
    async changePassword(present, chosen) {
      const fields = missing(present, chosen);
      if (Object.keys(fields).length) {
        problem.value = { fields, says: "", noSignal: false };
        return false;
      }
      const done = await ask("password", { password: present, new_password: chosen });
      if (done) synced();
      return done;
    },
    async signOutEverywhere() {
      const done = await ask("sign-out-everywhere", {});
      if (done) await signOut();
      return done;
    },
    begin() {
      problem.value = undefined;
    },
  };
}
