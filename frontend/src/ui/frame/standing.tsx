import { CloudAlert, CloudCheck, CloudOff, CloudUpload, LogIn } from "lucide-preact";
import { Link } from "wouter-preact";
import { former } from "../../platform/session/session";
import { standing } from "../../platform/store";

type State = (typeof standing)["value"]["state"];

const ICONS: Record<State, typeof CloudCheck> = {
  saved: CloudCheck,
  waiting: CloudUpload,
  sending: CloudUpload,
  sign_in: LogIn,
  offline: CloudOff,
  trouble: CloudAlert,
  update: CloudAlert,
};

/** Where entries stand, in a few words: nobody should have to wonder whether an entry is safe. */
export function sayStanding({ state, waiting, parked, photosWaiting }: (typeof standing)["value"]): string {
  if (parked.length) return parked.length === 1 ? "1 needs fixing" : `${parked.length} need fixing`;
  if (state === "sign_in") return waiting ? `Sign in to send ${waiting}` : "Sign in";
  if (state === "trouble") return waiting ? `${waiting} waiting, can’t send` : "Can’t send";
  if (state === "update") return waiting ? `Update to send ${waiting}` : "Update the app";
  if (state === "sending") return "Sending";
  if (waiting) return `${waiting} waiting`;
  if (photosWaiting) return `${photosWaiting} ${photosWaiting === 1 ? "photo" : "photos"} waiting`;
  return state === "offline" ? "Offline, all saved" : "All saved";
}

/** How many things the sign is about, for the mark without words; blank for none. */
function sayMany({ waiting, parked, photosWaiting }: (typeof standing)["value"]): string {
  const many = parked.length || waiting || photosWaiting;
  return many > 99 ? "99+" : many ? String(many) : "";
}

/**
 * Sync state in the head of a page; leads to the whole account of it. `brief`: on a narrow phone a mark of one fixed
 * size, its words for screen readers, so that a long title keeps its room and never moves when the state changes.
 */
export function Standing({ brief }: { brief?: boolean }) {
  const now = standing.value;
  const Icon = ICONS[now.state];
  const look = former.value || now.parked.length || ["sign_in", "trouble", "update"].includes(now.state);
  const classes = ["standing", brief && "standing--brief", look && "standing--look"]
    .filter(Boolean)
    .join(" ");
  return (
    <Link href="/household/entries" className={classes}>
      <Icon aria-hidden="true" size={brief ? 22 : 18} />
      <span class="standing__words">{former.value ? "No longer a member" : sayStanding(now)}</span>
      {brief ? (
        <span class="standing__many num" aria-hidden="true">
          {sayMany(now)}
        </span>
      ) : null}
    </Link>
  );
}
