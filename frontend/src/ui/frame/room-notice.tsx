/** What is wrong with the phone's store, over whatever page is open; it takes no focus and closes no form. */
import { useSignalEffect } from "@preact/signals";
import { useState } from "preact/hooks";
import { sayNotSaved } from "../../forms/saving";
import { freeSentPhotos, standing, storeTrouble } from "../../platform/store";
import { Button } from "../parts/button";
import { Notice } from "../parts/notice";
import { Sheet } from "../parts/sheet";
import { showToast } from "../parts/toast";
import { orSay } from "../parts/undo";

const openAgain = () => location.reload();

/** Looks for the newer build once more before the page is opened again with it. */
async function lookForNewer(): Promise<void> {
  const known = await navigator.serviceWorker?.getRegistration().catch(() => undefined);
  await known?.update().catch(() => undefined);
  known?.waiting?.postMessage({ type: "TAKE_OVER" });
  openAgain();
}

/** Syncing is not part of the first script. */
async function sendNow(): Promise<void> {
  await orSay(async () => (await import("../../platform/sync/running")).syncNow());
}

async function freePhotos(): Promise<void> {
  const freed = await orSay(freeSentPhotos);
  if (!freed) return;
  const gone = freed.value;
  const text = gone
    ? `${gone} ${gone === 1 ? "photo" : "photos"} removed here. The server keeps them.`
    : "No photo here is on the server yet.";
  showToast({ text });
}

export function RoomNotice() {
  const trouble = storeTrouble.value;
  return (
    <>
      <div class="room-notice" role="status">
        {trouble === "older_page" ? (
          <Notice kind="warn">
            <p>This page is older than another tab. Reload it. What you typed is kept.</p>
            <Button onClick={openAgain}>Reload</Button>
          </Notice>
        ) : null}
        {trouble === "blocked" ? (
          <Notice kind="warn">
            <p>Another tab has an older version open. Close that tab. This page then continues.</p>
          </Notice>
        ) : null}
        {trouble === "lost" ? (
          <Notice kind="bad">
            <p>{sayNotSaved({ kind: trouble })} What you typed is still there.</p>
            <Button onClick={openAgain}>Restart the app</Button>
          </Notice>
        ) : null}
        {trouble === "newer" ? <Newer /> : null}
      </div>
      <Full />
    </>
  );
}

function Newer() {
  return (
    <Notice kind="bad">
      <p>This phone has data from a newer version. Update this page to save. What you typed is kept.</p>
      <div class="row">
        <Button tone="signal" onClick={lookForNewer}>
          Update this page
        </Button>
        <Button href="/household">Go to export</Button>
      </div>
    </Notice>
  );
}

/** After a save that found no room: what helps. The form behind it stands as it was. */
function Full() {
  const [open, setOpen] = useState(false);
  useSignalEffect(() => setOpen(storeTrouble.value === "full"));
  const { waiting } = standing.value;
  return (
    <Sheet open={open} onClose={() => setOpen(false)} title="No space left on this phone">
      <p>Not saved. What you typed is still there. Free some space, then save again:</p>
      <ul class="stack">
        <li class="stack stack--tight">
          <span>{waiting ? `${waiting} waiting to be sent.` : "Nothing waits to be sent."}</span>
          <span>
            <Button onClick={sendNow} disabled={!waiting}>
              Send waiting entries
            </Button>
          </span>
        </li>
        <li>
          <Button onClick={freePhotos}>Remove sent photos from this phone</Button>
        </li>
        <li>Or remove other files in the phone’s settings.</li>
        <li>To keep a copy outside the app: Household, “Save a copy of everything”.</li>
      </ul>
    </Sheet>
  );
}
