import { useState } from "preact/hooks";
import { isoDay } from "../../../../format";
import { exportAll } from "../../../../platform/store";
import { Button, Notice } from "../../../../ui/parts";
import { household } from "../../model";

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
  return `evenfall-${name || "book"}-${isoDay()}.json`;
}

/** The button alone, for wherever something might be given up. */
export function ExportButton({ children = "Export everything" }: { children?: string }) {
  const [problem, setProblem] = useState("");
  async function all(): Promise<void> {
    setProblem("");
    try {
      download(fileName(), JSON.stringify(await exportAll(), null, 1));
    } catch {
      setProblem("Not saved. Free some space on this phone and try again.");
    }
  }
  return (
    <div class="stack stack--tight">
      <div>
        <Button onClick={all}>{children}</Button>
      </div>
      <div aria-live="polite">{problem ? <Notice kind="bad">{problem}</Notice> : null}</div>
    </div>
  );
}

export function Export() {
  return (
    <section class="section" aria-labelledby="export">
      <h2 id="export">Your copy</h2>
      <p class="quiet">Save everything on this phone as one JSON file. No signal needed.</p>
      <ExportButton>Save a copy of everything</ExportButton>
    </section>
  );
}
