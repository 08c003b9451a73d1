/** The door: signing in, starting a book, joining one by invitation. */
import { Redirect, useParams } from "wouter-preact";
import { session } from "../../models/session";
import { Notice, Page } from "../../parts";
import { JoinForm } from "./join";
import { useOnline } from "./online";
import { SignForms } from "./sign";

export default function Entrance() {
  const { token } = useParams<{ token?: string }>();
  const online = useOnline();
  if (session.value && !token) return <Redirect to="/" replace />;
  return (
    <Page title="Swardbook">
      <p class="lead">
        The book of whoever keeps the grass around a home: measured ground, the shed, each walk and each mow.
      </p>
      {online ? null : (
        <Notice kind="warn" title="No signal">
          <p>
            Signing in for the first time on this phone needs signal once. After that the book opens and works
            without any, for weeks.
          </p>
        </Notice>
      )}
      {token ? <JoinForm token={token} /> : <SignForms />}
    </Page>
  );
}
