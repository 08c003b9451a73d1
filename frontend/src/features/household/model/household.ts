/** The household: who belongs to it and what it is called, and what of this phone's waits. */
import { computed, type ReadonlySignal } from "@preact/signals";
import type { Row, Store } from "../../../platform/store/types";

export type Role = "keeper" | "member";

export interface Member {
  id: string;
  name: string;
  role: Role;
  active: boolean;
  units: "us" | "metric" | undefined;
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
  const of = (group: string): Record<string, any> => row.groups[group]?.value ?? {};
  return {
    id: row.id,
    name: String(of("name")["name"] ?? "A member"),
    role: of("role")["role"] === "keeper" ? "keeper" : "member",
    active: of("active")["active"] !== false,
    units: of("units")["units"],
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
    setName: (name: string) =>
      mine.value
        ? store.save([{ t: "member", id: mine.value, set: { name: { name: name.trim() } } }])
        : Promise.resolve(undefined),
    renameHousehold: (name: string) =>
      session.value
        ? store.save([
            { t: "household", id: session.value.household.id, set: { name: { name: name.trim() } } },
          ])
        : Promise.resolve(undefined),
    household: computed(() => {
      const id = session.value?.household.id;
      const row = id ? store.row("household", id).value : undefined;
      return { id, name: String(row?.groups["name"]?.value?.name ?? session.value?.household.name ?? "") };
    }),
  };
}

export type HouseholdModel = ReturnType<typeof createHousehold>;
