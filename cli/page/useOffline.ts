import { useEffect, useState } from "preact/hooks";

/** Has the page kept by the browser, so that it works without a network. @returns whether it does by now */
export function useOffline(): boolean {
  const [isReady, setIsReady] = useState(false);
  useEffect(() => {
    if (!("serviceWorker" in navigator)) return;
    // A browser that refuses, as in a private window, still shows the page.
    navigator.serviceWorker.register("./offline.js").catch(() => {});
    void navigator.serviceWorker.ready.then(() => setIsReady(true));
  }, []);
  return isReady;
}
