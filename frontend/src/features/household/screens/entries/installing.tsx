/**
 * Help with putting the app on the home screen. On an iPhone the installed app begins with an empty store: what waits
 * here would stay behind in the browser. So what waits is sent first (S20, F53).
 */

import { standing } from "../../../../platform/store";
import { installOffer, isInstalled } from "../../../../platform/sw/install";
import { syncNow } from "../../../../platform/sync/running";
import { Button, Notice } from "../../../../ui/parts";
import { sayCount } from "../counts";

export function Installing() {
  const { waiting, photosWaiting, parked, state } = standing.value;
  if (isInstalled()) return null;
  const left = sayCount(waiting, photosWaiting);
  return (
    <section class="section" aria-labelledby="installing">
      <h2 id="installing">On the home screen</h2>
      {left ? (
        <Notice kind="warn" title={`Send ${left} first`}>
          <p>On an iPhone the installed app starts empty. Send waiting entries first.</p>
          <div>
            <Button tone="signal" onClick={syncNow} busy={state === "sending"}>
              Send now
            </Button>
          </div>
        </Notice>
      ) : (
        <Steps />
      )}
      {parked.length ? (
        <p class="quiet">Entries that need fixing stay in this browser. Fix or export them first.</p>
      ) : null}
    </section>
  );
}

function Steps() {
  const offer = installOffer.value;
  return (
    <>
      <p>Everything is on the server. Nothing is left behind.</p>
      {offer ? (
        <div>
          <Button onClick={offer}>Add to home screen</Button>
        </div>
      ) : (
        <ol class="stack stack--tight">
          <li>iPhone and iPad: Share, then Add to Home Screen.</li>
          <li>Android: the browser’s menu, then Install app.</li>
          <li>Open it from there and sign in.</li>
        </ol>
      )}
    </>
  );
}
