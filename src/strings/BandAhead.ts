import type { RecordingSurvey } from "../audio/RecordingSurvey.js";
import type { TrackPart } from "../pitch/TrackPart.js";

/** A recording that another thread reads. */
export interface BandAhead {
  /** The analysis band, one array a channel, as long as it will be. */
  readonly channels: readonly Float32Array[];
  /**
   * How many samples of every channel are there: more than `seen`, which may have to be waited for; null where nobody fills it any
   * more.
   */
  filledBeyond(seen: number): number | null;
  /**
   * What the other thread tracks of the end of it (see `trackRest`), told how far this one has come: once that is beyond its first frame it
   * is waited for; null so long.
   */
  restFrom(frame: number): TrackPart | null;
  /** What `bandToFill` gives at the end, waited for; null where it can't be had. */
  survey(): RecordingSurvey | null;
}
