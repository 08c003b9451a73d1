/** Figures put together from several of the engine's answers. */
import { computed } from "@preact/signals";
import { type Followed, follow } from "../../../../platform/engine/ask";
import type { Answer } from "../../../../platform/engine/types";

/** A figure that follows its arguments as `ask` does, worked out in several calls. */
export function answered<V, A extends object = object>(
  args: () => A | null,
  work: (args: A) => Promise<V | undefined>,
): Followed<V> {
  const chain = async (said: A): Promise<Answer<V>> => {
    const value = await work(said);
    return value === undefined
      ? { error: { code: "unknown", message: "" } }
      : { value, working: [], engine: "" };
  };
  const answer = follow(chain, args);
  return Object.assign(
    computed(() => answer.value?.value),
    { busy: answer.busy },
  );
}
