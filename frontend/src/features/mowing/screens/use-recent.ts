/** The last days' warmth for what is drawn; nothing as long as nobody knows it. */
import { useEffect, useState } from "preact/hooks";
import type { RecentModel, WarmDays } from "../model/recent";
import { recentHere } from "../model/recent-here";

export function useRecent(): WarmDays | undefined {
  const [model, setModel] = useState<RecentModel>();
  useEffect(() => {
    let gone = false;
    // Without it the height is the usual one, as before.
    recentHere().then(
      (found) => {
        if (!gone) setModel(() => found);
      },
      () => undefined,
    );
    return () => {
      gone = true;
    };
  }, []);
  return model?.value?.value;
}
