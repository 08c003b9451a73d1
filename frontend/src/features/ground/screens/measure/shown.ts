/** What the fields of the zone form are handed. */
import type { ZoneEditor } from "../../model/ground";
import { type Errors, type Measures, SHAPES, type ZoneForm } from "../../model/zone-form";

export interface MeasureProps {
  editor: ZoneEditor;
  form: ZoneForm;
}

export interface WayProps {
  editor: ZoneEditor;
  measures: Measures;
  set: (part: Partial<Measures>) => void;
}

export const SHAPE_CHOICES = Object.entries(SHAPES).map(([value, { says }]) => ({ value, label: says }));

/** Shown once a save was tried: a blank form is no mistake. */
export const shownErrors = (editor: ZoneEditor): Errors => editor.errors.value;
