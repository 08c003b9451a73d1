/** A page whose figures come one after another: its button waits for them, so that it never moves away under a thumb. */
import { useCallback, useEffect, useState } from "preact/hooks";

/** Tells whether a part of the page has what it shows. */
export type Says = (part: string, there: boolean) => void;

/** Whether all the parts named are there, and the way for a part to say so. */
export function useAllThere(parts: readonly string[]): [boolean, Says] {
  const [there, setThere] = useState<readonly string[]>([]);
  const says = useCallback((part: string, is: boolean) => {
    setThere((then) => {
      if (then.includes(part) === is) return then;
      return is ? [...then, part] : then.filter((one) => one !== part);
    });
  }, []);
  return [parts.every((part) => there.includes(part)), says];
}

/** Says so of one part for as long as it is drawn. */
export function useSays(says: Says, part: string, there: boolean): void {
  useEffect(() => {
    says(part, there);
    return () => says(part, false);
  }, [says, part, there]);
}
