import { useLocation } from "wouter-preact";
import type { Recorded } from "../../forms/recorded";
import { Button } from "./button";
import { orUndo } from "./undo";

/** The end of a page of something in the shed: the way to take it out, and back. */
export function TakeOut({ name, takeOut }: { name: string; takeOut: () => Promise<Recorded> }) {
  const [, go] = useLocation();
  async function remove(): Promise<void> {
    if (await orUndo(takeOut, `${name} removed from the shed.`)) go("/shed");
  }
  return (
    <section class="section" aria-labelledby="take-out">
      <h2 id="take-out">Remove</h2>
      <p class="quiet">Its log entries stay.</p>
      <div>
        <Button tone="danger" onClick={remove}>
          Remove from the shed
        </Button>
      </div>
    </section>
  );
}
