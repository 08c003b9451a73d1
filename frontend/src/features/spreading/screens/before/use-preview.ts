import { useEffect, useState } from "preact/hooks";
import { type Answer, call } from "../../../../platform/engine";
import { type Ahead, type More, previewOf, type TourValue } from "../../model/before/preview";
import type { Pattern } from "../../model/types";

interface Got {
  key: string;
  answer: Answer<TourValue> | undefined;
}

/**
 * How a pass would lie, as the engine lays it out; asked again when anything it rests on changes. `same` is false as
 * long as what was answered is still of the question before.
 */
export function usePreview(
  ahead: Ahead | null,
  pattern: Pattern,
  more: More = {},
): { answer: Answer<TourValue> | undefined; come: boolean; same: boolean } {
  const key = ahead && JSON.stringify([ahead, pattern, more]);
  const [got, setGot] = useState<Got>();
  useEffect(() => {
    if (!key) return undefined;
    let wanted = true;
    const [at, as, also] = JSON.parse(key);
    void previewOf(call, at, as, also).then((answer) => wanted && setGot({ key, answer }));
    return () => {
      wanted = false;
    };
  }, [key]);
  return { answer: key ? got?.answer : undefined, come: !key || got !== undefined, same: got?.key === key };
}
