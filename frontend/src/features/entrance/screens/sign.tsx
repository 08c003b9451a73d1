import { useRef, useState } from "preact/hooks";
import { signIn, signUp, type Units } from "../../../platform/session/session";
import { Button, ChoiceField, Notice, TextField } from "../../../ui/parts";
import { EmailField, NameField, PasswordField } from "./fields";
import { KNOWN_PASSWORD, missing, NEW_PASSWORD, type Problems, useSubmit } from "./submit";

const EMAIL = "Your e-mail address is missing. Enter it as name@example.org.";

interface SignProps {
  /** Somebody signed in before, whose time ran out: their address. */
  again: string | undefined;
  onDone: () => void;
}

export function SignForms({ again, onDone }: SignProps) {
  const [way, setWay] = useState<"in" | "up">("in");
  if (again) {
    return (
      <>
        <p>Sign in again to send waiting entries. Nothing on this phone is lost.</p>
        <SignIn email={again} onDone={onDone} />
        <Button href="/">Back to the app</Button>
      </>
    );
  }
  return (
    <>
      <ChoiceField
        label="What would you like to do?"
        value={way}
        onInput={setWay}
        choices={[
          { value: "in", label: "Sign in" },
          { value: "up", label: "Start a new book" },
        ]}
      />
      {way === "in" ? <SignIn email="" onDone={onDone} /> : <SignUp onDone={onDone} />}
    </>
  );
}

function SignIn({ email: known, onDone }: { email: string; onDone: () => void }) {
  const form = useRef<HTMLFormElement>(null);
  const { busy, problems, submit } = useSubmit(form);
  const [email, setEmail] = useState(known);
  const [password, setPassword] = useState("");
  async function send(event: Event): Promise<void> {
    event.preventDefault();
    const check = missing({ email: [email, EMAIL], password: [password, KNOWN_PASSWORD] });
    if (await submit(check, () => signIn(email.trim(), password))) onDone();
  }
  return (
    <form class="stack" ref={form} onSubmit={send} noValidate aria-label="Sign in">
      <Trouble problems={problems} />
      <EmailField value={email} onInput={setEmail} problems={problems} />
      <PasswordField value={password} onInput={setPassword} problems={problems} chosen={false} />
      <Button type="submit" tone="signal" wide busy={busy}>
        {busy ? "Signing in" : "Sign in"}
      </Button>
    </form>
  );
}

function SignUp({ onDone }: Pick<SignProps, "onDone">) {
  const form = useRef<HTMLFormElement>(null);
  const { busy, problems, submit } = useSubmit(form);
  const [now, set] = useState({ name: "", email: "", password: "", household_name: "" });
  const [units, setUnits] = useState<Units>("us");
  const take = (field: keyof typeof now) => (text: string) => set({ ...now, [field]: text });
  async function send(event: Event): Promise<void> {
    event.preventDefault();
    const check = missing({
      name: [now.name, "Your name is missing. The others in the household see it beside what you enter."],
      email: [now.email, EMAIL],
      password: [now.password, NEW_PASSWORD],
      household_name: [now.household_name, "The household’s name is missing. Enter what you call the place."],
    });
    const admitted = await submit(check, () => signUp({ ...now, units, email: now.email.trim() }));
    if (admitted) onDone();
  }
  return (
    <form class="stack" ref={form} onSubmit={send} noValidate aria-label="Start a new book">
      <Trouble problems={problems} />
      <NameField value={now.name} onInput={take("name")} problems={problems} />
      <EmailField value={now.email} onInput={take("email")} problems={problems} />
      <PasswordField value={now.password} onInput={take("password")} problems={problems} chosen />
      <TextField
        label="Household"
        hint="What you call the place. Others can join later."
        maxLength={60}
        value={now.household_name}
        onInput={take("household_name")}
        error={problems["household_name"]}
      />
      <ChoiceField
        label="Units"
        hint="Only for you. You can change it any time."
        value={units}
        onInput={setUnits}
        choices={[
          { value: "us", label: "lb, ft², in" },
          { value: "metric", label: "kg, m², mm" },
        ]}
        error={problems["units"]}
      />
      <Button type="submit" tone="signal" wide busy={busy}>
        {busy ? "Starting the book" : "Start the book"}
      </Button>
    </form>
  );
}

/** What belongs to no single field, above the form. */
export function Trouble({ problems }: { problems: Problems }) {
  return (
    <div aria-live="assertive">
      {problems[""] ? (
        <Notice kind="bad">
          <p>{problems[""]}</p>
        </Notice>
      ) : null}
    </div>
  );
}
