import { useState } from "preact/hooks";
import { download, fileName } from "../../../../platform/download";
import { exportAll } from "../../../../platform/store";
import { Button, Notice } from "../../../../ui/parts";
import { household } from "../../model";

/** The button alone, for wherever something might be given up. */
export function ExportButton({ children = "Export everything" }: { children?: string }) {
  const [problem, setProblem] = useState("");
  async function all(): Promise<void> {
    setProblem("");
    try {
      const all = JSON.stringify(await exportAll(), null, 1);
      download(fileName(household.household.value.name, ".json"), all, "application/json");
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
