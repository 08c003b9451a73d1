/** The door: signing in, starting a book, joining one by invitation. */
import { useEffect, useRef, useState } from "preact/hooks";
import { Redirect, useLocation, useParams } from "wouter-preact";
import { count } from "../../../format";
import { useOnline } from "../../../platform/online";
import { leftHere, session, uncleared } from "../../../platform/session/session";
import { standing } from "../../../platform/store";
import { syncNow } from "../../../platform/sync/running";
import { Notice, Page } from "../../../ui/parts";
import { JoinForm } from "./join";
import { FieldMark } from "./mark";
import { SignForms } from "./sign";

/**
 * The token of the link that was opened: what follows its #, which no server is ever sent. In links of before it stands
 * in the address itself; there it is taken out at once, so that it goes no further.
 */
function useToken(): string | undefined {
  const { token: before } = useParams<{ token?: string }>();
  const [path] = useLocation();
  const [, again] = useState(0);
  useEffect(() => {
    if (before) history.replaceState(null, "", `/join/#${before}`);
    const moved = () => again((count) => count + 1);
    addEventListener("hashchange", moved);
    return () => removeEventListener("hashchange", moved);
  }, [before]);
  return before || (path.startsWith("/join") ? location.hash.slice(1) : "") || undefined;
}

export default function Entrance() {
  const token = useToken();
  const online = useOnline();
  const [, go] = useLocation();
  // Somebody signed in comes here only to sign in again after a long time away; the book stays open meanwhile.
  // A round that begins says so in between: who has come to sign in again stays until it is done.
  const again = useRef(false);
  again.current ||= session.value !== null && standing.value.state === "sign_in";
  if (session.value && !token && !again.current) return <Redirect to="/" replace />;
  const signedIn = () => {
    syncNow();
    go("/", { replace: true });
  };
  return (
    <Page title="Evenfall" actions={null}>
      <FieldMark />
      <p class="lead">
        A field book for your lawn. Measure it, read the bag, set the spreader, log the work.
      </p>
      {online ? null : (
        <Notice kind="warn" title="No signal">
          <p>You need a signal to sign in the first time. After that the app works without one for weeks.</p>
        </Notice>
      )}
      {session.value ? null : <NotCleared />}
      {session.value ? null : <LeftHere />}
      {token ? (
        <JoinForm token={token} />
      ) : (
        <SignForms again={again.current ? session.value?.person.email : undefined} onDone={signedIn} />
      )}
    </Page>
  );
}

// From format, which is here already: the household's own words would be one more file before the door opens.
function sayLeft(entries: number, photos: number): string {
  return [entries && count(entries, "entry", "entries").text, photos && count(photos, "photo").text]
    .filter(Boolean)
    .join(" and ");
}

/** Storage that refused at a sign-out: what it still holds, and how to be rid of it. */
function NotCleared() {
  const [first, second] = uncleared.value;
  if (!first) return null;
  return (
    <Notice kind="warn" alert title="Signed out, but not all was cleared">
      <p>
        {second
          ? "This phone’s storage did not respond. The app may open your book again without a password."
          : "Part of this phone’s storage did not respond. Your name may still be in it."}
      </p>
      <p>To clear it, delete this site’s data in your browser’s settings. Entries not sent yet go with it.</p>
    </Notice>
  );
}

/** What others on this phone have not sent yet: it waits for their own sign-in, and nobody else sends it (F18). */
function LeftHere() {
  return (
    <>
      {leftHere().map(({ person, name, entries, photos }) => (
        <Notice key={person} kind="info">
          <p>
            {name} has {sayLeft(entries, photos)} on this phone that {entries + photos === 1 ? "is" : "are"}{" "}
            not sent yet. {entries + photos === 1 ? "It is" : "They are"} sent when {name} signs in here
            again.
          </p>
        </Notice>
      ))}
    </>
  );
}
