import { useState } from "preact/hooks";
import { length, showTyped } from "../../../format";
import type { SchemaForm } from "../../../forms/schema-form";
import { units } from "../../../platform/session/session";
import { forming } from "../../../records/live";
import { SchemaSheet } from "../../../ui/form/schema-sheet";
import { Button } from "../../../ui/parts";
import { place } from "../model";
import { placeForm, rounded } from "../model/place";
import { locate } from "./locate";
import { sayPlace } from "./words";

/** Where the yard is, to look at; the form opens over it. */
export function PlacePart() {
  const [open, setOpen] = useState(false);
  const { latitude_deg, longitude_deg, elevation_m, elevation_typed } = place.place.value;
  const known = latitude_deg !== undefined;
  return (
    <section class="section" aria-labelledby="place">
      <h2 id="place">Place</h2>
      {known ? (
        <dl class="facts">
          <dt>Yard</dt>
          <dd>{sayPlace(latitude_deg, longitude_deg)}</dd>
          {elevation_m === undefined ? null : (
            <>
              <dt>Height above the sea</dt>
              <dd>{elevation_typed ? showTyped(elevation_typed) : length(elevation_m, units.value).text}</dd>
            </>
          )}
        </dl>
      ) : (
        <p>Tell us roughly where the yard is. It decides the seasons.</p>
      )}
      <div>
        <Button tone={known ? "plain" : "signal"} onClick={() => setOpen(true)}>
          {known ? "Edit the place" : "Add the place"}
        </Button>
      </div>
      <SchemaSheet
        open={open}
        onClose={() => setOpen(false)}
        make={() => placeForm(forming, place)}
        below={{ longitude_deg: (form) => <FindPlace form={form} /> }}
      />
    </section>
  );
}

/** This phone may know where it is; it is asked at a tap. */
function FindPlace({ form }: { form: SchemaForm }) {
  const [busy, setBusy] = useState(false);
  const [says, setSays] = useState("");
  async function find(): Promise<void> {
    setBusy(true);
    setSays("Asking this phone …");
    const found = await locate();
    setBusy(false);
    if (typeof found === "string") return setSays(found);
    setSays("");
    form.change({ latitude_deg: String(rounded(found.lat)), longitude_deg: String(rounded(found.lon)) });
  }
  return (
    <div>
      <Button onClick={find} busy={busy}>
        Find my place
      </Button>
      <p aria-live="polite" class="quiet">
        {says}
      </p>
    </div>
  );
}
