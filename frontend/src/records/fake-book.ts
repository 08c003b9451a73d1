/** For tests: a book in memory with the store's manners, read as models read it (`reading.ts`). */
import { computed, type ReadonlySignal, type Signal, signal } from "@preact/signals";
import type { Mutation, Picture, PictureState, Row, Standing, Store } from "../platform/store/types";
import { fieldsOf } from "./kinds";
import { soundRow } from "./reading";

export { answers, fakeEngine, refuses } from "../platform/engine/fake-engine";

export interface FakeBook extends Store {
  saved: Mutation[][];
  /** Ops in this set count as sent: they cannot be withdrawn. */
  sent: Set<string>;
  put: (row: Partial<Row> & { t: string; id: string }) => void;
  kept: Map<string, unknown>;
  /** Full pictures on this phone, by name. */
  pictures: Map<string, Picture>;
  pictureStates: Signal<ReadonlyMap<string, PictureState>>;
}

export function fakeRow(row: Partial<Row> & { t: string; id: string }): Row {
  return { key: `${row.t}:${row.id}`, groups: {}, seq: 1, pending: false, ...row };
}

/** Groups as a record holds them, each written once. */
export function groups(values: Record<string, object>, version = "v1"): Row["groups"] {
  return Object.fromEntries(Object.entries(values).map(([name, value]) => [name, { value, version }]));
}

/** What any field of its type may hold, where a test does not say. */
const ANY: Partial<Record<string, unknown>> = { text: "any", id: "any", ids: ["any"], json: {}, flag: true };

/** An entry's body with every field its kind must have: those a test is not about hold whatever is allowed. */
export function wholeBody<T extends { kind: string }>(body: T): T & Record<string, any> {
  const fields = Object.entries(fieldsOf("entry", body.kind)).filter(([, { required }]) => required);
  const fill = ([name, { type, low, choices }]: (typeof fields)[number]) => [
    name,
    name === "occurred_at" ? "2026-05-10T10:00:00Z" : (ANY[type] ?? choices?.[0] ?? low),
  ];
  return { ...Object.fromEntries(fields.map(fill)), ...LISTS[body.kind], ...body };
}

const LISTS: Partial<Record<string, object>> = { spread: { zones: [] }, tray_test: { catches_g: [1, 2, 1] } };

function applied(before: Row | undefined, { t, id, body, set }: Mutation, op: string): Row {
  const row = before ?? fakeRow({ t, id, seq: 0 });
  const written = Object.entries(set ?? {}).map(([group, value]) => [group, { value, version: op }]);
  return {
    ...row,
    body: body ?? row.body,
    groups: { ...row.groups, ...Object.fromEntries(written) },
    pending: true,
  };
}

export function fakeBook(): FakeBook {
  const all = signal<ReadonlyMap<string, Row>>(new Map());
  const undoable = new Map<string, ReadonlyMap<string, Row>>();
  const kept = new Map<string, unknown>();
  const standing = signal<Standing>({ waiting: 0, parked: [], photosWaiting: 0, state: "saved" });
  const sent = new Set<string>();
  const pictures = new Map<string, Picture>();
  const pictureStates = signal<ReadonlyMap<string, PictureState>>(new Map());
  const keep = (picture: Picture, state: PictureState) => {
    pictures.set(picture.sha256, picture);
    pictureStates.value = new Map(pictureStates.value).set(picture.sha256, state);
  };
  const saved: Mutation[][] = [];
  let count = 0;
  const live = (row: Row) => row.groups["deleted"]?.value?.deleted !== true;
  return {
    saved,
    sent,
    kept,
    standing,
    pictures,
    pictureStates,
    put: (row) => {
      all.value = new Map(all.value).set(`${row.t}:${row.id}`, fakeRow(row));
    },
    newId: () => `id-${++count}`,
    async save(mutations, added = []) {
      for (const picture of added) keep(picture, "waiting");
      const op = `op-${++count}`;
      saved.push(mutations);
      undoable.set(op, all.value);
      const next = new Map(all.value);
      for (const one of mutations)
        next.set(`${one.t}:${one.id}`, applied(next.get(`${one.t}:${one.id}`), one, op));
      all.value = next;
      return { op };
    },
    async withdraw(op) {
      const before = undoable.get(op);
      if (!before || sent.has(op)) return false;
      all.value = before;
      return true;
    },
    rows: (t) =>
      computed(() => [...all.value.values()].filter((row) => row.t === t && live(row)).map(soundRow)),
    row: (t, id) =>
      computed(() => {
        const row = all.value.get(`${t}:${id}`);
        return row && soundRow(row);
      }),
    loaded: () => signal(true),
    newest: signal(undefined),
    album: {
      states: pictureStates,
      trouble: signal(undefined),
      bytes: async (sha256) => pictures.get(sha256)?.bytes,
      why: async () => undefined,
      cache: async (picture) => keep(picture, "sent"),
      makeRoom: async () => 0,
    },
    drafts: {
      get: async <T>(key: string) => kept.get(key) as T | undefined,
      put: async (key, value) => {
        kept.set(key, structuredClone(value));
      },
      remove: async (key) => {
        kept.delete(key);
      },
      watch: <T>() => signal(undefined) as ReadonlySignal<T | undefined>,
    },
  };
}

/** Lets promises that are already settled run on. */
export async function settled(): Promise<void> {
  for (let turn = 0; turn < 20; turn += 1) await Promise.resolve();
}
