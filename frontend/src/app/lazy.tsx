/** Screens as lazy chunks: fetched (from the precache) when first opened, then kept. */
import type { ComponentType, FunctionComponent } from "preact";
import { useLayoutEffect, useState } from "preact/hooks";
import { inTurn } from "../platform/turns";

type Load = () => Promise<{ default: ComponentType }>;

interface Chunk {
  screen?: ComponentType;
  failed?: boolean;
}

/** A component that loads itself; when that fails it says so and offers to try again. */
export function lazy(load: Load): FunctionComponent {
  let kept: ComponentType | undefined;
  return function Lazy() {
    const [chunk, setChunk] = useState<Chunk>(kept ? { screen: kept } : {});
    const [attempt, setAttempt] = useState(0);
    // A layout effect: an ordinary one would wait for a paint of the empty page before it even asked.
    // biome-ignore lint/correctness/useExhaustiveDependencies: a new attempt is what loads again
    useLayoutEffect(() => {
      if (kept) return undefined;
      let wanted = true;
      const show = (next: Chunk) => wanted && setChunk(next);
      const ask = () =>
        load().then(
          (module) => {
            kept = module.default;
            show({ screen: kept });
          },
          () => show({ failed: true }),
        );
      // To ask for a dozen files takes a slow phone as long as to draw a page.
      inTurn(ask);
      return () => {
        wanted = false;
      };
    }, [attempt]);
    if (chunk.screen) return <chunk.screen />;
    if (!chunk.failed) return <main class="page" aria-busy="true" />;
    return <LoadFailed again={() => setAttempt(attempt + 1)} />;
  };
}

function LoadFailed({ again }: { again: () => void }) {
  return (
    <main class="page">
      <p role="alert">This page could not be read from the phone. Nothing you entered is touched.</p>
      <button type="button" class="button" onClick={again}>
        Try again
      </button>
    </main>
  );
}
