import { dateTime } from "../../../format";
import { units } from "../../../platform/session/session";
import type { PictureState } from "../../../platform/store/types";
import type { Photo } from "../model/photos";

/** Where the full picture is, in a sentence. */
export function sayWhere(state: PictureState | undefined): string {
  if (state === "waiting") return "On this phone only, waiting to be sent.";
  if (state === "sent") return "On this phone and on the server.";
  if (state === "refused") return "On this phone only. The server does not keep it.";
  return "Not on this phone.";
}

export const NEVER_SENT = "The full picture is on a phone that has not sent it. Only this small one is here.";

/** Who took it and when, as far as is known. */
export function sayOrigin({ takenAt }: Photo, who: string | undefined): string {
  return [who && `by ${who}`, takenAt && dateTime(takenAt, units.value)].filter(Boolean).join(", ");
}

/** The name a thumbnail goes by. */
export function sayPrint(at: number, of: number, caption: string, state: PictureState | undefined): string {
  const which = of > 1 ? `Photo ${at} of ${of}` : "Photo";
  const where =
    state === "waiting" ? "waiting to be sent" : state === "refused" ? "not kept by the server" : "";
  return [which, caption, where].filter(Boolean).join(", ");
}

export const NOT_A_PICTURE = "can’t be read as a picture. Choose a JPEG, PNG or HEIC picture.";
export { NOT_SAVED as NOT_STORED } from "../../../forms/saving";
