import { blockEnergies } from "../signal/blockEnergies.js";
import { decimationFactor } from "../signal/Decimator.js";
import type { AudioRecording } from "./AudioRecording.js";
import type { Pause } from "./findPauses.js";
import type { RecordingSurvey } from "./RecordingSurvey.js";
import { readAnalysisBand } from "./readAnalysisBand.js";

/** What is heard in one pause, in the analysis band. */
export interface PauseSound {
  readonly afterNote: boolean;
  /** One array a channel. */
  readonly channels: readonly Float32Array[];
  /** Where the tail of the last note has sunk into the noise, in samples. */
  readonly quietFrom: number;
}

/** As much as a minute says all there is to say about the noise of a room. */
const LONGEST_TOTAL_SECONDS = 60;
/** Each pause gets at least so long, where it lasts; so only the longest are taken, which resolve low lines best. */
const LEAST_SHARE_SECONDS = 1.5;
/** With more channels than this the minute is cut, so that memory and time stay the same. */
const FULL_CHANNELS = 4;
const LEVEL_BLOCK_SECONDS = 0.05;
/** The tail is over once the level is this close to the quiet part of the pause. */
const TAIL_MARGIN = 2;
const QUIET_PART = 0.2;

/** Reads the pauses, at most a minute of them, each from its beginning. Sample rate: that of the `Decimator`. */
export function readPauses(
  recording: AudioRecording,
  survey: RecordingSurvey,
  pauses: readonly Pause[],
): PauseSound[] {
  const rateHz = recording.sampleRateHz / decimationFactor(recording.sampleRateHz);
  const length = (pause: Pause) => pause.endSeconds - pause.startSeconds;
  const budget = LONGEST_TOTAL_SECONDS * Math.min(1, FULL_CHANNELS / recording.channelCount);
  const most = Math.floor(budget / LEAST_SHARE_SECONDS);
  const longest = [...pauses].sort((a, b) => length(b) - length(a)).slice(0, most);
  const each = longestEach(longest.map(length), budget);
  return longest
    .sort((a, b) => a.startSeconds - b.startSeconds)
    .map((pause) => {
      const channels = readAnalysisBand(recording, survey, {
        startSeconds: pause.startSeconds,
        endSeconds: Math.min(pause.endSeconds, pause.startSeconds + each),
      });
      const quietFrom = pause.afterNote ? tailEnd(channels, Math.round(LEVEL_BLOCK_SECONDS * rateHz)) : 0;
      return { afterNote: pause.afterNote, channels, quietFrom };
    });
}

/** The length to which all must be cut for their sum to stay within the budget. */
function longestEach(lengths: readonly number[], budget: number): number {
  let left = budget;
  const ascending = [...lengths].sort((a, b) => a - b);
  for (const [i, each] of ascending.entries()) {
    const share = left / (ascending.length - i);
    if (each > share) return share;
    left -= each;
  }
  return Number.POSITIVE_INFINITY;
}

function tailEnd(channels: readonly Float32Array[], blockLength: number): number {
  const perChannel = channels.map((channel) => blockEnergies(channel, blockLength));
  const powers = [...perChannel[0].map((_, b) => perChannel.reduce((sum, energies) => sum + energies[b], 0))];
  const quiet = [...powers].sort((a, b) => a - b)[Math.floor(QUIET_PART * powers.length)] ?? 0;
  return (
    Math.max(
      0,
      powers.findIndex((power) => power <= TAIL_MARGIN * quiet),
    ) * blockLength
  );
}
