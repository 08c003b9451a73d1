/** The household: who belongs to it and what it is called, and what of this phone's waits. */
import { computed, type ReadonlySignal } from "@preact/signals";
import { record } from "../../../forms/recorded";
import type { Row, Store } from "../../../platform/store/types";
import { groupOf } from "../../../records/groups";
import type { MemberActive, MemberName, MemberRole, MemberUnits } from "../../../records/kinds.gen";

export type Role = MemberRole["role"];

export interface Member extends MemberName, MemberRole, MemberActive, Partial<MemberUnits> {
  id: string;
  me: boolean;
}

/** What this needs to know of the session. */
export interface Belonging {
  household: { id: string; name: string };
  member_id: string;
  role: Role;
}

export interface HouseholdParts {
  store: Store;
  session: ReadonlySignal<Belonging | null>;
  /** The names of all record kinds. */
  kinds: readonly string[];
}

function memberOf(row: Row, mine: string | undefined): Member {
  return {
    ...groupOf("member", row, "units"),
    id: row.id,
    name: groupOf("member", row, "name").name ?? "A member",
    role: groupOf("member", row, "role").role === "keeper" ? "keeper" : "member",
    active: groupOf("member", row, "active").active !== false,
    me: row.id === mine,
  };
}

/** This person first, then those in the household, then those who were. */
function inOrder(a: Member, b: Member): number {
  return (
    Number(b.me) - Number(a.me) ||
    Number(b.active) - Number(a.active) ||
    a.name.localeCompare(b.name) ||
    a.id.localeCompare(b.id)
  );
}

export function createHousehold({ store, session, kinds }: HouseholdParts) {
  const mine = computed(() => session.value?.member_id);
  const members = computed(() =>
    store
      .rows("member")
      .value.map((row) => memberOf(row, mine.value))
      .sort(inOrder),
  );
  const me = computed(() => members.value.find((member) => member.me));
  const household = computed(() => {
    const id = session.value?.household.id;
    const row = id ? store.row("household", id).value : undefined;
    return { id, name: String(row?.groups["name"]?.value?.name ?? session.value?.household.name ?? "") };
  });

  async function rename(t: "member" | "household", id: string | undefined, name: string, was: string) {
    const named = (said: string) => ({ t, id: id ?? "", set: { name: { name: said } } });
    return id ? record(store, [named(name.trim())], [named(was)]) : undefined;
  }
  return {
    members,
    loaded: store.loaded("member"),
    me,
    /** As the book says, which is newer than what was said at sign-in. */
    keeper: computed(() => {
      const role = me.value?.role ?? session.value?.role;
      return role === "keeper" && me.value?.active !== false;
    }),
    standing: store.standing,
    pending: computed(() => kinds.flatMap((t) => store.rows(t).value.filter((row) => row.pending))),
    setName: (name: string) => rename("member", mine.peek(), name, me.peek()?.name ?? ""),
    renameHousehold: (name: string) => rename("household", household.peek().id, name, household.peek().name),
    household,
  };
}

export type HouseholdModel = ReturnType<typeof createHousehold>;
