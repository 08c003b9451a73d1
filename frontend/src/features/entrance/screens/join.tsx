import { useEffect, useRef, useState } from "preact/hooks";
import { useLocation } from "wouter-preact";
import { date } from "../../../format";
import { join, type Me, session, signIn } from "../../../platform/session/session";
import { type Outcome, request } from "../../../platform/sync/http";
import { Button, CheckField, Notice } from "../../../ui/parts";
import { EmailField, NameField, PasswordField } from "./fields";
import { Trouble } from "./sign";
import { KNOWN_PASSWORD, missing, NEW_PASSWORD, NO_SIGNAL, useSubmit } from "./submit";

interface Offer {
  household_name: string;
  expires_at: string;
}

/** The invitation behind a link: undefined while it is asked for, a sentence when it is of no use. */
function useOffer(token: string, attempt: number): Offer | string | undefined {
  const [offer, setOffer] = useState<Offer | string | undefined>(undefined);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another attempt asks again
  useEffect(() => {
    let wanted = true;
    setOffer(undefined);
    void request<Offer>("POST", "accounts/invitation", { token }).then((outcome) => {
      if (!wanted) return;
      if (outcome.ok) setOffer(outcome.value);
      else
        setOffer(
          outcome.status === 0
            ? NO_SIGNAL
            : `${outcome.message} Ask the keeper of the household for a new link.`,
        );
    });
    return () => {
      wanted = false;
    };
  }, [token, attempt]);
  return offer;
}

export function JoinForm({ token }: { token: string }) {
  const [attempt, setAttempt] = useState(0);
  const offer = useOffer(token, attempt);
  if (offer === undefined) return <p aria-busy="true">Checking the invitation …</p>;
  if (typeof offer === "string") {
    return (
      <Notice kind="bad" title="This invitation can’t be used now" alert>
        <p>{offer}</p>
        <div class="row">
          <Button onClick={() => setAttempt(attempt + 1)}>Try again</Button>
          <Button tone="quiet" href="/enter">
            Sign in instead
          </Button>
        </div>
      </Notice>
    );
  }
  return (
    <section class="section">
      <h2>Join {offer.household_name}</h2>
      <p class="quiet">The invitation can be used once, until {date(offer.expires_at)}.</p>
      {session.value ? (
        <JoinAsMe token={token} name={session.value.person.name} />
      ) : (
        <JoinAnew token={token} />
      )}
    </section>
  );
}

function JoinAsMe({ token, name }: { token: string; name: string }) {
  const form = useRef<HTMLFormElement>(null);
  const { busy, problems, submit } = useSubmit(form);
  const [, go] = useLocation();
  async function send(event: Event): Promise<void> {
    event.preventDefault();
    if (await submit({}, () => join({ token }))) go("/", { replace: true });
  }
  return (
    <form class="stack" ref={form} onSubmit={send} noValidate>
      <Trouble problems={problems} />
      <p>You are signed in as {name}. Your other households stay as they are.</p>
      <Button type="submit" tone="signal" wide busy={busy}>
        Join
      </Button>
    </form>
  );
}

async function signInAndJoin(token: string, email: string, password: string): Promise<Outcome<Me>> {
  const signed = await signIn(email, password);
  return signed.ok ? join({ token }) : signed;
}

function JoinAnew({ token }: { token: string }) {
  const form = useRef<HTMLFormElement>(null);
  const { busy, problems, submit } = useSubmit(form);
  const [, go] = useLocation();
  const [known, setKnown] = useState(false);
  const [now, set] = useState({ name: "", email: "", password: "" });
  const take = (field: keyof typeof now) => (text: string) => set({ ...now, [field]: text });
  async function send(event: Event): Promise<void> {
    event.preventDefault();
    const check = missing({
      ...(known
        ? {}
        : {
            name: [now.name, "Your name is missing. The others see it beside what you enter."] as [
              string,
              string,
            ],
          }),
      email: [now.email, "Your e-mail address is missing. Enter it as name@example.org."],
      password: [now.password, known ? KNOWN_PASSWORD : NEW_PASSWORD],
    });
    const { name, email, password } = now;
    const admitted = () =>
      known
        ? signInAndJoin(token, email.trim(), password)
        : join({ token, name, email: email.trim(), password });
    if (await submit(check, admitted)) go("/", { replace: true });
  }
  return (
    <form class="stack" ref={form} onSubmit={send} noValidate aria-label="Join">
      <Trouble problems={problems} />
      <CheckField label="I already have an account" checked={known} onInput={setKnown} />
      {known ? null : <NameField value={now.name} onInput={take("name")} problems={problems} />}
      <EmailField value={now.email} onInput={take("email")} problems={problems} />
      <PasswordField value={now.password} onInput={take("password")} problems={problems} chosen={!known} />
      <Button type="submit" tone="signal" wide busy={busy}>
        Join
      </Button>
    </form>
  );
}
