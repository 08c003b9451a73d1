/** The household: who belongs to it, where everybody's entries stand, what two phones said differently. */
import { computed, type ReadonlySignal, signal } from "@preact/signals";
import type { Row, Store } from "../store/types";
import type { Outcome } from "../sync/http";

export interface Member {
  id: string;
  name: string;
  role: "keeper" | "member";
  active: boolean;
  units: "us" | "metric" | undefined;
  me: boolean;
}

export interface Invitation {
  link: string;
  svg: string;
  expires_at: string;
}

interface Lost {
  value: Record<string, unknown>;
  version: string | null;
  hlc?: string;
  by?: string;
}

/** Two phones wrote the same facts apart: what stands, what did not win, and where to put it right. */
export interface Conflict {
  id: string;
  t: string;
  recordId: string;
  group: string;
  record: Row | undefined;
  lost: Lost;
  standing: Record<string, unknown> | undefined;
  at: string;
}

export interface HouseholdParts {
  store: Store;
  session: ReadonlySignal<{
    household: { id: string; name: string };
    member_id: string;
    role: string;
  } | null>;
  request: <V>(method: "GET" | "POST", path: string, body?: object) => Promise<Outcome<V>>;
  /** Kinds of record of fixtures/kinds.json. */
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

export function createHousehold({ store, session, request, kinds }: HouseholdParts) {
  const mine = computed(() => session.value?.member_id);
  const members = computed(() =>
    store
      .rows("member")
      .value.map((row) => memberOf(row, mine.value))
      .sort(
        (a, b) => Number(b.me) - Number(a.me) || a.name.localeCompare(b.name) || a.id.localeCompare(b.id),
      ),
  );

  /** Still open: the value that won has not been written anew since. Choosing either side writes it, for everybody. */
  const conflicts = computed<Conflict[]>(() =>
    store.rows("conflict").value.flatMap((row) => {
      const { t, id, group, lost, won, at } = row.body ?? {};
      if (!t || !id || !group || !lost) return [];
      const record = store.row(t, id).value;
      const state = record?.groups[group];
      if (!state || state.version !== won) return [];
      return [
        { id: row.id, t, recordId: id, group, record, lost, standing: state.value, at: String(at ?? "") },
      ];
    }),
  );

  function settle(conflict: Conflict, value: Record<string, unknown>): Promise<{ op: string }> {
    return store.save([{ t: conflict.t, id: conflict.recordId, set: { [conflict.group]: value } }]);
  }

  const invitation = signal<Invitation | undefined>(undefined);
  const inviting = signal(false);
  const inviteProblem = signal("");

  async function invite(): Promise<void> {
    const household = session.value?.household.id;
    if (!household || inviting.value) return;
    inviting.value = true;
    inviteProblem.value = "";
    const outcome = await request<Invitation>("POST", `households/${household}/invitations`, {});
    inviting.value = false;
    if (outcome.ok) invitation.value = outcome.value;
    else inviteProblem.value = outcome.message;
  }

  return {
    members,
    loaded: store.loaded("member"),
    me: computed(() => members.value.find((member) => member.me)),
    keeper: computed(() => session.value?.role === "keeper"),
    conflicts,
    standing: store.standing,
    pending: computed(() => kinds.flatMap((t) => store.rows(t).value.filter((row) => row.pending))),
    /** "Use the other one": the losing value is written again and wins, being the newest. */
    useOther: (conflict: Conflict) => settle(conflict, conflict.lost.value),
    /** "Keep this one": the standing value is written again, which closes the matter on every phone. */
    keepThis: (conflict: Conflict) => settle(conflict, conflict.standing ?? {}),
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
    invitation,
    inviting,
    inviteProblem,
    invite,
  };
}

export type HouseholdModel = ReturnType<typeof createHousehold>;
