/** Screens as lazy chunks: fetched (from the precache) when first opened, then kept. */
import type { ComponentType, FunctionComponent } from "preact";
import { useEffect, useState } from "preact/hooks";

interface Loaded {
  screen?: ComponentType;
  failed?: boolean;
}

/** A component that loads itself; when that fails it says so and offers to try again. */
export function lazy(load: () => Promise<{ default: ComponentType }>): FunctionComponent {
  let kept: ComponentType | undefined;
  return function Lazy() {
    const [state, setState] = useState<Loaded>({ screen: kept });
    const [attempt, setAttempt] = useState(0);
    // biome-ignore lint/correctness/useExhaustiveDependencies: a new attempt is what loads again
    useEffect(() => {
      if (kept) return undefined;
      let wanted = true;
      load().then(
        (module) => {
          kept = module.default;
          if (wanted) setState({ screen: kept });
        },
        () => wanted && setState({ failed: true }),
      );
      return () => {
        wanted = false;
      };
    }, [attempt]);
    if (state.screen) return <state.screen />;
    if (!state.failed) return <main class="page" aria-busy="true" />;
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
