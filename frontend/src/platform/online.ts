import { useEffect, useState } from "preact/hooks";

/** What the browser believes about the network: a hint for wording, never a verdict. */
export function useOnline(): boolean {
  const [online, setOnline] = useState(navigator.onLine);
  useEffect(() => {
    const look = () => setOnline(navigator.onLine);
    window.addEventListener("online", look);
    window.addEventListener("offline", look);
    return () => {
      window.removeEventListener("online", look);
      window.removeEventListener("offline", look);
    };
  }, []);
  return online;
}
