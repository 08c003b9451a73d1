/** Figures put together from several of the engine's answers. */
import { computed } from "@preact/signals";
import { ask, type Followed } from "../../../../platform/engine/ask";

/** A figure that follows its arguments as `ask` does, worked out in several calls. */
export function answered<V, A extends object = object>(
  args: () => A | null,
  work: (args: A) => Promise<V | undefined>,
): Followed<V> {
  const chain = async (_: string, said: object) => {
    const value = await work(said as A);
    return value === undefined
      ? { error: { code: "unknown", message: "" } }
      : { value: value as any, working: [], engine: "" };
  };
  const answer = ask<V>({ call: chain }, "", args);
  return Object.assign(
    computed(() => answer.value?.value),
    { busy: answer.busy },
  );
}
