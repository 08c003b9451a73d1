/** One's own account: a new password, and signing out on every phone at once. Both need signal (S21). */
import { useRef, useState } from "preact/hooks";
import { useLocation } from "wouter-preact";
import { standing } from "../../../../platform/store";
import { focusFirstWrong } from "../../../../ui/form/focus";
import { Button, clearToasts, Notice, Sheet, showToast, TextField } from "../../../../ui/parts";
import { account } from "../../model/together";
import { Ask } from "../ask";
import { sayCount } from "../counts";

export function Account() {
  const [asking, setAsking] = useState<"password" | "everywhere" | undefined>(undefined);
  const open = (what: typeof asking) => {
    account.begin();
    setAsking(what);
  };
  const close = () => setAsking(undefined);
  return (
    <div class="row">
      <Button onClick={() => open("password")}>Change password</Button>
      <Button onClick={() => open("everywhere")}>Sign out everywhere</Button>
      <Sheet open={asking === "password"} onClose={close} title="Change password">
        <NewPassword onDone={close} />
      </Sheet>
      <Everywhere open={asking === "everywhere"} onNo={close} />
    </div>
  );
}

function NewPassword({ onDone }: { onDone: () => void }) {
  const form = useRef<HTMLFormElement>(null);
  const [present, setPresent] = useState("");
  const [chosen, setChosen] = useState("");
  const wrong = account.problem.value?.fields ?? {};
  const busy = account.busy.value;
  async function send(event: Event): Promise<void> {
    event.preventDefault();
    if (await account.changePassword(present, chosen)) {
      showToast({ text: "Password changed." });
      onDone();
      return;
    }
    focusFirstWrong(form.current);
  }
  return (
    <form class="stack" ref={form} onSubmit={send} noValidate aria-label="Change password">
      <p>Other phones must sign in again with it. Each keeps its entries. This phone stays signed in.</p>
      <TextField
        label="Current password"
        type="password"
        autocomplete="current-password"
        value={present}
        onInput={setPresent}
        error={wrong["password"]}
      />
      <TextField
        label="New password"
        type="password"
        autocomplete="new-password"
        hint="Use a few words you will remember. 10 characters or more."
        value={chosen}
        onInput={setChosen}
        error={wrong["new_password"]}
      />
      <Trouble title="The password was not changed" />
      <Button type="submit" tone="signal" wide busy={busy}>
        {busy ? "Saving the password" : "Save the password"}
      </Button>
    </form>
  );
}

/** What this phone has not sent yet, and that it stays. */
function sayLeft(): string {
  const { waiting, photosWaiting, parked } = standing.value;
  const left = sayCount(waiting + parked.length, photosWaiting);
  return left ? ` On this phone: ${left}.` : "";
}

function Everywhere({ open, onNo }: { open: boolean; onNo: () => void }) {
  const [, go] = useLocation();
  async function leave(): Promise<void> {
    if (!(await account.signOutEverywhere())) return;
    clearToasts();
    go("/enter", { replace: true });
  }
  return (
    <Ask
      title={open ? "Sign out everywhere?" : undefined}
      yes="Sign out everywhere"
      no="Stay signed in"
      busy={account.busy.value}
      onYes={leave}
      onNo={onNo}
    >
      <p>This signs you out on every phone and browser, this one too.</p>
      <p>
        Entries not sent yet stay on their phone. They send when you sign in there again.
        {sayLeft()}
      </p>
      <Trouble title="Nobody was signed out" />
    </Ask>
  );
}

/** No signal is one quiet line; what the server refuses is said aloud. */
function Trouble({ title }: { title: string }) {
  const problem = account.problem.value;
  return (
    <div aria-live="polite">
      {problem?.noSignal ? <p class="quiet">{problem.says}</p> : null}
      {problem && !problem.noSignal && problem.says ? (
        <Notice kind="bad" title={title}>
          <p>{problem.says}</p>
        </Notice>
      ) : null}
    </div>
  );
}
