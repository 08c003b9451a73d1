/** A sheet with the form of a simple record: nothing of a kind of record stands here. */
import { type ComponentChildren, Fragment } from "preact";
import type { Filled } from "../../forms/fields";
import type { AskedField, SchemaDraft, SchemaForm } from "../../forms/schema-form";
import { Button, type Tone } from "../parts/button";
import { Notice } from "../parts/notice";
import { Sheet } from "../parts/sheet";
import { DraftForm, useForm } from "./draft-form";
import { FieldInput, type FieldInputProps } from "./field-input";

interface SchemaSheetProps {
  open: boolean;
  onClose: () => void;
  /** Makes the form as the sheet opens. */
  make: () => SchemaForm;
  /** What is said below a field, by its name. */
  below?: Readonly<Record<string, (form: SchemaForm) => ComponentChildren>>;
  /** Drawn in a field's place, where its input is more than the contract can say. */
  instead?: Readonly<Record<string, (form: SchemaForm, input: FieldInputProps) => ComponentChildren>>;
  /** What else changes with a field. */
  also?: (name: string, value: Filled, form: SchemaForm) => SchemaDraft;
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

type Shared = "below" | "instead" | "also" | "children" | "tone";

interface SchemaFieldsProps extends Pick<SchemaSheetProps, Shared> {
  form: SchemaForm;
  onSaved: () => void;
}

/** The fields of a form made from the contract, and its button. */
export function SchemaFields(props: SchemaFieldsProps) {
  const { form, onSaved, below = {}, instead = {}, also, children, tone = "signal" } = props;
  const { words } = form;
  const fields = form.asked.value;
  const nothing = fields.find(({ words: { first }, ...field }) => first && !form.things(field).length);
  if (nothing?.words.first) return <Before {...nothing.words.first} />;
  return (
    <DraftForm of={form} base={undefined} save={words.save} saved={words.saved} onSaved={onSaved} tone={tone}>
      {words.says ? <p>{words.says}</p> : null}
      {rowsOf(fields).map((row) => (
        <Fragments key={row[0]?.name} form={form} row={row} below={below} instead={instead} also={also} />
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
  instead: NonNullable<SchemaSheetProps["instead"]>;
  also: SchemaSheetProps["also"];
}

function Fragments({ form, row, below, instead, also }: RowProps) {
  const { errors, change } = form;
  const values = form.form.value ?? {};
  const inputs = row.map((field) => {
    const input: FieldInputProps = {
      field,
      label: field.label,
      words: field.words,
      value: values[field.name] ?? "",
      error: errors.value[field.name],
      onInput: (value) => change({ [field.name]: value, ...also?.(field.name, value, form) }),
      ...(field.way.startsWith("thing") ? { things: form.things(field) } : {}),
    };
    const own = instead[field.name];
    return <Fragment key={field.name}>{own ? own(form, input) : <FieldInput {...input} />}</Fragment>;
  });
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
