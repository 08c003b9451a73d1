/** A sheet with the form of a simple record: nothing of a kind of record stands here. */
import type { ComponentChildren } from "preact";
import type { AskedField, SchemaForm } from "../../forms/schema-form";
import { Button, type Tone } from "../parts/button";
import { Notice } from "../parts/notice";
import { Sheet } from "../parts/sheet";
import { DraftForm, useForm } from "./draft-form";
import { FieldInput } from "./field-input";

interface SchemaSheetProps {
  open: boolean;
  onClose: () => void;
  /** Makes the form as the sheet opens. */
  make: () => SchemaForm;
  /** What is said below a field, by its name. */
  below?: Readonly<Record<string, (form: SchemaForm) => ComponentChildren>>;
  /** Below all fields. */
  children?: ComponentChildren;
  tone?: Tone;
}

export function SchemaSheet({ open, onClose, make, children, ...more }: SchemaSheetProps) {
  const form = useForm(make, open, undefined);
  return (
    <Sheet open={open} onClose={onClose} title={form?.words.title ?? ""}>
      {form ? (
        <SchemaFields form={form} onSaved={onClose} {...more}>
          {children}
        </SchemaFields>
      ) : null}
    </Sheet>
  );
}

interface SchemaFieldsProps extends Pick<SchemaSheetProps, "below" | "children" | "tone"> {
  form: SchemaForm;
  onSaved: () => void;
}

/** The fields of a form made from the contract, and its button. */
export function SchemaFields({ form, onSaved, below = {}, children, tone = "signal" }: SchemaFieldsProps) {
  const { words } = form;
  const fields = form.asked.value;
  const nothing = fields.find(({ words: { first }, ...field }) => first && !form.things(field).length);
  if (nothing?.words.first) return <Before {...nothing.words.first} />;
  return (
    <DraftForm of={form} base={undefined} save={words.save} saved={words.saved} onSaved={onSaved} tone={tone}>
      {words.says ? <p>{words.says}</p> : null}
      {rowsOf(fields).map((row) => (
        <Fragments key={row[0]?.name} form={form} row={row} below={below} />
      ))}
      {children}
    </DraftForm>
  );
}

/** Fields side by side, those that say so. */
function rowsOf(fields: readonly AskedField[]): AskedField[][] {
  const rows: AskedField[][] = [];
  for (const field of fields) {
    const last = rows.at(-1);
    if (field.words.beside && last) last.push(field);
    else rows.push([field]);
  }
  return rows;
}

interface RowProps {
  form: SchemaForm;
  row: readonly AskedField[];
  below: NonNullable<SchemaSheetProps["below"]>;
}

function Fragments({ form, row, below }: RowProps) {
  const { errors, change } = form;
  const values = form.form.value ?? {};
  const inputs = row.map((field) => (
    <FieldInput
      key={field.name}
      field={field}
      label={field.label}
      words={field.words}
      value={values[field.name] ?? ""}
      error={errors.value[field.name]}
      onInput={(value) => change({ [field.name]: value })}
      {...(field.way.startsWith("thing") ? { things: form.things(field) } : {})}
    />
  ));
  return (
    <>
      {row.length > 1 ? <div class="fields-2">{inputs}</div> : inputs}
      {row.map(({ name }) => below[name]?.(form))}
    </>
  );
}

function Before({ says, does, href, button }: { says: string; does: string; href: string; button: string }) {
  return (
    <Notice title={says}>
      <p>{does}</p>
      <Button href={href}>{button}</Button>
    </Notice>
  );
}
