/**
 * The routes. Inside a place, the place reads the rest of the path. Today, which a cold start opens, is part of the
 * first script, so that the first paint shows it; every other place is one lazy chunk.
 */
import "./features";
import { untracked, useSignalEffect } from "@preact/signals";
import { Redirect, Route, Switch, useLocation } from "wouter-preact";
import { LateClashLine } from "../features/clash";
import { Today } from "../features/today";
import { looking, session } from "../platform/session/session";
import { newBuild, switchedOff, takeNewBuild } from "../platform/sw/register";
import { leftOut } from "../records/live";
import { registered } from "../records/log/registry";
import { PageNotices } from "../ui/frame/page";
import { PlaceBar } from "../ui/frame/place-bar";
import { RoomNotice } from "../ui/frame/room-notice";
import { late } from "../ui/parts/late";
import { Looking } from "../ui/parts/looking";
import { showToast, Toasts } from "../ui/parts/toast";
import { lazy } from "./lazy";

const ROUTES = registered().flatMap(({ routes = [] }) =>
  routes.map(({ path, load }) => ({ path, Place: lazy(load) })),
);

const LeftOut = late(() => import("./left-out").then((found) => found.LeftOutHere));

/** Its code is fetched only where there is something to name. */
function LeftOutHere() {
  return leftOut.loaded.value && leftOut.records.value.length ? <LeftOut /> : null;
}

/** Long enough to see; the build is taken at the next cold start in any case. */
const OFFER_S = 60;

/** A new build is offered, never taken by itself, and takes no focus from what is being typed (S18). */
function useNewBuildOffer(): void {
  useSignalEffect(() => {
    if (!newBuild.value) return;
    const action = { label: "Use it now", act: takeNewBuild };
    // Taken away again when the build waits no longer.
    return untracked(() =>
      showToast({ text: "A newer version is on this phone.", action, dismiss: "Later", seconds: OFFER_S }),
    );
  });
}

/** The server has switched the worker off: pages come from the server, this one when the person says so. */
function useSwitchOffer(): void {
  useSignalEffect(() => {
    if (!switchedOff.value) return;
    const action = { label: "Reload", act: () => location.reload() };
    const text = "The server asks for a fresh start of the app. Your entries stay as they are.";
    untracked(() => showToast({ text, action, dismiss: "Later", seconds: OFFER_S }));
  });
}

export function App() {
  useNewBuildOffer();
  useSwitchOffer();
  const [path] = useLocation();
  const outside = path.startsWith("/enter") || path.startsWith("/join");
  if (!session.value && looking.value) return <Looking />;
  if (!session.value && !outside) return <Redirect to="/enter" replace />;
  return (
    <PageNotices.Provider value={session.value && !outside ? LeftOutHere : null}>
      <RoomNotice />
      <Switch>
        <Route path="/" component={Today} />
        {ROUTES.map(({ path, Place }) => (
          <Route key={path} path={path} component={Place} />
        ))}
        <Route>
          <Redirect to="/" replace />
        </Route>
      </Switch>
      {session.value && !outside && (
        <>
          <LateClashLine />
          <PlaceBar />
        </>
      )}
      <Toasts />
    </PageNotices.Provider>
  );
}
