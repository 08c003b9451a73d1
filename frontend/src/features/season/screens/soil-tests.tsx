/** The newest soil tests, of the yard or of one zone, and the way to another. */
import { useState } from "preact/hooks";
import { Link } from "wouter-preact";
import { date } from "../../../format";
import { createEntryForm } from "../../../forms/entry-form";
import { units } from "../../../platform/session/session";
import { forming, store } from "../../../records/live";
import { SchemaSheet } from "../../../ui/form/schema-sheet";
import { Button } from "../../../ui/parts";
import { soilTest } from "../entries/soil-test";
import { newestTests } from "../model/soil-tests";

export function SoilTests({ zoneId }: { zoneId?: string }) {
  const [open, setOpen] = useState(false);
  const found = newestTests(store, zoneId);
  const { form } = soilTest;
  return (
    <section class="section" aria-labelledby="soil-tests">
      <h2 id="soil-tests">Soil tests</h2>
      {found.length ? (
        <ul class="lines">
          {found.map((one) => (
            <li class="line" key={one.id}>
              <Link className="line__main" href={`/log/${one.id}`}>
                <span class="line__title">{date(one.at.slice(0, 10))}</span>
                <span class="line__facts">{soilTest.brief(one, units.value)}</span>
              </Link>
            </li>
          ))}
        </ul>
      ) : (
        <p>
          {store.loaded("entry").value ? "None yet. A test every 3 years says what the soil needs." : "…"}
        </p>
      )}
      <div>
        <Button onClick={() => setOpen(true)}>Add a soil test</Button>
      </div>
      {form ? (
        <SchemaSheet
          open={open}
          onClose={() => setOpen(false)}
          make={() =>
            createEntryForm(forming, {
              kind: "soil_test",
              words: form,
              from: () => (zoneId ? { zone_ids: [zoneId] } : {}),
            })
          }
        />
      ) : null}
    </section>
  );
}
