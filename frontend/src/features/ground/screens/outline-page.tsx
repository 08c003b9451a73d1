/** The outline of a zone that is in the book already: drawn for the plans of its walks, or mended. */

import { useEffect, useMemo } from "preact/hooks";
import { useLocation } from "wouter-preact";
import { area } from "../../../format";
import { sayRefusal } from "../../../forms/refusal";
import { units } from "../../../platform/session/session";
import type { Row } from "../../../platform/store/types";
import { rowNow } from "../../../records/live";
import { DraftForm } from "../../../ui/form/draft-form";
import { Button, CheckField, Empty, Figure, Notice, Page } from "../../../ui/parts";
import { ground, outlines } from "../model";
import type { Outlines } from "../model/outline-draft";
import { OutlineFields } from "./measure/outline";
import "../style.css";

export function OutlinePage({ id }: { id: string }) {
  const editor = useMemo(() => outlines.edit(id), [id]);
  const live = useMemo(() => rowNow("zone", id), [id]);
  const row = live.value;
  useEffect(() => {
    if (row) void editor.open(row);
  }, [editor, row]);
  const back = `/ground/${id}`;
  return (
    <Page title="Outline of the zone" back={back} backLabel="Back to the zone">
      {row ? <Body id={id} editor={editor} row={row} back={back} /> : null}
      {!row && ground.loaded.value ? (
        <Empty title="Zone not found" action={<Button href="/ground">Back to Ground</Button>}>
          <p>This zone was removed, or has not reached this phone yet.</p>
        </Empty>
      ) : null}
    </Page>
  );
}

interface BodyProps {
  id: string;
  editor: ReturnType<Outlines["edit"]>;
  row: Row;
  back: string;
}

function Body({ id, editor, row, back }: BodyProps) {
  const [, go] = useLocation();
  const draft = editor.form.value;
  if (!draft) return null;
  const wrong = editor.errors.value["outline"];
  const drawn = draft.outline.points.length > 0;
  return (
    <DraftForm
      of={editor}
      base={row}
      class="stack stack--wide"
      save="Save the outline"
      saved="The outline is saved on this phone."
      onSaved={() => go(back, { replace: true })}
      leave={{ out: () => go(back), back: () => go(`/ground/${id}/outline`) }}
    >
      <OutlineFields
        outline={draft.outline}
        onInput={(outline) => editor.change({ outline })}
        error={drawn ? undefined : wrong}
      />
      <Areas editor={editor} row={row} />
      {wrong ? (
        <Notice kind="bad" alert>
          <p>{wrong}</p>
        </Notice>
      ) : null}
    </DraftForm>
  );
}

/** The area of the drawing beside the one on record; which of them the zone goes by. */
function Areas({ editor, row }: Pick<BodyProps, "editor" | "row">) {
  const answer = editor.answer.value;
  const draft = editor.form.value;
  const { area_m2 } = row.groups["ground"]?.value ?? {};
  if (!draft?.outline.points.length) return null;
  if (answer?.error) {
    return (
      <Notice kind="bad" alert title="This shape has no area">
        <p>{sayRefusal(answer.error, units.value)}</p>
      </Notice>
    );
  }
  return (
    <div class="stack">
      <div class="figures">
        <Figure
          label="Area of the drawing"
          value={answer?.value ? area(answer.value.area_m2, units.value).text : "…"}
          working={answer?.working}
          busy={editor.answer.busy.value}
        />
        <Figure label="Saved area" value={area_m2 ? area(area_m2, units.value).text : "not measured"} />
      </div>
      <CheckField
        label="Use the area of the drawing"
        hint="Leave this off to keep the measured area. The drawing is then only used to plan strips."
        checked={draft.takesArea}
        onInput={(takesArea) => editor.change({ takesArea })}
      />
    </div>
  );
}
