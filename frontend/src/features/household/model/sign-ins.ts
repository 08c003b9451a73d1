/** Tries to sign in as this person, the newest first: "was this you?" */
import { createRemote, type RemoteParts } from "../../../platform/sync/remote";

export interface SignInTry {
  at: string;
  ok: boolean;
  /** Its network; blank where unknown. */
  address_part: string;
  agent_part: string;
  /** The phone that rides on it; blank where none does. */
  device: string;
}

export function createSignIns({ request }: Pick<RemoteParts, "request">) {
  return createRemote(
    { request, root: () => "accounts" },
    "sign-ins",
    (answer: { sign_ins: SignInTry[] }) => answer.sign_ins,
  );
}
