import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { readSympathetic } from "../../src/sympathetic/readSympathetic.js";
import { cents } from "../../src/units/cents.js";
import { frequencyHzToMidi } from "../../src/units/midiFrequency.js";
import { noteNameOfMidi } from "../../src/units/noteNameOfMidi.js";
import { pluckTake, type TakeWish, trueMeanHz } from "./pluckTake.js";

/** What came of reading many made-up takes. */
export interface PluckTrials {
  readonly played: number;
  /** Plucks that were not read, readings without a pluck, and plucks given to another string. */
  readonly missed: number;
  readonly invented: number;
  readonly misplaced: number;
  /** Size of the error of each pluck that was read, ascending. */
  readonly errorsCents: readonly number[];
  /** Share of the strings whose interval holds the truth, and how many strings that is. */
  readonly covered: number;
  readonly strings: number;
  /** Median half width of the intervals. */
  readonly halfWidthCents: number;
}

const SAME_MOMENT_SECONDS = 0.05;

/** Reads takes of seeds `from` to, not including, `to`. */
export function pluckTrials(from: number, to: number, wish: Omit<TakeWish, "seed">): PluckTrials {
  const errorsCents: number[] = [];
  const halves: number[] = [];
  let [played, missed, invented, misplaced, covered] = [0, 0, 0, 0, 0];
  for (let seed = from; seed < to; seed++) {
    const take = pluckTake({ seed, ...wish });
    const targets = take.targetsHz.map((targetHz, s) => ({
      name: `string ${s}`,
      role: "sympathetic" as const,
      note: noteNameOfMidi(Math.round(frequencyHzToMidi(targetHz, 440))),
      targetHz,
    }));
    const recording = memoryRecording([take.samples], take.sampleRateHz);
    const reading = readSympathetic(recording, { targets, a4Hz: 440 });
    const read = [
      ...reading.strings.flatMap(({ plucks }, s) => plucks.map((pluck) => ({ ...pluck, s }))),
      ...reading.strays.map((stray) => ({ ...stray, s: -1, startSeconds: 0, endSeconds: 1 })),
    ];
    const taken = new Set<unknown>();
    const truths = new Map<number, number[]>();
    for (const made of take.plucks) {
      played++;
      const found = read.find(
        (one) => !taken.has(one) && Math.abs(one.onsetSeconds - made.startSeconds) < SAME_MOMENT_SECONDS,
      );
      if (found === undefined) {
        missed++;
        continue;
      }
      taken.add(found);
      if (found.s !== made.string) {
        misplaced++;
        continue;
      }
      const truthHz = trueMeanHz(made.first, made.startSeconds, found.startSeconds, found.endSeconds);
      errorsCents.push(Math.abs(cents(found.frequencyHz, truthHz)));
      truths.set(made.string, [...(truths.get(made.string) ?? []), truthHz]);
    }
    invented += read.filter((one) => !taken.has(one)).length;
    for (const [s, string] of reading.strings.entries()) {
      const truthsHz = truths.get(s);
      if (truthsHz === undefined || string.interval95Cents === null) continue;
      // Of a string whose plucks wander, the interval is for where they wander about.
      const truthHz =
        wish.wanderCents === undefined
          ? truthsHz.reduce((sum, hz) => sum + hz / truthsHz.length, 0)
          : take.stringsHz[s]!;
      const [low, high] = string.interval95Cents;
      const truth = cents(truthHz, string.targetHz);
      halves.push((high - low) / 2);
      if (truth >= low && truth <= high) covered++;
    }
  }
  halves.sort((a, b) => a - b);
  return {
    played,
    missed,
    invented,
    misplaced,
    errorsCents: errorsCents.sort((a, b) => a - b),
    covered: covered / halves.length,
    strings: halves.length,
    halfWidthCents: halves[halves.length >> 1] ?? Number.NaN,
  };
}

/** Of ascending values. */
export function quantile(values: readonly number[], share: number): number {
  return values[Math.min(values.length - 1, Math.floor(share * values.length))] ?? Number.NaN;
}
