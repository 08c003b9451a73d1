/** Code that is no part of the first script: fetched (from the precache) when it is first drawn. */
import type { ComponentType, FunctionComponent } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { inTurn } from "../../platform/turns";
import { type Wait, waitHere } from "../../records/rest";

const AGAIN_MS = 2000;

/** A component that is drawn once its code is there: nothing until then, and asked for again until it could be read. */
export function late<P extends object>(
  load: () => Promise<ComponentType<P>>,
  wait: Wait = waitHere,
): FunctionComponent<P> {
  let kept: ComponentType<P> | undefined;
  return function Late(props: P) {
    const [Drawn, setDrawn] = useState<ComponentType<P> | undefined>(() => kept);
    useEffect(() => {
      if (kept) return undefined;
      let wanted = true;
      let callOff = () => {};
      const ask = (): unknown =>
        load().then(
          (found) => {
            kept = found;
            if (wanted) setDrawn(() => found);
          },
          () => {
            if (wanted) callOff = wait(ask, AGAIN_MS);
          },
        );
      // A page may have many of them, each of several files.
      inTurn(ask);
      return () => {
        wanted = false;
        callOff();
      };
    }, []);
    return Drawn ? <Drawn {...props} /> : null;
  };
}

/** A sheet whose code is fetched when it is first opened; from then on it stays, so that it can give the focus back. */
export function lateSheet<P extends { open: boolean }>(
  load: () => Promise<ComponentType<P>>,
): FunctionComponent<P> {
  const Late = late(load);
  return function LateSheet(props: P) {
    const opened = useRef(false);
    opened.current ||= props.open;
    return opened.current ? <Late {...props} /> : null;
  };
}
