/**
 * Entries the server set aside, or would not even read: what can be mended in them, field by field, by the limits of
 * the contract, and the entry as mended. What is not touched is sent again exactly as it was.
 */
import type { System } from "../../../format";
import {
  type Filled,
  type FormField,
  fieldIn,
  startOf,
  type Way,
  wayOf,
  writeField,
} from "../../../forms/fields";
import { createForm } from "../../../forms/form";
import type { Mutation, ParkedRow, SentMutation, Store } from "../../../platform/store/types";
import { checkGroup, fieldsOf, type Limits } from "../../../records/kinds";

export type { Filled };

export interface MendField extends FormField {
  key: string;
  /** Which item of the entry, and which group of it ("" for the body of a log entry). */
  at: number;
  group: string;
  start: Filled;
  /** What was wrong with it, from the beginning. */
  error: string | undefined;
}

export type Mended = { mutations: Mutation[] } | { wrong: Record<string, string> };

type Value = Record<string, unknown>;

/** A held entry waits for the keeper; nothing on this phone can mend that. */
export const isPending = (row: ParkedRow): boolean => row.why.code === "pending_review";

/** A log entry whose id stands for something else already can go in under an id of its own. */
export const needsNewId = (row: ParkedRow): boolean => ["body_differs", "op_reused"].includes(row.why.code);

interface Part {
  at: number;
  t: string;
  group: string;
  /** What the contract calls it: the group, or for a body the kind of entry. */
  named: string;
  value: Value;
  fields: Record<string, Limits>;
}

function partsOf(m: readonly SentMutation[]): Part[] {
  return m.flatMap((one, at) => {
    const body = one.body as Value | undefined;
    const kind = String(body?.["kind"] ?? "");
    const parts = Object.entries(one.set ?? {}).map(([group, value]) => ({ group, named: group, value }));
    return [...(body ? [{ group: "", named: kind, value: body }] : []), ...parts].map((part) => ({
      at,
      t: one.t,
      ...part,
      value: part.value as Value,
      fields: known(one.t, part.named),
    }));
  });
}

/** Nothing for a kind or group that this build does not know. */
function known(t: string, group: string): Record<string, Limits> {
  try {
    return fieldsOf(t, group);
  } catch {
    return {};
  }
}

const FIXED = new Set(["kind", "by"]);

/** The fields a person can mend: those filled in, those that are wrong, those that are missing. */
export function mendFields(row: ParkedRow, system: System): MendField[] {
  return partsOf(row.m).flatMap((part) => {
    const wrong = wrongIn(part, row, system);
    return Object.entries(part.fields).flatMap(([name, limits]) => {
      const asked = name in part.value || name in wrong || limits.required;
      if (!asked || FIXED.has(name) || limits.server_only) return [];
      const field = { ...fieldIn(part.fields, name, limits), way: mendable(limits) };
      if (field.way === "drop" && (!(name in wrong) || limits.required)) return [];
      const key = `${part.at}/${part.group}/${name}`;
      const start = startOf(part.value, field, system);
      return [{ ...field, key, at: part.at, group: part.group, start, error: wrong[name] }];
    });
  });
}

/** The phone's own words, in the person's units, where it sees the fault itself; else the server's. */
function wrongIn(part: Part, row: ParkedRow, system: System): Record<string, string> {
  const here = Object.keys(part.fields).length ? checkGroup(part.t, part.named, part.value, system) : {};
  const told = Object.entries(row.why.fields ?? {}).filter(([name]) => name in part.fields);
  return { ...Object.fromEntries(told), ...here };
}

/** What another record is, nobody can choose here. */
function mendable(limits: Limits): Way {
  const way = wayOf(limits);
  return way === "thing" || way === "things" ? "drop" : way;
}

/** The entry as mended, or what is wrong with it by field key. `filled` holds what the person changed. */
export function mend(
  row: ParkedRow,
  filled: Record<string, Filled>,
  system: System,
  newId: () => string,
): Mended {
  const fields = mendFields(row, system);
  const wrong: Record<string, string> = {};
  const parts = partsOf(row.m).map((part) => {
    const mine = fields.filter(({ at, group }) => at === part.at && group === part.group);
    const value = { ...part.value };
    for (const field of mine) {
      const now = filled[field.key];
      if (now === undefined || JSON.stringify(now) === JSON.stringify(field.start)) continue;
      const message = writeField(value, field, now);
      if (message) wrong[field.key] = message;
    }
    const checked = Object.keys(part.fields).length ? checkGroup(part.t, part.named, value, system) : {};
    for (const [name, message] of Object.entries(checked))
      wrong[`${part.at}/${part.group}/${name}`] ??= message;
    return { ...part, value };
  });
  if (Object.keys(wrong).length) return { wrong };
  return {
    mutations: row.m.map((one, at) =>
      rebuilt(
        one,
        parts.filter((part) => part.at === at),
        row,
        newId,
      ),
    ),
  };
}

function rebuilt(one: SentMutation, parts: readonly Part[], row: ParkedRow, newId: () => string): Mutation {
  const body = parts.find(({ group }) => group === "");
  const set = Object.fromEntries(
    parts.filter(({ group }) => group).map(({ group, value }) => [group, value]),
  );
  return {
    t: one.t,
    id: needsNewId(row) && one.body ? newId() : one.id,
    ...(body ? { body: body.value } : one.body ? { body: one.body } : {}),
    ...(one.set ? { set } : {}),
  };
}

export interface MendParts {
  store: Pick<Store, "drafts" | "newId">;
  system: () => System;
  /** Puts the entry as mended in the place of the one set aside. */
  send: (row: ParkedRow, mutations: Mutation[]) => Promise<unknown>;
}

/** The form of one entry that was set aside; what is wrong stands beside each field from the beginning. */
export function createMendForm({ store, system, send }: MendParts, row: ParkedRow) {
  return createForm<Record<string, Filled>, Mended, object, undefined>(
    { store },
    {
      key: `fix-form:${row.op}`,
      fresh: () => ({}),
      read: (filled) => {
        const value = mend(row, filled, system(), store.newId);
        return { value, errors: "wrong" in value ? value.wrong : {} };
      },
      write: async (mended) => {
        if ("wrong" in mended) return undefined;
        await send(row, mended.mutations);
        return {};
      },
    },
  );
}
