import { Decimator } from "../signal/Decimator.js";
import { hannWindow } from "../signal/hannWindow.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import { sharedFft } from "../signal/sharedFft.js";
import type { AudioRecording } from "./AudioRecording.js";
import type { Spectrogram } from "./Spectrogram.js";
import { withoutNonFinite } from "./withoutNonFinite.js";

const PIECE_FRAMES = 65_536;
/** Long enough to part the partials of the lowest drone. */
const WINDOW_SECONDS = 0.25;
const SHORTEST_STEP_SECONDS = 0.04;
const LOWEST_HZ = 45;
const HIGHEST_HZ = 2900;
const ROWS_PER_OCTAVE = 36;
const RANGE_DB = 60;

/**
 * Spectrogram of a take for a picture: power spectra of 0.25 to 0.5 s (Hann), channels as their power mean, rows a third
 * of a semitone apart. Where a row is narrower than the spectrum's bins it takes the nearest, else the strongest in it.
 *
 * @param columns - about so many, fewer in a short take
 */
export function spectrogramOf(recording: AudioRecording, columns = 1000): Spectrogram {
  const decimators = Array.from(
    { length: recording.channelCount },
    () => new Decimator(recording.sampleRateHz),
  );
  const rate = decimators[0]!.outputRateHz;
  const size = nextPowerOfTwo(WINDOW_SECONDS * rate);
  const columnSeconds = Math.max(SHORTEST_STEP_SECONDS, recording.durationSeconds / columns);
  const columnCount = Math.max(1, Math.floor(recording.durationSeconds / columnSeconds));
  const rowCount = Math.round(Math.log2(HIGHEST_HZ / LOWEST_HZ) * ROWS_PER_OCTAVE);
  const powers = new Float64Array(columnCount * rowCount);
  const window = hannWindow(size);
  const input = new Float64Array(size);
  const output = new Float64Array(size + 2);
  const bins = rowBins(rowCount, size, rate);
  let held: Float32Array[] = decimators.map(() => new Float32Array(size / 2));
  let heldStart = -size / 2;
  let column = 0;
  const startOf = (index: number) => Math.round((index + 0.5) * columnSeconds * rate) - size / 2 - heldStart;
  const take = (added: readonly Float32Array[]) => {
    held = held.map((old, channel) => joined(old, added[channel]!));
    for (; column < columnCount && startOf(column) + size <= held[0]!.length; column++) {
      const start = startOf(column);
      for (const samples of held) {
        for (let i = 0; i < size; i++) input[i] = window[i]! * samples[start + i]!;
        sharedFft(size).real(output, input);
        for (const [row, [from, to]] of bins.entries()) {
          let strongest = 0;
          for (let k = from; k <= to; k++) {
            strongest = Math.max(strongest, output[2 * k]! ** 2 + output[2 * k + 1]! ** 2);
          }
          powers[column * rowCount + row] += strongest;
        }
      }
    }
    const used = Math.max(0, Math.min(held[0]!.length, startOf(column)));
    held = held.map((samples) => samples.slice(used));
    heldStart += used;
  };
  for (let start = 0; start < recording.frameCount; start += PIECE_FRAMES) {
    const piece = recording.read(start, PIECE_FRAMES);
    take(piece.map((samples, channel) => decimators[channel]!.push(withoutNonFinite(samples))));
  }
  take(decimators.map((decimator) => decimator.finish()));
  take(decimators.map(() => new Float32Array(size)));
  return {
    columnSeconds,
    columnCount,
    lowestHz: LOWEST_HZ,
    highestHz: HIGHEST_HZ,
    rowCount,
    levels: scaled(powers),
    rangeDb: RANGE_DB,
  };
}

/** First and last bin of each row. */
function rowBins(rowCount: number, size: number, rate: number): [number, number][] {
  const edge = (row: number) => LOWEST_HZ * (HIGHEST_HZ / LOWEST_HZ) ** (row / rowCount);
  return Array.from({ length: rowCount }, (_, row) => {
    const from = Math.ceil((edge(row) * size) / rate);
    const to = Math.ceil((edge(row + 1) * size) / rate) - 1;
    const nearest = Math.round((edge(row + 0.5) * size) / rate);
    return from <= to ? [from, to] : [nearest, nearest];
  });
}

function scaled(powers: Float64Array): Uint8Array {
  let top = 0;
  for (const power of powers) if (power > top) top = power;
  return Uint8Array.from(powers, (power) => {
    if (!(power > 0)) return 0;
    const aboveFloor = RANGE_DB + 10 * Math.log10(power / top);
    return Math.max(0, Math.round((255 * aboveFloor) / RANGE_DB));
  });
}

function joined(first: Float32Array, second: Float32Array): Float32Array {
  const both = new Float32Array(first.length + second.length);
  both.set(first);
  both.set(second, first.length);
  return both;
}
