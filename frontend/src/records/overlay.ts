/** What is laid over an entry after the fact: written anew each time, with all that stood before kept inside it. */

import { isoMoment } from "../format";
import { parseHlc } from "../platform/store/core/hlc";
import type { Mutation, Row } from "../platform/store/types";
import { given } from "./entries";

/** An earlier wording kept inside its group, so that an amendment never wipes what stood there. */
export interface Was {
  value: unknown;
  why?: string;
  by?: string | null;
  at?: string | null;
}

export interface Laid {
  group: "note" | "when" | "void" | "learning";
  /** The field whose earlier values are kept. */
  field: string;
  value: object;
}

export interface Signed {
  by: string | undefined;
  at: string;
}

/** The wall time of a write, from the millisecond part of its hybrid logical clock. */
export function timeOfHlc(hlc: string | undefined): string | undefined {
  const ms = parseHlc(hlc ?? "")?.ms;
  return ms ? isoMoment(new Date(ms)) : undefined;
}

/** When a group was last written, by its own word or by the phone's clock of that time. */
export function timeOf(row: Row, group: string): string | undefined {
  const state = row.groups[group];
  return state?.value?.at ?? timeOfHlc(state?.hlc);
}

/** The overlay as it is to be stored; a row that has none yet starts with nothing before it. */
export function amended(row: Row, { group, field, value }: Laid, { by, at }: Signed): Mutation {
  const old = row.groups[group]?.value;
  const before = old && {
    value: old[field],
    ...given({ why: old.why }),
    by: old.by ?? null,
    at: timeOf(row, group) ?? null,
  };
  const was = before ? [...((old.was ?? []) as Was[]), before] : undefined;
  const signed = { ...old, ...value, by: by ?? null, at, ...given({ was }) };
  return { t: "entry", id: row.id, set: { [group]: signed } };
}
