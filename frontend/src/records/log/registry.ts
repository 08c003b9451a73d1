/**
 * What features say of themselves: the kinds of log entry they bring, their routes, their cards on Today. The app
 * collects it (`app/kinds.ts`, `app/features.ts`); the log, Today, claims and sums read it here and know no feature. The
 * words of a kind and its page are code of their own, fetched when first needed: none of it is in the first script.
 */
import { signal } from "@preact/signals";
import type { ComponentType } from "preact";
import type { System } from "../../format";
import type { FormWords } from "../../forms/schema-form";
import type { Entry } from "../entries";
import type { Has } from "../look";

/** A job somebody can take. */
export type Job = "mow" | "feed" | "spray" | "water" | "other";

export type Fact = readonly [name: string, value: string];

/** What an entry of a kind says, and what its page shows beneath its facts. */
export interface Words {
  /** The line under the title in a list; the zones are put before it where `zonesFirst`. */
  brief: (entry: Entry, system: System) => string;
  /** In the order a person asks for them; the zones stand before them. */
  facts: (entry: Entry, system: System) => readonly Fact[];
  Detail?: ComponentType<{ entry: Entry }>;
  /** What its form asks for, where it is one that the contract and these words make. */
  form?: FormWords;
}

export interface EntryKind {
  kind: string;
  label: string;
  words: () => Promise<Words>;
  /** Which of them the totals are asked about: all, or those that may be the latest of their zones. */
  totals?: "all" | "latest";
  /** Something is put down that people may have to keep off. */
  keepsOff?: true;
  /** Whether it may clash with others still; asked of those that stand, of this year and the one before. */
  mayClash?: (entry: Entry, now: { day: string; onNewGrass: boolean }) => boolean;
  /** New grass is awaited from then on. */
  sows?: (body: Entry["body"]) => boolean;
  /** The entry that it is a part of: listed on that one's page, not in the log. */
  partOf?: (body: Entry["body"]) => string | undefined;
  /** Heading of its parts on its page, and the way from a part to it. */
  parts?: { title: string; way: string; whenCrossedOut: string };
  /** It is added from the log's page, by the form of its words. */
  add?: { button: string };
}

const kinds = new Map<string, EntryKind>();
const fetched = signal<ReadonlyMap<string, Words>>(new Map());

/** What a card may need of the day's look, before the book is read. */
export interface CardProps {
  has: Has | undefined;
}

export interface Feature {
  /** Its place in the address; a place reads the rest of the path itself. */
  routes?: readonly { path: string; load: () => Promise<{ default: ComponentType }> }[];
  /** What it shows on Today: above all, with the jobs, or beside them. */
  cards?: readonly { at: "top" | "jobs" | "beside"; Card: ComponentType<CardProps> }[];
  /** The pages of its place read these records: where one cannot be used they say so. */
  reads?: { place: string; records: readonly string[] };
  /** True while its page wants nothing said above it. */
  alone?: () => boolean;
}

const features: Feature[] = [];

export function registerFeatures(all: readonly Feature[]): void {
  features.push(...all);
}

export const registered = (): readonly Feature[] => features;

export function registerKinds(all: readonly EntryKind[]): void {
  for (const one of all) kinds.set(one.kind, one);
}

export const entryKinds = (): readonly EntryKind[] => [...kinds.values()];

/** Nothing of a kind that only a newer build knows. */
export const kindOf = (kind: string): EntryKind | undefined => kinds.get(kind);

export const labelOf = (kind: string): string => kinds.get(kind)?.label ?? kind.replaceAll("_", " ");

async function fetchWords({ kind, words }: EntryKind): Promise<void> {
  const found = await words();
  fetched.value = new Map(fetched.value).set(kind, found);
}

/** The words of a kind; undefined, and asked for, as long as their code is not there. */
export function wordsOf(kind: string): Words | undefined {
  const [found, known] = [fetched.value.get(kind), kinds.get(kind)];
  // Asked for again by the next page that needs it, where it could not be read.
  if (!found && known) void fetchWords(known).catch(() => undefined);
  return found;
}

/** Those of every kind, before a page that lists entries is drawn. */
export async function allWords(): Promise<void> {
  const missing = entryKinds().filter(({ kind }) => !fetched.peek().has(kind));
  await Promise.all(missing.map(fetchWords));
}
