import type { TimeSpan } from "../audio/findPauses.js";
import type { PitchTrack } from "../pitch/PitchTrack.js";
import { median } from "../signal/median.js";
import { cents } from "../units/cents.js";

interface ReadStretch extends TimeSpan {
  /** What was read in it; null where it was found to hold several strings. */
  readonly frequencyHz: number | null;
}

/** Attack and decay of a string that was read may stick out this far on either side. */
const EDGE_SECONDS = 0.6;
/** Shorter sounds are knocks, not strings. */
const LEAST_SECONDS = 0.4;

/** A string ringing on stays within this of its own pitch or an octave of it, and is this much weaker than it was. */
const RINGING_CENTS = 50;
const RINGING_BELOW_DB = 6;
/** How far back its level is looked up. */
const LOOK_BACK_SECONDS = 0.5;

/**
 * Stretches in which something sounds that gave no reading: nothing of a take is left out silently. The
 * ringing of a string that was read just before is left out.
 */
export function unreadStretches(
  sounding: readonly TimeSpan[],
  read: readonly ReadStretch[],
  track: PitchTrack,
): TimeSpan[] {
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
      const long = endSeconds - startSeconds >= LEAST_SECONDS + edges;
      const unread = long && !isRinging(track, startSeconds, endSeconds, before?.frequencyHz ?? null);
      return { startSeconds, endSeconds, unread };
    })
      .filter(({ unread }) => unread)
      .map(({ startSeconds, endSeconds }) => ({ startSeconds, endSeconds }));
  });
}

function isRinging(
  track: PitchTrack,
  startSeconds: number,
  endSeconds: number,
  frequencyHz: number | null,
): boolean {
  if (frequencyHz === null) return false;
  const from = Math.ceil(startSeconds / track.hopSeconds);
  const to = Math.floor(endSeconds / track.hopSeconds);
  const heard = track.frequencyHz.subarray(from, to).filter((hz) => hz > 0);
  if (heard.length === 0) return false;
  const before = track.levelDb.subarray(
    Math.max(0, from - Math.ceil(LOOK_BACK_SECONDS / track.hopSeconds)),
    from,
  );
  if (before.length > 0 && median(track.levelDb.subarray(from, to)) > median(before) - RINGING_BELOW_DB)
    return false;
  const away = cents(median(heard), frequencyHz);
  return Math.abs(away - 1200 * Math.round(away / 1200)) < RINGING_CENTS;
}
