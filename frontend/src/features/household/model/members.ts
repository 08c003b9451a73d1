/** Roles, removal and leaving: the server decides, so these need signal; every phone hears of it as a record. */
import { signal } from "@preact/signals";
import { type Problem, type RemoteParts, sayFailure } from "../../../platform/sync/remote";
import type { Role } from "./household";

/** `changed` is called after the server has done it: who is who is asked anew, and the records are fetched. */
export function createMembers({
  request,
  root,
  changed,
}: RemoteParts & { changed: () => void | Promise<void> }) {
  const busy = signal<string | undefined>(undefined);
  const problem = signal<Problem | undefined>(undefined);

  async function act(of: string, path: string, body: object): Promise<boolean> {
    const from = root();
    if (!from || busy.value !== undefined) return false;
    busy.value = of;
    problem.value = undefined;
    const outcome = await request("POST", `${from}/members/${of}/${path}`, body);
    if (outcome.ok) await changed();
    else problem.value = { of, says: sayFailure(outcome) };
    busy.value = undefined;
    return outcome.ok;
  }

  return {
    busy,
    problem,
    setRole: (member: string, role: Role) => act(member, "role", { role }),
    /** Their phones have no access from the next request on; what they send then is held. Of oneself: leaving. */
    remove: (member: string) => act(member, "remove", {}),
    /** A page opens with nothing wrong yet. */
    begin() {
      problem.value = undefined;
    },
  };
}
