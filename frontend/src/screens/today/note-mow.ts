import { today } from "../../models";
import type { MowDetails, Noted } from "../../models/today";
import { showToast } from "../../parts";

function offerUndo(noted: Noted, what: string): void {
  showToast({
    text: `${what}: mow noted.`,
    undo: {
      act: async () => {
        await today.undo(noted);
        showToast({ text: `${what}: mow taken back.` });
      },
    },
  });
}

/** Notes a mow, says so, and offers the way back for ten seconds; false when it could not be stored. */
export async function noteMow(
  zoneIds: readonly string[],
  what: string,
  details?: MowDetails,
): Promise<boolean> {
  try {
    offerUndo(await today.mow(zoneIds, details), what);
    return true;
  } catch {
    showToast({
      text: "The mow could not be stored on this phone, so nothing was noted. Free some room and try again.",
      seconds: 10,
    });
    return false;
  }
}
