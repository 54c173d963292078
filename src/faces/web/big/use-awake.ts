import { useEffect, useState } from "preact/compat";

/** Whether the screen is kept from going dark: on, off, or left to the device because this browser has no say in it here. */
export type Awake = "kept" | "off" | "not here";

/** Keeps the screen awake while it is wanted and the page is in sight; a page that comes back in sight asks again. */
export function useAwake(wanted: boolean): Awake {
  const can = "wakeLock" in navigator;
  const [kept, setKept] = useState(false);
  useEffect(() => {
    if (!wanted || !("wakeLock" in navigator)) return undefined;
    let lock: WakeLockSentinel | undefined;
    let left = false;
    const ask = async () => {
      if (document.visibilityState !== "visible") return;
      try {
        const got = await navigator.wakeLock.request("screen");
        if (left) return void got.release();
        lock = got;
        setKept(true);
        got.addEventListener("release", () => setKept(false));
      } catch {
        // a device that is low on power refuses
        setKept(false);
      }
    };
    void ask();
    document.addEventListener("visibilitychange", ask);
    return () => {
      left = true;
      document.removeEventListener("visibilitychange", ask);
      void lock?.release();
      setKept(false);
    };
  }, [wanted]);
  return kept ? "kept" : can ? "off" : "not here";
}
