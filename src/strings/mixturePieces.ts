import type { TimeSpan } from "../audio/findPauses.js";

/** A longer stretch is read in pieces of this length, so that memory stays bounded. */
const PIECE_SECONDS = 60;

/** The pieces, all of one length, in which a stretch is read. */
export function mixturePieces({ startSeconds, endSeconds }: TimeSpan): TimeSpan[] {
  const count = Math.max(1, Math.ceil((endSeconds - startSeconds) / PIECE_SECONDS));
  const length = (endSeconds - startSeconds) / count;
  return Array.from({ length: count }, (_, i) => ({
    startSeconds: startSeconds + i * length,
    endSeconds: startSeconds + (i + 1) * length,
  }));
}
