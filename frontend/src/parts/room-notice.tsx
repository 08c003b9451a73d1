/** What is wrong with the phone's store, over whatever page is open; it takes no focus and closes no form. */
import { useSignalEffect } from "@preact/signals";
import { useState } from "preact/hooks";
import { sayNotSaved } from "../models/saving";
import { freeSentPhotos, standing, storeTrouble } from "../store";
import { Button } from "./button";
import { Notice } from "./notice";
import { orSay } from "./saving";
import { Sheet } from "./sheet";
import { showToast } from "./toast";

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
  await orSay(async () => (await import("../models/sync")).syncNow());
}

async function freePhotos(): Promise<void> {
  const freed = await orSay(freeSentPhotos);
  if (!freed) return;
  const gone = freed.value;
  const text = gone
    ? `${gone} ${gone === 1 ? "photo" : "photos"} let go here. The server keeps them.`
    : "No photo here is on the server already.";
  showToast({ text });
}

export function RoomNotice() {
  const trouble = storeTrouble.value;
  return (
    <>
      <div class="room-notice" role="status">
        {trouble === "older_page" ? (
          <Notice kind="warn">
            <p>This page is older than the app in another tab. What you typed is kept.</p>
            <Button onClick={openAgain}>Open it again</Button>
          </Notice>
        ) : null}
        {trouble === "blocked" ? (
          <Notice kind="warn">
            <p>
              Another tab still holds the older book. Look at that tab once, or close it; this page then goes
              on by itself.
            </p>
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
      <p>
        This phone’s book was written by a newer version of the app. It can be read and exported here; nothing
        can be saved until this page is brought up to date. What you type is kept.
      </p>
      <div class="row">
        <Button tone="signal" onClick={lookForNewer}>
          Bring it up to date
        </Button>
        <Button href="/household">To the export</Button>
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
    <Sheet open={open} onClose={() => setOpen(false)} title="No room left on this phone">
      <p>Nothing was saved. What you typed is still there. Any of these makes room; then save once more:</p>
      <ul class="stack">
        <li class="stack stack--tight">
          <span>{waiting ? `${waiting} waiting to be sent.` : "Nothing waits to be sent."}</span>
          <span>
            <Button onClick={sendNow} disabled={!waiting}>
              Send what waits
            </Button>
          </span>
        </li>
        <li>
          <Button onClick={freePhotos}>Let go of photos already sent</Button>
        </li>
        <li>Take things off the phone in its own settings: other apps’ files count as well.</li>
        <li>A copy of everything can be kept outside the app: Household, “Save a copy of everything”.</li>
      </ul>
    </Sheet>
  );
}
