import type { SecondReader } from "../src/threads.js";
import type { RecordingOrigin } from "./HandMessages.js";
import { secondReader } from "./secondReader.js";
import { workerSetup } from "./watcher.js";

let isLent = true;

/** All processors have takes to read: from now on none is read by two threads. */
export function lendNoHand(): void {
  isLent = false;
}

/** The thread that watches, as it reads a take along; null where there is no such thread, or no processor for it. */
export function handFor(origin: RecordingOrigin): SecondReader | null {
  const port = isLent ? (workerSetup?.hand ?? null) : null;
  return port === null ? null : secondReader(port, origin);
}
