import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import { Decimator } from "../signal/Decimator.js";
import type { AudioRecording } from "./AudioRecording.js";
import type { TimeSpan } from "./findPauses.js";
import type { RecordingSurvey } from "./RecordingSurvey.js";
import { withoutNonFinite } from "./withoutNonFinite.js";

const PIECE_FRAMES = 8192;
/** Output samples read on either side, so that the decimation filter has settled (it reaches over about 12). */
const MARGIN_OUTPUTS = 16;

/**
 * A stretch of a recording, decimated to the analysis band (to 3 kHz) and with each channel's offset taken off.
 *
 * @returns one array a channel, at the rate of the `Decimator` for this recording
 */
export function readAnalysisBand(
  recording: AudioRecording,
  survey: RecordingSurvey,
  span: TimeSpan,
): Float32Array[] {
  const decimators = survey.channels.map(({ dcMean }) => new Decimator(recording.sampleRateHz, dcMean));
  const factor = decimators[0].factor;
  const first = Math.max(0, Math.round((span.startSeconds * recording.sampleRateHz) / factor));
  const last = Math.min(
    Math.floor(recording.frameCount / factor),
    Math.round((span.endSeconds * recording.sampleRateHz) / factor),
  );
  // Close to the ends the offset, which the pass over the whole recording did not know yet, rings in the filter.
  const isInside =
    first >= MARGIN_OUTPUTS && (last + MARGIN_OUTPUTS) * factor <= recording.frameCount && last > first;
  const held = isInside ? (survey.band?.slice(first, last) ?? null) : null;
  if (held !== null) return held.map((samples, c) => withoutOffset(samples, survey.channels[c].dcMean));
  const before = Math.min(first, MARGIN_OUTPUTS);
  const end = Math.min(recording.frameCount, (last + MARGIN_OUTPUTS) * factor);
  const parts: Float32Array[][] = decimators.map(() => []);
  for (let start = (first - before) * factor; start < end; start += PIECE_FRAMES) {
    const piece = recording.read(start, Math.min(PIECE_FRAMES, end - start));
    for (const [c, decimator] of decimators.entries()) {
      const hasGaps = survey.channels[c].nonFiniteCount > 0;
      parts[c].push(decimator.push(hasGaps ? withoutNonFinite(piece[c]) : piece[c]));
    }
  }
  return decimators.map((decimator, c) => {
    const whole = joined([...parts[c], decimator.finish()]);
    return withoutOffset(whole.slice(before, before + Math.max(0, last - first)), survey.channels[c].dcMean);
  });
}

/** The filter lets an offset through as it is, so that it can be taken off afterwards. */
function withoutOffset(samples: Float32Array, offset: number): Float32Array {
  const at = kernels().scratch(samples.byteLength, ScratchUser.blocks);
  const { functions, f32 } = kernels();
  const first = at / samples.BYTES_PER_ELEMENT;
  f32.set(samples, first);
  functions.subtractConstant(at, samples.length, offset);
  return f32.slice(first, first + samples.length);
}

function joined(parts: readonly Float32Array[]): Float32Array {
  const whole = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
