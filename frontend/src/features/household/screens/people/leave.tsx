import { useState } from "preact/hooks";
import { useLocation } from "wouter-preact";
import { session, signOut } from "../../../../platform/session/session";
import { standing } from "../../../../platform/store";
import { Button, clearToasts, Sheet } from "../../../../ui/parts";
import { sayCount } from "../counts";
import { ExportButton } from "../entries/export";

/** What a sign-out would leave on this phone unsent. */
function left(): string {
  const { waiting, photosWaiting, parked } = standing.value;
  return sayCount(waiting + parked.length, photosWaiting);
}

/** Signing out on this phone: with anything unsent it asks first, and what is unsent stays (S21). */
export function Leave() {
  const [asking, setAsking] = useState(false);
  const [, go] = useLocation();
  async function leave(): Promise<void> {
    setAsking(false);
    clearToasts();
    await signOut();
    go("/enter", { replace: true });
  }
  return (
    <section class="section" aria-labelledby="leave">
      <h2 id="leave">This phone</h2>
      <p class="quiet">
        Signed in as {session.value?.person.name}. After you sign out, someone else can sign in. Each person’s
        entries stay separate.
      </p>
      <div>
        <Button onClick={() => (left() ? setAsking(true) : leave())}>Sign out on this phone</Button>
      </div>
      <Sheet
        open={asking}
        onClose={() => setAsking(false)}
        title={`Not sent yet: ${left()}`}
        actions={
          <>
            <Button onClick={leave}>Sign out and keep them here</Button>
            <Button tone="signal" onClick={() => setAsking(false)}>
              Stay signed in
            </Button>
          </>
        }
      >
        <p>
          They stay on this phone and are sent when you sign in here again. Until then nobody else sees them.
        </p>
        <ExportButton />
      </Sheet>
    </section>
  );
}
