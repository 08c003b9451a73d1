import { orSay, showToast } from "../../../ui/parts";
import { mayMow } from "../keep-off";
import { today } from "../model";
import type { MowDetails, Noted } from "../model/today";

function offerUndo(noted: Noted, what: string): void {
  showToast({
    text: `${what}: mow logged.`,
    undo: {
      act: async () => {
        await today.undo(noted);
        showToast({ text: `${what}: mow undone.` });
      },
    },
  });
}

/** Notes a mow, says so, and offers the way back for ten seconds; false when it was not. */
export async function noteMow(
  zoneIds: readonly string[],
  what: string,
  details?: MowDetails,
): Promise<boolean> {
  // With details it is said beside the form.
  if (!details && !(await mayMow(zoneIds))) return false;
  const noted = await orSay(() => today.mow(zoneIds, details));
  if (noted) offerUndo(noted.value, what);
  return noted !== undefined;
}
