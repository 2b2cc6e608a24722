import type { TimeSpan } from "../audio/findPauses.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { blockEnergies } from "../signal/blockEnergies.js";
import { median } from "../signal/median.js";

/** A turn of the wheel and the beats of two strings move the level of such blocks by less than the first of these, mostly. */
const BLOCK_SECONDS = 0.25;
const DECAY_DB = 4;
/** Only an end that fades to this is one at which bow or wheel has left the strings. */
const FADED_DB = 6;
const LONGEST_DECAY_SECONDS = 1;
/** What stays after the cut is this much shorter, since the fading began before it was seen. */
const TRIM_SECONDS = 0.25;

/** A part without the end in which its strings only ring on: their partials then fade each at its own rate. */
export function withoutDecay(
  { samples, sampleRateHz, firstSeconds }: AnalysisSegment,
  part: TimeSpan,
): TimeSpan {
  const length = Math.round(BLOCK_SECONDS * sampleRateHz);
  const end = Math.min(samples.length, Math.round((part.endSeconds - firstSeconds) * sampleRateHz));
  const count = Math.floor((end - Math.max(0, (part.startSeconds - firstSeconds) * sampleRateHz)) / length);
  // From the end backwards.
  const energies = blockEnergies(samples.subarray(end - count * length, end), length).reverse();
  const levelsDb = energies.map((energy) => 10 * Math.log10(Math.max(energy, 1e-30) / length));
  const middleDb = median(levelsDb);
  if (count === 0 || levelsDb[0] > middleDb - FADED_DB) return part;
  const faded = levelsDb.findIndex((level) => level > middleDb - DECAY_DB);
  if (faded < 1 || faded * BLOCK_SECONDS > LONGEST_DECAY_SECONDS) return part;
  return { ...part, endSeconds: part.endSeconds - faded * BLOCK_SECONDS - TRIM_SECONDS };
}
