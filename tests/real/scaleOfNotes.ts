import { fitHarmonics } from "../../src/partials/fitHarmonics.js";
import { averageSpectrum } from "../../src/signal/averageSpectrum.js";
import { nextPowerOfTwo } from "../../src/signal/nextPowerOfTwo.js";
import { EDGE_SECONDS, type NoteCut } from "./noteCut.js";

/** Root mean square of a note at 0 dB. */
const LEVEL = 0.1;
/** A tangent takes the string over in about this time. */
const CHANGE_SECONDS = 0.03;
/** A long note is made of a shorter one in whole periods; the ends are laid over each other for so long. */
const LAP_SECONDS = 0.2;
const PAUSE_SECONDS = 0.6;
const SPECTRUM_SECONDS = 0.25;

/** Separately recorded notes, put one after the other as the keys of one string, perhaps over a drone. */
export interface ScaleOfNotes {
  readonly samples: Float32Array;
  readonly sampleRateHz: number;
  readonly notes: readonly {
    readonly key: number;
    readonly startSeconds: number;
    readonly endSeconds: number;
  }[];
  /** What the notes have alone over some stretch of the scale; searched from a frequency within 20 cents. */
  aloneHz(startSeconds: number, endSeconds: number, roughHz: number): number | null;
}

/**
 * @param notes - cut out of their recordings, all at one rate, with the key that each stands for
 * @param seconds - a key
 * @param drones - long enough for the scale, with their level against the notes
 */
export function scaleOfNotes(
  notes: readonly { readonly key: number; readonly cut: NoteCut }[],
  seconds: number,
  drones: readonly { readonly cut: NoteCut; readonly levelDb: number }[],
): ScaleOfNotes {
  const [
    {
      cut: { sampleRateHz },
    },
  ] = notes;
  const at = (time: number) => Math.round(time * sampleRateHz);
  const placed = notes.map(({ key, cut }, i) => {
    const startSeconds = PAUSE_SECONDS + i * seconds;
    return { key, cut, startSeconds, endSeconds: startSeconds + seconds };
  });
  const count = at(2 * PAUSE_SECONDS + notes.length * seconds);
  const alone = new Float32Array(count);
  for (const { cut, startSeconds } of placed) {
    lay(alone, cut, at(startSeconds), at(seconds + CHANGE_SECONDS), at(CHANGE_SECONDS), 0);
  }
  const samples = alone.slice();
  for (const { cut, levelDb } of drones) {
    lay(samples, cut, at(PAUSE_SECONDS), at(notes.length * seconds), at(CHANGE_SECONDS), levelDb);
  }
  return {
    samples,
    sampleRateHz,
    notes: placed.map(({ key, startSeconds, endSeconds }) => ({ key, startSeconds, endSeconds })),
    aloneHz: (startSeconds, endSeconds, roughHz) => {
      const segment = { samples: alone, sampleRateHz, firstSeconds: 0 };
      const size = nextPowerOfTwo(SPECTRUM_SECONDS * sampleRateHz);
      const heard = alone.subarray(at(startSeconds), at(endSeconds));
      const spectrum = averageSpectrum(heard, sampleRateHz, size);
      return fitHarmonics(segment, startSeconds, endSeconds, roughHz, [], spectrum)?.frequencyHz ?? null;
    },
  };
}

function lay(
  onto: Float32Array,
  cut: NoteCut,
  first: number,
  count: number,
  fade: number,
  levelDb: number,
): void {
  const from = Math.round(EDGE_SECONDS * cut.sampleRateHz);
  const heard = cut.samples.subarray(from, from + count);
  const rms = Math.sqrt(heard.reduce((sum, value) => sum + value * value, 0) / heard.length);
  const gain = (LEVEL * 10 ** (levelDb / 20)) / rms;
  for (let i = 0; i < count && first + i < onto.length; i++) {
    const end = Math.min(1, (i + 0.5) / fade, (count - i - 0.5) / fade);
    onto[first + i] += gain * Math.sin((Math.PI / 2) * end) ** 2 * (heard[i] ?? 0);
  }
}

/** The same note sounding on: whole periods of it over and over. */
export function longNote(cut: NoteCut, seconds: number): NoteCut {
  const { samples, sampleRateHz } = cut;
  const lap = Math.round(LAP_SECONDS * sampleRateHz);
  const segment = { samples, sampleRateHz, firstSeconds: 0 };
  const fit = fitHarmonics(segment, EDGE_SECONDS, EDGE_SECONDS + cut.seconds, cut.roughHz);
  const hz = fit?.frequencyHz ?? cut.roughHz;
  const periods = Math.floor(((samples.length - lap) / sampleRateHz) * hz) - 1;
  const loop = Math.round((periods / hz) * sampleRateHz);
  const whole = new Float32Array(Math.round((seconds + 2 * EDGE_SECONDS) * sampleRateHz));
  for (let start = 0; start < whole.length; start += loop) {
    for (let i = 0; i < loop + lap && start + i < whole.length; i++) {
      const begins = start === 0 ? 1 : Math.min(1, i / lap);
      const ends = Math.min(1, (loop + lap - i) / lap);
      whole[start + i] += Math.min(begins, ends) * (samples[i] ?? 0);
    }
  }
  return { ...cut, samples: whole, seconds };
}
