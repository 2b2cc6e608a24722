import type { PitchTrack } from "./PitchTrack.js";

/** A track from some frame on, with what it takes to go on with it where one that began earlier meets it. */
export interface TrackPart extends PitchTrack {
  /** The arrays begin with this frame. */
  readonly firstFrame: number;
  /**
   * For each frame how the tracker came to it: 1 by a long step, 2 to 5 by so many less one single steps after a long one, 6 by more, after
   * whatever; 0 not at all, or by too few single steps from its beginning. Two trackers that come to one frame in the same way know the same of
   * the frames ahead, and go the same way from there.
   */
  readonly arrival: Uint8Array;
}
