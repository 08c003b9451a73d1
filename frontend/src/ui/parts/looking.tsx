import { lookingLong, stopLooking } from "../../platform/session/session";
import { Button } from "./button";

/** While it is looked up who holds this phone. A slow phone is waited for; the door opens when the person asks for it. */
export function Looking() {
  return (
    <main class="page" aria-busy="true">
      <div class="page__body stack" role="status">
        {lookingLong.value ? (
          <>
            <p>Opening your book. This phone’s storage is slow to answer.</p>
            <div class="row">
              <Button onClick={() => location.reload()}>Try again</Button>
              <Button tone="quiet" onClick={stopLooking}>
                Sign in
              </Button>
            </div>
          </>
        ) : null}
      </div>
    </main>
  );
}
