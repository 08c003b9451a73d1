/** The forms that lay something over an entry. */
import { dateTime } from "../../../format";
import { zoneElsewhere } from "../../../format/moment";
import {
  createSchemaForm,
  type FormWords,
  type SchemaForm,
  type SchemaParts,
} from "../../../forms/schema-form";
import type { Entry } from "../../../records/entries";
import { kindOf } from "../../../records/log/registry";
import type { LogModel } from "./log";

export type Amending = "note" | "when" | "void";

export function noteWords(): FormWords {
  return { title: "Note for this entry", save: "Save the note", saved: "Note saved.", fields: { note: {} } };
}

export function whenWords(entry: Entry, system: SchemaParts["system"]): FormWords {
  const first = `First logged for ${dateTime(entry.firstAt, system())}. That stays in the history.`;
  const hint = [zoneElsewhere(entry.at), first].filter(Boolean).join(" ");
  const fields = { occurred_at: { label: "When", hint } };
  return { title: "When it was done", save: "Save", saved: "Date changed.", fields };
}

export function strikeWords(entry: Entry): FormWords {
  const parts = kindOf(entry.kind)?.parts?.whenCrossedOut;
  const says = "It will not count for due dates, stock or nitrogen. You can still read it and restore it.";
  return {
    title: "Cross out this entry?",
    says: [says, parts].filter(Boolean).join(" "),
    save: "Cross out",
    saved: "Crossed out. You can restore it.",
    fields: { why: { label: "Reason (optional)" } },
  };
}

interface Shape {
  words: (entry: Entry, system: SchemaParts["system"]) => FormWords;
  from?: (entry: Entry) => Record<string, unknown>;
  given?: Record<string, unknown>;
  write: (log: LogModel, entry: Entry, said: string) => ReturnType<LogModel["setNote"]>;
  field: string;
}

const SHAPES: Record<Amending, Shape> = {
  note: {
    words: noteWords,
    from: ({ note }) => ({ note }),
    write: (log, entry, said) => log.setNote(entry, said),
    field: "note",
  },
  when: {
    words: whenWords,
    from: ({ at }) => ({ occurred_at: at }),
    write: (log, entry, said) => log.setWhen(entry, said),
    field: "occurred_at",
  },
  void: {
    words: strikeWords,
    given: { void: true },
    write: (log, entry, said) => log.strike(entry, said),
    field: "why",
  },
};

export function createAmendForm(parts: SchemaParts, log: LogModel, what: Amending, entry: Entry): SchemaForm {
  const { words, from, given = {}, write, field } = SHAPES[what];
  return createSchemaForm(parts, {
    key: `${what}-form:${entry.id}`,
    t: "entry",
    group: what,
    words: words(entry, parts.system),
    given,
    ...(from ? { from: () => from(entry), amends: true } : {}),
    write: (value) => write(log, entry, String(value[field] ?? "")),
  });
}
