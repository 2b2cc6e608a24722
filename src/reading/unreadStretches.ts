import type { Finding } from "../audio/Finding.js";

interface Stretch {
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/** Attack and decay of a string that was read may stick out this far on either side. */
const EDGE_SECONDS = 0.6;
/** Shorter sounds are knocks, not strings. */
const LEAST_SECONDS = 0.4;

/** Stretches in which something sounds that gave no reading, as findings: nothing of a take is left out silently. */
export function unreadStretches(sounding: readonly Stretch[], read: readonly Stretch[]): Finding[] {
  const sorted = [...read].sort((a, b) => a.startSeconds - b.startSeconds);
  return sounding.flatMap((stretch) => {
    const inside = sorted.filter(
      ({ startSeconds, endSeconds }) =>
        endSeconds > stretch.startSeconds && startSeconds < stretch.endSeconds,
    );
    return Array.from({ length: inside.length + 1 }, (_, i) => {
      const before = inside[i - 1];
      const after = inside[i];
      const startSeconds = before?.endSeconds ?? stretch.startSeconds;
      const endSeconds = after?.startSeconds ?? stretch.endSeconds;
      const edges = (before === undefined ? 0 : EDGE_SECONDS) + (after === undefined ? 0 : EDGE_SECONDS);
      return { startSeconds, endSeconds, unread: endSeconds - startSeconds >= LEAST_SECONDS + edges };
    })
      .filter(({ unread }) => unread)
      .map(
        ({ startSeconds, endSeconds }): Finding => ({
          code: "unread-stretch",
          severity: "warning",
          values: { startSeconds, endSeconds, durationSeconds: endSeconds - startSeconds },
        }),
      );
  });
}
