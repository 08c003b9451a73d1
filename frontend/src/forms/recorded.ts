/** What was recorded, with its way back: out of the outbox, or, where it has gone already, what takes it back for everybody. */
import type { Kind, Mutation, Picture, Row, Store } from "../platform/store/types";

export interface Recorded {
  op: string;
  /** Of the record written first. */
  id: string;
  back: () => Promise<void>;
}

type Writing = Pick<Store, "save" | "withdraw">;

/** Saves as one op; `over` is what is written where it cannot be withdrawn any more. */
export async function record(
  store: Writing,
  mutations: Mutation[],
  over: readonly Mutation[],
  pictures?: readonly Picture[],
): Promise<Recorded> {
  const { op } = await (pictures ? store.save(mutations, pictures) : store.save(mutations));
  const back = async () => {
    if (!(await store.withdraw(op))) await store.save([...over]);
  };
  return { op, id: mutations[0]?.id ?? "", back };
}

const marked = (t: Kind, id: string, deleted: boolean): Mutation => ({
  t,
  id,
  set: { deleted: { deleted } },
});

/** A record that is new, or groups of one that stands: they then say again what they said before. */
export function recordGroups(
  store: Writing,
  t: Kind,
  { id, row }: { id: string; row: Row | undefined },
  set: Record<string, object>,
): Promise<Recorded> {
  const before = Object.keys(set).map((group) => [group, row?.groups[group]?.value ?? {}]);
  const over = row ? { t, id, set: Object.fromEntries(before) } : marked(t, id, true);
  return record(store, [{ t, id, set }], [over]);
}

/** Takes a record out of the book; entries that name it stay. */
export const recordRemoval = (store: Writing, t: Kind, id: string): Promise<Recorded> =>
  record(store, [marked(t, id, true)], [marked(t, id, false)]);
