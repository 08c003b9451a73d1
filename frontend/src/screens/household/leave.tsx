import { useState } from "preact/hooks";
import { useLocation } from "wouter-preact";
import { isoDay } from "../../format";
import { household } from "../../models";
import { signOut, waiting } from "../../models/session";
import { Button, clearToasts, Notice, Sheet } from "../../parts";
import { exportAll } from "../../store";

/** Hands a text to the browser as a file to keep. */
function download(name: string, text: string): void {
  const url = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  const link = Object.assign(document.createElement("a"), { href: url, download: name });
  link.click();
  // The download has begun once the click returns; the address is let go a little later.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

function fileName(): string {
  const name = household.household.value.name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-|-$/g, "");
  return `swardbook-${name || "book"}-${isoDay()}.json`;
}

export function Export() {
  const [problem, setProblem] = useState("");
  async function all(): Promise<void> {
    setProblem("");
    try {
      download(fileName(), JSON.stringify(await exportAll(), null, 1));
    } catch {
      setProblem("The copy could not be made on this phone. Free some room and try again.");
    }
  }
  return (
    <section class="section" aria-labelledby="export">
      <h2 id="export">Your copy</h2>
      <p class="quiet">
        Everything this phone holds of the book, waiting entries included, as one JSON file. Works without
        signal.
      </p>
      <div>
        <Button onClick={all}>Save a copy of everything</Button>
      </div>
      <div aria-live="polite">{problem ? <Notice kind="bad">{problem}</Notice> : null}</div>
    </section>
  );
}

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
      <h2 id="leave">Leave</h2>
      <div>
        <Button onClick={() => (waiting.value ? setAsking(true) : leave())}>Sign out on this phone</Button>
      </div>
      <Sheet
        open={asking}
        onClose={() => setAsking(false)}
        title={
          waiting.value === 1 ? "One entry is not sent yet" : `${waiting.value} entries are not sent yet`
        }
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
          What waits stays on this phone and is sent when you sign in here again. Until then nobody else sees
          it.
        </p>
      </Sheet>
    </section>
  );
}
