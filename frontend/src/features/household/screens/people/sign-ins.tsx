/** Tries to sign in as this person: was this you? */
import { dateTime } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { Page, Standing } from "../../../../ui/parts";
import type { SignInTry } from "../../model/sign-ins";
import { signIns } from "../../model/together";
import { Listed, useLook } from "../remote";
import { Account } from "./account";

export function SignInsPage() {
  useLook(signIns);
  return (
    <Page title="Your sign-ins" back="/household" backLabel="Back to the household" actions={<Standing />}>
      <p class="quiet">
        The latest tries to sign in as you. Not you? Sign that phone out under Phones. Then tell whoever runs
        the server.
      </p>
      <Account />
      <Listed of={signIns} needs="You need a signal to see the sign-ins.">
        {(tries) => (
          <ul class="lines">
            {tries.map((one) => (
              <li key={`${one.at}${one.address_part}`} class="line">
                <span class="line__main">
                  <span class="line__title">
                    {dateTime(one.at, units.value)}
                    <span class={one.ok ? "tag tag--good" : "tag tag--bad"}>
                      {one.ok ? "signed in" : "refused"}
                    </span>
                  </span>
                  <span class="line__facts">{sayWhere(one)}</span>
                </span>
              </li>
            ))}
          </ul>
        )}
      </Listed>
    </Page>
  );
}

function sayWhere({ device, agent_part, address_part }: SignInTry): string {
  const said = [device || agent_part, address_part && `from network ${address_part}`].filter(Boolean);
  return said.join(", ") || "from a place the server does not know";
}
