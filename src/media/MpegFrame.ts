/** What the header of an MPEG audio frame of layer III (MP3) says. */
export interface MpegFrame {
  /** Of the whole frame, header and all. */
  readonly sizeBytes: number;
  readonly sampleRateHz: number;
  readonly sampleCount: 1152 | 576;
  /** What stands between the header and the sound. */
  readonly sideBytes: 9 | 17 | 32;
}

// Kilobits a second by the header's index, layer III (ISO/IEC 11172-3 and 13818-3).
const KILOBITS_1 = [0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320];
const KILOBITS_2 = [0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160];
const RATES_HZ = [44100, 48000, 32000];
/** Divisor of the sample rate by the header's version: MPEG 2.5, reserved, 2, 1. */
const RATE_DIVISORS = [4, 0, 2, 1];
const MPEG_1 = 3;
const ONE_CHANNEL = 3;

/** Reads a header of four bytes; null where they are no such header, or give no rate of bits. */
export function mpegFrame(header: Uint8Array): MpegFrame | null {
  const [first, second, third, fourth] = header;
  if (first !== 0xff || second === undefined || third === undefined || fourth === undefined) return null;
  const version = (second >> 3) & 3;
  const isFirst = version === MPEG_1;
  const isOne = fourth >> 6 === ONE_CHANNEL;
  const divisor = RATE_DIVISORS[version];
  const kilobits = (isFirst ? KILOBITS_1 : KILOBITS_2)[third >> 4];
  const rateHz = RATES_HZ[(third >> 2) & 3];
  const isLayer3 = (second & 0xe6) === 0xe2;
  if (!isLayer3 || !divisor || !kilobits || rateHz === undefined) return null;
  const sampleRateHz = rateHz / divisor;
  const sampleCount = isFirst ? 1152 : 576;
  const padding = (third >> 1) & 1;
  return {
    sizeBytes: Math.floor((sampleCount * kilobits * 125) / sampleRateHz) + padding,
    sampleRateHz,
    sampleCount,
    sideBytes: isFirst ? (isOne ? 17 : 32) : isOne ? 9 : 17,
  };
}
