/** The pass of a tray test as it was caught, on its page in the log. */
import type { Entry } from "../../../records/entries";
import { nameOf } from "../../../records/log/named";
import { TrayPass } from "../../../ui/drawing";
import { Button } from "../../../ui/parts";

/** The pass of a tray test as it was caught, and the way to its spreader. */
export function TrayCaught({ entry: { body } }: { entry: Entry }) {
  const { catches_g, typed, spreader_id } = body;
  const caught = Array.isArray(catches_g) ? catches_g.filter((one) => typeof one === "number") : [];
  const texts: string[] = Array.isArray(typed?.catches) ? typed.catches.map(String) : caught.map(String);
  return (
    <section class="section" aria-labelledby="caught">
      <h2 id="caught">What the trays caught</h2>
      {caught.length ? <TrayPass catches={caught} texts={texts} /> : null}
      {nameOf(spreader_id) ? (
        <div>
          <Button href={`/shed/spreader/${spreader_id}`}>Open the spreader</Button>
        </div>
      ) : null}
    </section>
  );
}
