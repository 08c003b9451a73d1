/** Keeps the screen awake while it is needed; says so where the phone cannot. */
import { useEffect, useState } from "preact/hooks";

export type Wake = "asking" | "awake" | "absent";

/** Holds a wake lock while mounted. The lock is lost whenever the page is hidden, so it is asked for again. */
export function useWakeLock(): Wake {
  const [state, setState] = useState<Wake>("asking");
  useEffect(() => {
    const { wakeLock } = navigator as Partial<Pick<Navigator, "wakeLock">>;
    if (!wakeLock) {
      setState("absent");
      return undefined;
    }
    let lock: WakeLockSentinel | undefined;
    let wanted = true;
    async function hold(): Promise<void> {
      if (document.visibilityState !== "visible" || !wakeLock) return;
      try {
        const got = await wakeLock.request("screen");
        if (!wanted) return void got.release();
        lock = got;
        setState("awake");
      } catch {
        // Refused: a nearly empty battery, or a policy of the phone.
        if (wanted) setState("absent");
      }
    }
    void hold();
    document.addEventListener("visibilitychange", hold);
    return () => {
      wanted = false;
      document.removeEventListener("visibilitychange", hold);
      void lock?.release();
    };
  }, []);
  return state;
}
