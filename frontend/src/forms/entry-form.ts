/** The form of a simple kind of log entry: its fields by the contract, the zones, the moment and a note where asked for. */
import { isoMoment } from "../format";
import type { Taken } from "../platform/photos/take";
import type { NewEntry } from "../records/log/writing";
import { createWriting, type WritingParts } from "../records/log/writing";
import type { Recorded } from "./recorded";
import { createSchemaForm, type FormWords, type SchemaForm, type SchemaParts } from "./schema-form";

export interface EntryParts extends SchemaParts, WritingParts {}

export interface EntryShape {
  kind: string;
  words: FormWords;
  /** What it starts with, beside the present moment. */
  from?: () => Record<string, unknown>;
  /** Known already, such as the product of its own page. */
  given?: Record<string, unknown>;
  /** Where more than the log is told of it. */
  add?: (entry: NewEntry) => Promise<Recorded>;
}

/** Photos of an entry that is still being written. */
export const photosKey = (kind: string): string => `${kind}-form:photos`;

export function createEntryForm(parts: EntryParts, shape: EntryShape): SchemaForm {
  const { kind, words, from = () => ({}), given = {} } = shape;
  const { drafts } = parts.store;
  const add = shape.add ?? createWriting(parts).add;
  const key = photosKey(kind);
  const taken = async () => (words.photos && (await drafts.get<Taken[]>(key))) || [];
  const now = (): object => ("occurred_at" in words.fields ? { occurred_at: isoMoment() } : {});

  async function write({ zone_ids, occurred_at, note, kind: _, ...facts }: Record<string, unknown>) {
    const photos = await taken();
    const zoneIds = (zone_ids ?? []) as readonly string[];
    const at = occurred_at as string | undefined;
    const made = await add({ kind, facts, zoneIds, at, note: note as string | undefined, taken: photos });
    if (!photos.length) return made;
    await drafts.remove(key).catch(() => undefined);
    return { ...made, back: () => made.back().then(() => drafts.put(key, photos)) };
  }

  async function drop(): Promise<(() => Promise<void>) | undefined> {
    const photos = await taken();
    if (!photos.length) return undefined;
    await drafts.remove(key);
    return () => drafts.put(key, photos);
  }

  return createSchemaForm(parts, {
    key: `${kind}-form:${Object.values(given).join("+") || "new"}`,
    t: "entry",
    group: kind,
    words,
    from: () => ({ ...now(), ...from() }),
    given: { kind, ...given },
    write,
    drop,
  });
}
