import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { averageSpectrum } from "../signal/averageSpectrum.js";
import { median } from "../signal/median.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import type { NoteSpan } from "./cutNotes.js";
import type { NoteTrack } from "./trackNotes.js";

/** A shorter stretch without a pitch lies between two notes, or is the dog of a trompette. */
const LEAST_SECONDS = 0.32;
/** Where the note before goes over into this one. */
const EDGE_SECONDS = 0.04;
/** Partials stand this far apart in the spectrum of the whole stretch, and noise has room in between. */
const SPECTRUM_SECONDS = 0.25;
const STEP_CENTS = 5;
const MARGIN_CENTS = 60;
const PARTIALS = 8;
const TOP_HZ = 3000;
/** Noise is the median of this much to either side. */
const FLOOR_HZ = 160;
/** A line of noise stands so far over the median now and then; what a partial has above it counts, up to so much ... */
const NOISE_DB = 5;
const MOST_DB = 20;
/** ... and one that is not there counts against the note. */
const LEAST_DB = -8;
/** The partials of a note have more than this together. */
const LEAST_TOGETHER_DB = 25;
/** What the drones leave, as in each frame of the tracker. */
const LEFT_SHARE = 0.1;

/**
 * Notes so harsh that no frame of a tenth of a second shows their pitch: where sound goes on between two notes without one,
 * the spectrum of the whole stretch is searched for a series of partials above its noise.
 *
 * @param notes - found already
 * @param openHz - of the string, which the span's cents are counted from
 */
export function harshNotes(
  segment: AnalysisSegment,
  takenOut: Float32Array | null,
  track: NoteTrack,
  notes: readonly NoteSpan[],
  openHz: number,
  topCents: number,
): NoteSpan[] {
  return lostStretches(track, notes).flatMap(({ startSeconds, endSeconds }) => {
    const centsOverOpen = pitchOf(segment, takenOut, startSeconds, endSeconds, openHz, topCents);
    return centsOverOpen === null ? [] : [{ startSeconds, endSeconds, centsOverOpen }];
  });
}

/** Where something sounds but no note was found. */
function lostStretches({ isSilent, firstSeconds, hopSeconds }: NoteTrack, notes: readonly NoteSpan[]) {
  const isTaken = isSilent.slice();
  for (const { startSeconds, endSeconds } of notes) {
    const at = (seconds: number) => Math.round((seconds - firstSeconds) / hopSeconds);
    isTaken.fill(1, Math.max(0, at(startSeconds)), Math.max(0, at(endSeconds)));
  }
  const found: { startSeconds: number; endSeconds: number }[] = [];
  for (let m = 0; m < isTaken.length; m++) {
    if (isTaken[m] === 1) continue;
    const first = m;
    while (m < isTaken.length && isTaken[m] === 0) m++;
    if ((m - first) * hopSeconds < LEAST_SECONDS) continue;
    found.push({
      startSeconds: firstSeconds + first * hopSeconds + EDGE_SECONDS,
      endSeconds: firstSeconds + m * hopSeconds - EDGE_SECONDS,
    });
  }
  return found;
}

function pitchOf(
  { samples, sampleRateHz, firstSeconds }: AnalysisSegment,
  takenOut: Float32Array | null,
  startSeconds: number,
  endSeconds: number,
  openHz: number,
  topCents: number,
): number | null {
  const at = (seconds: number) => Math.max(0, Math.round((seconds - firstSeconds) * sampleRateHz));
  const size = nextPowerOfTwo(SPECTRUM_SECONDS * sampleRateHz);
  const spectrumOf = (of: Float32Array) =>
    averageSpectrum(of.subarray(at(startSeconds), at(endSeconds)), sampleRateHz, size);
  const { density, binHz } = spectrumOf(samples);
  const left = takenOut === null ? null : spectrumOf(takenOut).density;
  const clean =
    left === null ? density : density.map((value, k) => Math.max(0, value - LEFT_SHARE * left[k]));
  const reach = Math.round(FLOOR_HZ / binHz);
  const excessDb = clean.map((value, k) => {
    const floor = median(density.subarray(Math.max(0, k - reach), k + reach + 1));
    return 10 * Math.log10(Math.max(value, 1e-300) / Math.max(floor, 1e-300));
  });
  let best = LEAST_TOGETHER_DB;
  let bestCents: number | null = null;
  for (let over = -MARGIN_CENTS; over <= topCents + MARGIN_CENTS; over += STEP_CENTS) {
    const frequencyHz = openHz * 2 ** (over / 1200);
    let together = 0;
    for (let number = 1; number <= PARTIALS && number * frequencyHz < TOP_HZ; number++) {
      const value = excessDb[Math.round((number * frequencyHz) / binHz)] - NOISE_DB;
      together += Math.min(MOST_DB, Math.max(LEAST_DB, value));
    }
    if (together <= best) continue;
    best = together;
    bestCents = over;
  }
  return bestCents;
}
