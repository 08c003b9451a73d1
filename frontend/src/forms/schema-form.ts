/**
 * The form of a simple record, made from the contract: which fields, of what sort, in which unit and within which limits
 * stands in `kinds.gen.ts`; a small table of words says the rest. A new simple kind needs no screen of its own.
 */
import { computed, type ReadonlySignal } from "@preact/signals";
import type { System, Typed } from "../format";
import type { Kind, Row, Store } from "../platform/store/types";
import { checkGroup, fieldsOf } from "../records/kinds";
import { nameIn } from "../records/log/names";
import { type Filled, type FormField, fieldIn, leaveOut, startOf, writeField } from "./fields";
import { createForm, type Errors, type Form, type Read, type Saved } from "./form";

/** What the contract does not say of a field. */
export interface FieldWords {
  /** Where the contract's own would not do on a screen. */
  label?: string;
  hint?: string;
  /** What to do where it is missing; it must then be given. */
  missing?: string;
  /** Of each choice; as the contract writes it where none is said. */
  choices?: Readonly<Record<string, string>>;
  /** Said for nothing chosen; nothing is offered as chosen where this is absent and the field is required. */
  none?: string;
  /** Beside the field before it, where there is room. */
  beside?: true;
  /** Asked for only where another field has one of these choices; else it is left out. */
  only?: { of: string; is: readonly string[] };
  /** An amount that it starts with where nothing stands. */
  usual?: Readonly<Record<System, string>>;
  lines?: true;
  /** Where there is nothing to choose from: what to do first. */
  first?: { says: string; does: string; href: string; button: string };
}

export interface FormWords {
  title: string;
  /** Above the fields, where something must be known first. */
  says?: string;
  /** On the button, and once it is done. */
  save: string;
  saved: string;
  /** The fields asked for, in this order. */
  fields: Readonly<Record<string, FieldWords>>;
  /** Fields that start as they were saved the last time. */
  again?: readonly string[];
  photos?: true;
}

export interface AskedField extends FormField {
  label: string;
  words: FieldWords;
}

export interface SchemaParts {
  store: Store;
  system: () => System;
  ready?: (() => Promise<void>) | undefined;
}

type Value = Record<string, unknown>;
export type SchemaDraft = Record<string, Filled>;

export interface SchemaShape<B> {
  /** Under which the draft is kept. */
  key: string;
  t: Kind;
  /** The group, or for a body the kind of entry. */
  group: string;
  words: FormWords;
  /** What stands: it is what the form starts from, and what is not asked for is checked with it. */
  from?: () => Value;
  /** Fields that are known already: checked and written, not asked for. */
  given?: Value;
  /** It stands already: saved as it is, there is nothing to write. */
  amends?: true;
  /** What no limit of the contract says. */
  more?: (value: Value) => Errors;
  write: (value: Value, base: B) => Promise<Saved | undefined>;
  drop?: () => Promise<(() => Promise<void>) | undefined>;
}

export interface SchemaForm<B = undefined> extends Form<SchemaDraft, Saved, B, Value> {
  words: FormWords;
  fields: readonly AskedField[];
  /** What there is to choose from, by the kind of record. */
  things: (field: FormField) => readonly { value: string; label: string }[];
  /** Of its fields, those that are asked for by what is chosen now. */
  asked: ReadonlySignal<readonly AskedField[]>;
}

/** "product_id" → "product", "zone_ids" → "zone". */
const kindNamed = (name: string): Kind => name.replace(/_ids?$/, "");

function askedOf(t: Kind, group: string, words: FormWords): AskedField[] {
  const fields = t === "entry" ? { ...fieldsOf(t, "note"), ...fieldsOf(t, group) } : fieldsOf(t, group);
  return Object.entries(words.fields).map(([name, own]) => {
    const limits = fields[name];
    if (!limits) throw new Error(`the contract has no ${t}.${group}.${name}`);
    return { ...fieldIn(fields, name, limits), label: own.label ?? limits.label, words: own };
  });
}

const isAsked = ({ words: { only } }: AskedField, form: SchemaDraft): boolean =>
  !only || only.is.includes(String(form[only.of] ?? ""));

function isBlank(value: unknown): boolean {
  return value === undefined || value === "" || (Array.isArray(value) && value.length === 0);
}

