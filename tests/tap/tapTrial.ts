import { readTaps } from "../../src/tap/readTaps.js";
import type { ModeReading, TapReading } from "../../src/tap/TapReading.js";
import { type ModeBound, tapBound } from "./tapBound.js";
import { recordingOf, type TapTake, type TapTakeOptions, tapTake } from "./tapTake.js";

/** One true mode, what no method can beat, and what was read; null where it was not. */
export interface TrialMode {
  readonly seed: number;
  readonly frequencyHz: number;
  readonly q: number;
  /** Against the strongest mode, over all taps. */
  readonly strengthDb: number;
  readonly bound: ModeBound;
  /** The nearest neighbour is not more than 10 % away, above or below. */
  readonly isNeighbour: boolean;
  readonly mode: ModeReading | null;
}

/** A take, what it holds and what was read. */
export interface Trial {
  readonly take: TapTake;
  readonly reading: TapReading;
  readonly modes: readonly TrialMode[];
  /** Modes read where none is. */
  readonly falseModes: readonly ModeReading[];
}

/** A reading further from the truth than this is of something else. */
const FURTHEST = Math.log(1.04);

/** Makes a random take, reads it, and sets what was read beside the truth. */
export function tapTrial(options: TapTakeOptions): Trial {
  const take = tapTake(options);
  const reading = readTaps(recordingOf(take));
  const bounds = tapBound(take);
  const power = (k: number) => take.starts.reduce((sum, tap) => sum + Math.hypot(...tap[k]!) ** 2, 0);
  const strongest = Math.max(...take.modes.map((_, k) => power(k)));
  const free = new Set(reading.modes);
  const modes = take.modes.map(({ frequencyHz, q }, k): TrialMode => {
    const ranked = [...free].sort((a, b) => distance(a, frequencyHz) - distance(b, frequencyHz));
    const mode = ranked[0] !== undefined && distance(ranked[0], frequencyHz) < FURTHEST ? ranked[0] : null;
    if (mode !== null) free.delete(mode);
    const isNear = (other: { frequencyHz: number } | undefined) =>
      other !== undefined && Math.abs(Math.log(other.frequencyHz / frequencyHz)) < Math.log(1.101);
    return {
      seed: options.seed,
      frequencyHz,
      q,
      strengthDb: 10 * Math.log10(power(k) / strongest),
      bound: bounds[k]!,
      isNeighbour: isNear(take.modes[k - 1]) || isNear(take.modes[k + 1]),
      mode,
    };
  });
  return { take, reading, modes, falseModes: [...free] };
}

function distance({ frequencyHz }: ModeReading, hz: number): number {
  return Math.abs(Math.log(frequencyHz.value / hz));
}
