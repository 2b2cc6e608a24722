import { wavOfBlocks } from "../../src/index.js";

/** The browser brings what it decodes to one rate of our choice; this one is the most usual of phones and recorders. */
const SAMPLE_RATE_HZ = 48_000;
/** A compressed recording is decoded in memory as a whole, ten times its size. Our policy. */
const LARGEST_BYTES = 100_000_000;

/**
 * Decodes a recording that is not WAV with what the browser has.
 *
 * @returns the sound as WAV; null where the browser can't decode it, or it is too large
 */
export async function decodeInBrowser(blob: Blob): Promise<Blob | null> {
  if (blob.size > LARGEST_BYTES) return null;
  try {
    const decoder = new OfflineAudioContext(1, 1, SAMPLE_RATE_HZ);
    const sound = await decoder.decodeAudioData(await blob.arrayBuffer());
    const channels = Array.from({ length: sound.numberOfChannels }, (_, c) => sound.getChannelData(c));
    return new Blob(wavOfBlocks([channels], sound.sampleRate), { type: "audio/wav" });
  } catch {
    return null;
  }
}
