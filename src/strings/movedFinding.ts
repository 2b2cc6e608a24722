import type { Finding } from "../audio/Finding.js";
import type { StringMove } from "./MixedStrings.js";

/**
 * That a string moved while others sounded.
 *
 * @param given - which pitch is given: that before the move, that after it, or none
 */
export function movedFinding(
  { startSeconds, endSeconds, movedCents }: StringMove,
  given: "before" | "after" | "unread",
): Finding {
  return {
    code: "string-moved",
    severity: "warning",
    values: { startSeconds, endSeconds, movedCents, reason: given },
  };
}
