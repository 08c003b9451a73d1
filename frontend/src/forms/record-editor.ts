/** A record being entered or changed. Every keystroke is kept as a draft until saved or thrown away. */
import { computed, signal } from "@preact/signals";
import type { System } from "../format";
import type { Row, Store } from "../platform/store/types";
import type { UnitsSet } from "../records/kinds";
import { needsMending } from "../records/reading";
import { allRead } from "./amount";

export type Errors = Record<string, string>;
export type Groups = Record<string, Record<string, unknown>>;

export type Check = (t: string, group: string, value: object, system: System, set?: UnitsSet) => Errors;

export interface EditorParts {
  store: Store;
  system: () => System;
  /** Resolves when `system` is the person's own; at once where none is handed in. */
  ready?: () => Promise<void>;
  check: Check;
}

/** How one sort of record goes between its form and its groups. */
export interface Shape<F> {
  t: "product" | "spreader";
  blank: (system: System) => F;
  formOf: (row: Row, system: System) => F;
  /** `set` takes the unit each field is set to, in which its limits are said. */
  groupsOf: (form: F, errors: Errors, set?: Record<string, string>) => Groups;
  /** Groups checked even while empty, since a record cannot do without them. */
  needed: readonly string[];
}

/** What is kept of an unfinished form: what it says, and what it said when it was opened. */
interface Draft<F> {
  form: F;
  opened: F;
}

/** A group as it will stand: the form's fields over whatever else it holds, cleared fields gone. */
function over(standing: object | undefined, before: object, after: object): object {
  const rest = Object.entries(standing ?? {}).filter(([name]) => !(name in before));
  return { ...Object.fromEntries(rest), ...after };
}

export function createRecordEditor<F extends object>(
  { store, system, ready, check }: EditorParts,
  { t, blank, formOf, groupsOf, needed }: Shape<F>,
  id: string | null,
) {
  const key = `${t}-form:${id ?? "new"}`;
  const form = signal<F | undefined>(undefined);
  const opened = signal<F | undefined>(undefined);
  const resumed = signal(false);
  const tried = signal(false);
  const saving = signal(false);

  async function open(row: Row | undefined): Promise<void> {
    await ready?.();
    if (form.peek()) return;
    const fresh = row ? formOf(row, system()) : blank(system());
    const kept = await store.drafts.get<Draft<F>>(key);
    if (form.peek()) return;
    opened.value = kept?.opened ?? fresh;
    resumed.value = kept !== undefined;
    // A form left by an older build lacks the fields that came since.
    form.value = { ...fresh, ...kept?.form };
  }

  function change(part: Partial<F>): void {
    if (!form.value || !opened.value) return;
    form.value = { ...form.value, ...part };
    void store.drafts
      .put(key, { form: form.value, opened: opened.value } satisfies Draft<F>)
      .catch(() => undefined);
  }

  /** Throws the half-filled form away; what is in the book stays as it is. */
  async function discard(row: Row | undefined): Promise<void> {
    await store.drafts.remove(key);
    form.value = row ? formOf(row, system()) : blank(system());
    opened.value = form.value;
    resumed.value = false;
    tried.value = false;
  }

  const read = computed(() => {
    const errors: Errors = {};
    const set: Record<string, string> = {};
    const groups = form.value ? groupsOf(form.value, errors, set) : {};
    const unreadable = { ...errors };
    for (const [group, value] of Object.entries(groups)) {
      if (needed.includes(group) || Object.keys(value).length)
        for (const [field, message] of Object.entries(check(t, group, value, system(), set)))
          errors[field] ??= message;
    }
    return { groups, errors, unreadable };
  });

  function changed(row: Row | undefined): Record<string, object> {
    const before = opened.value ? groupsOf(opened.value, {}) : {};
    const set: Record<string, object> = {};
    for (const [group, value] of Object.entries(read.value.groups)) {
      const was = row ? (before[group] ?? {}) : {};
      if (needsMending(row, group) || JSON.stringify(value) !== JSON.stringify(was))
        set[group] = over(row?.groups[group]?.value, was, value);
    }
    return set;
  }

  /** Saves what changed and nothing else; undefined when something is wrong (the errors then say what). */
  async function save(row: Row | undefined): Promise<string | undefined> {
    tried.value = true;
    await allRead(() => read.value);
    if (!form.value || saving.value || Object.keys(read.value.errors).length) return undefined;
    saving.value = true;
    try {
      const own = row?.id ?? store.newId();
      const set = changed(row);
      if (Object.keys(set).length) await store.save([{ t, id: own, set }]);
      // It is in the book: a draft that cannot be removed now is no reason to save it twice.
      await store.drafts.remove(key).catch(() => undefined);
      return own;
    } finally {
      saving.value = false;
    }
  }

  return {
    form,
    resumed,
    tried,
    saving,
    groups: computed(() => read.value.groups),
    /** Before the first try to save, only what cannot be read at all; after it, everything. */
    errors: computed<Errors>(() => (tried.value ? read.value.errors : read.value.unreadable)),
    open,
    change,
    discard,
    save,
  };
}