export function createSchemaForm<B = undefined>(
  { store, system, ready }: SchemaParts,
  shape: SchemaShape<B>,
): SchemaForm<B> {
  const { key, t, group, words, from = () => ({}), given = {}, more, write, drop } = shape;
  const fields = askedOf(t, group, words).filter(({ name }) => !(name in given));
  const rowsOf = Object.fromEntries(
    ["zone", "product", "spreader", "mower"].map((kind) => [kind, store.rows(kind)]),
  );
  const things = (field: FormField) =>
    (rowsOf[kindNamed(field.name)]?.value ?? []).map((row: Row) => ({
      value: row.id,
      label: nameIn(row) ?? `Unnamed ${row.t}`,
    }));

  function first(field: AskedField, value: Value): Filled {
    const start = startOf(value, field, system());
    const { limits, way, words: own } = field;
    if (own.usual && way === "amount" && value[field.name] === undefined)
      return { ...(start as Typed), amount: own.usual[system()] };
    if (start !== "" || own.none !== undefined) return start;
    if (way === "thing" && limits.required) return things(field)[0]?.value ?? "";
    return way === "choice" ? (limits.choices?.[0] ?? "") : "";
  }

  function read(form: SchemaDraft): Read<Value> {
    const value: Value = { ...from(), ...given };
    const unreadable: Errors = {};
    const set: Record<string, string> = {};
    for (const field of fields) {
      if (!isAsked(field, form)) {
        leaveOut(value, field);
        continue;
      }
      const now = form[field.name] ?? startOf({}, field, system());
      if (field.way === "amount") set[field.name] = (now as { unit: string }).unit;
      const wrong = writeField(value, field, now, system() === "metric");
      if (wrong) unreadable[field.name] = wrong;
    }
    const asked = fields.filter((field) => isAsked(field, form));
    const missing = asked.flatMap(({ name, words: own }) =>
      own.missing && isBlank(value[name]) && !unreadable[name] ? [[name, own.missing]] : [],
    );
    const errors: Errors = { ...checked(value, set), ...more?.(value), ...Object.fromEntries(missing) };
    return { value, errors: { ...errors, ...unreadable }, unreadable: written(form, unreadable) };
  }

  /** By the contract; of what is not asked for only what is known. */
  function checked(value: Value, set: Record<string, string>): Errors {
    const { note, ...own } = value;
    const whole = t === "entry" && group !== "note" ? own : value;
    const noted = whole === own && note !== undefined ? checkGroup(t, "note", { note }, system()) : {};
    const found = { ...checkGroup(t, group, whole, system(), set), ...noted };
    const asked = new Set(fields.map(({ name }) => name));
    return Object.fromEntries(Object.entries(found).filter(([name]) => asked.has(name)));
  }

  /** Only of fields that hold something: a blank one is no mistake yet. */
  function written(form: SchemaDraft, wrong: Errors): Errors {
    return Object.fromEntries(
      Object.entries(wrong).filter(([name]) => {
        const now = form[name];
        return typeof now === "string" ? now.trim() !== "" : now !== undefined;
      }),
    );
  }

  const again = fields.filter(({ name }) => words.again?.includes(name));
  const againKey = `${t}.${group}-form:last`;

  /** What was saved the last time; of what is chosen, only what is still there. */
  async function lastTime(): Promise<SchemaDraft> {
    const last = again.length ? await store.drafts.get<SchemaDraft>(againKey) : undefined;
    const kept = again.flatMap((field) => {
      const is = last?.[field.name];
      if (is === undefined) return [];
      if (field.way !== "things") return [[field.name, is] as const];
      const there = new Set(things(field).map(({ value }) => value));
      return [[field.name, (is as readonly string[]).filter((id) => there.has(id))] as const];
    });
    return Object.fromEntries(kept);
  }

  /** It is saved already: where this cannot be kept, the next one starts blank. */
  async function keepAgain(now: SchemaDraft): Promise<void> {
    const kept = again.map(({ name }) => [name, now[name]]);
    if (kept.length) await store.drafts.put(againKey, Object.fromEntries(kept)).catch(() => undefined);
  }

  const form = createForm<SchemaDraft, Value, Saved, B>(
    { store, ready },
    {
      key,
      fresh: async () => {
        const value = { ...from(), ...given };
        const start = Object.fromEntries(fields.map((field) => [field.name, first(field, value)]));
        return { ...start, ...(await lastTime()) };
      },
      read,
      write: async (value, { form: now, opened }, base) => {
        if (shape.amends && JSON.stringify(now) === JSON.stringify(opened)) return {};
        const made = await write(value, base);
        if (made) await keepAgain(now);
        return made;
      },
      ...(drop ? { drop } : {}),
    },
  );
  const asked = computed(() => fields.filter((field) => isAsked(field, form.form.value ?? {})));
  return { ...form, words, fields, things, asked };
}
