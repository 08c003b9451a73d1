/**
 * The one form of this app. What is typed is kept as a draft until it is saved or discarded, so that a call or a dead
 * battery loses nothing; a save is one op of the book, and ends in one of three ways: saved, with its way back; wrong,
 * with what is wrong by field; failed, with the sentence that says so.
 */
import { computed, type ReadonlySignal, signal } from "@preact/signals";
import type { Store } from "../platform/store/types";
import { allRead } from "./amount";
import { createSaving } from "./saving";

/** What is wrong, by field. */
export type Errors = Record<string, string>;

export interface FormParts {
  store: Pick<Store, "drafts">;
  /** Resolves when the person's units are known; at once where none is handed in. */
  ready?: (() => Promise<void>) | undefined;
}

/** What is typed as it was read: what it comes to, and what is wrong with it. */
export interface Read<V> {
  value: V;
  errors: Errors;
  /** What is wrong before the first try to save already: what cannot be read. A blank form is no mistake. */
  unreadable?: Errors;
}

/** What a form says, and what it said when it was opened. */
export interface Draft<F> {
  form: F;
  opened: F;
}

export interface Saved {
  /** Takes it back; absent where nothing was written. */
  back?: () => Promise<void>;
}

export interface FormShape<F extends object, V, S extends Saved, B> {
  /** Under which the draft is kept. */
  key: string;
  /** What it says when it is opened on what stands, nothing typed yet. */
  fresh: (base: B) => F | Promise<F>;
  read: (form: F) => Read<V>;
  /** Writes it; where it is refused after all, says so by field and returns nothing. */
  write: (
    value: V,
    draft: Draft<F>,
    base: B,
    refuse: (errors: Errors) => undefined,
  ) => Promise<S | undefined>;
  /** What an older build kept, with the parts of a field that came since. */
  whole?: (kept: F, fresh: F) => F;
  /** What is kept beside the draft and goes with it; returns the way back. */
  drop?: (draft: Draft<F>) => Promise<(() => Promise<void>) | undefined>;
}

const same = (one: unknown, other: unknown): boolean => JSON.stringify(one) === JSON.stringify(other);

/** A draft of an older build is the form alone: all of it counts as typed. */
function draftIn<F>(kept: unknown): Partial<Draft<F>> {
  const found = kept as Partial<Draft<F>> | undefined;
  if (found?.form && typeof found.form === "object") return found;
  return found ? { form: found as F } : {};
}

/** What was typed over what it would start with now: a field nobody touched starts as it does today. */
function resumed<F extends object>(
  fresh: F,
  kept: unknown,
  whole: (kept: F, fresh: F) => F = (one) => one,
): Draft<F> {
  const found = draftIn<F>(kept);
  const [form, opened] = [found.form && whole(found.form, fresh), found.opened && whole(found.opened, fresh)];
  const typed = Object.entries(form ?? {}).filter(([name, is]) => !same(is, opened?.[name as keyof F]));
  const was = typed.flatMap(([name]) => (opened && name in opened ? [[name, opened[name as keyof F]]] : []));
  return {
    form: { ...fresh, ...(Object.fromEntries(typed) as Partial<F>) },
    opened: { ...fresh, ...(Object.fromEntries(was) as Partial<F>) },
  };
}

export interface Form<F extends object, S extends Saved, B, V = unknown> {
  /** Undefined until the draft was read. */
  form: ReadonlySignal<F | undefined>;
  /** What it said when it was opened. */
  opened: ReadonlySignal<F | undefined>;
  /** What was typed before it was opened this time is in it. */
  resumed: ReadonlySignal<boolean>;
  tried: ReadonlySignal<boolean>;
  /** A save is under way. */
  busy: ReadonlySignal<boolean>;
  /** Why the last save failed. */
  problem: ReadonlySignal<string | undefined>;
  read: ReadonlySignal<Read<V> | undefined>;
  /** As they are shown: before the first try only what cannot be read, after it everything. */
  errors: ReadonlySignal<Errors>;
  open(base: B): Promise<void>;
  change(part: Partial<F>): void;
  /** Throws away what was typed; returns what brings it back, where anything was. */
  discard(base: B): Promise<(() => Promise<void>) | undefined>;
  /** Nothing where it was not saved: `errors` or `problem` then say why. It never rejects. */
  save(base: B): Promise<S | undefined>;
}

export function createForm<F extends object, V, S extends Saved, B>(
  { store: { drafts }, ready }: FormParts,
  shape: FormShape<F, V, S, B>,
): Form<F, S, B, V> {
  const { key } = shape;
  const draft = signal<Draft<F> | undefined>(undefined);
  const [isResumed, tried] = [signal(false), signal(false)];
  const refused = signal<Errors>({});
  const saving = createSaving();
  const read = computed(() => (draft.value ? shape.read(draft.value.form) : undefined));
  const errors = computed<Errors>(() => {
    const now = (tried.value ? read.value?.errors : read.value?.unreadable) ?? {};
    return { ...now, ...refused.value };
  });

  async function open(base: B): Promise<void> {
    await ready?.();
    if (draft.peek()) return;
    const [fresh, kept] = [await shape.fresh(base), await drafts.get<unknown>(key)];
    if (draft.peek()) return;
    isResumed.value = kept !== undefined;
    draft.value = resumed(fresh, kept, shape.whole);
  }

  function change(part: Partial<F>): void {
    if (!draft.value) return;
    draft.value = { ...draft.value, form: { ...draft.value.form, ...part } };
    refused.value = {};
    void drafts.put(key, draft.value).catch(() => undefined);
  }

  async function discard(base: B): Promise<(() => Promise<void>) | undefined> {
    const kept = await drafts.get<unknown>(key);
    const typed = draft.peek();
    await drafts.remove(key);
    const dropped = typed && (await shape.drop?.(typed));
    const fresh = await shape.fresh(base);
    draft.value = { form: fresh, opened: fresh };
    isResumed.value = false;
    tried.value = false;
    refused.value = {};
    if (kept === undefined && !dropped) return undefined;
    return async () => {
      await dropped?.();
      if (kept === undefined) return;
      await drafts.put(key, kept);
      draft.value = resumed(fresh, kept, shape.whole);
      isResumed.value = true;
    };
  }

  async function write(base: B): Promise<S | undefined> {
    const [now, value] = [draft.peek(), read.peek()];
    if (!now || !value || Object.keys(value.errors).length) return undefined;
    const saved = await shape.write(value.value, now, base, (wrong) => {
      refused.value = wrong;
      return undefined;
    });
    if (!saved) return undefined;
    // It is in the book: a draft that cannot be removed now is no reason to save it twice.
    await drafts.remove(key).catch(() => undefined);
    const { back } = saved;
    // Taken back, what was typed is a draft again: nothing is lost by a slip on “Undo”.
    return back ? { ...saved, back: () => back().then(() => drafts.put(key, now)) } : saved;
  }

  async function save(base: B): Promise<S | undefined> {
    let saved: S | undefined;
    tried.value = true;
    await saving.run(async () => {
      // What was typed last with its unit may still be with the engine.
      await allRead(() => read.peek());
      saved = await write(base);
    });
    return saved;
  }

  return {
    form: computed(() => draft.value?.form),
    opened: computed(() => draft.value?.opened),
    resumed: isResumed,
    tried,
    busy: saving.busy,
    problem: saving.problem,
    read,
    errors,
    open,
    change,
    discard,
    save,
  };
}
