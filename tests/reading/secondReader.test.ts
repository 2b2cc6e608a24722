import { describe, expect, it } from "vitest";
import type { AudioRecording } from "../../src/audio/AudioRecording.js";
import { HeldBand } from "../../src/audio/HeldBand.js";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { findTuning } from "../../src/instrument/findTuning.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import type { MeasureOptions } from "../../src/reading/MeasureOptions.js";
import { measureTake } from "../../src/reading/measureTake.js";
import { type JobKind, type ReadingContext, readingJobs } from "../../src/reading/readingJobs.js";
import type { SecondReader } from "../../src/reading/SecondReader.js";
import { bandToFill } from "../../src/strings/bandToFill.js";
import { trackRestOf } from "../../src/strings/trackRestOf.js";
import { bowedTake, NOTE_HZ, recordingOf } from "./bowedTake.js";

const { C2, G2, C3, G3, G4 } = NOTE_HZ;
const options: MeasureOptions = { targets: stringTargets(findTuning("alto-three")), a4Hz: 440 };

function ended<T>(steps: Generator<unknown, T>): T {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/**
 * Stands in for another thread: sees nothing but copies (as between threads), and does every second job, those begun before they are asked
 * for among them.
 */
function elsewhere(recording: AudioRecording, reads: "all" | "part" | "nothing") {
  const done: JobKind[] = [];
  let context: ReadingContext | null = null;
  const doThere = (kind: JobKind, call: unknown) => {
    done.push(kind);
    if (context === null) throw new Error("asked before anything was known");
    const job = readingJobs[kind] as (context: ReadingContext, call: unknown) => unknown;
    return structuredClone(job(context, structuredClone(call)));
  };
  const band = bandToFill(recording, (byteLength) => new SharedArrayBuffer(byteLength));
  if (band === null) throw new Error("too long to keep");
  const survey = ended(band.fill());
  const filled = band.channels[0].length;
  const tracked = trackRestOf(recording, band.channels, 100);
  const rest = tracked === null ? null : ended(tracked.steps);
  const second: SecondReader = {
    memory: (byteLength) => new SharedArrayBuffer(byteLength),
    ahead: {
      channels: band.channels,
      filledBeyond: (seen) =>
        reads === "all" || (reads === "part" && seen < filled / 2) ? Math.min(filled, seen + 10_000) : null,
      restFrom: (frame) => (rest !== null && frame > rest.firstFrame ? structuredClone(rest) : null),
      survey: () => structuredClone(survey),
    },
    prepare: ({ survey: known, targets }) => {
      const { band: held, ...plain } = known;
      context = {
        recording,
        targets: structuredClone(targets),
        survey: {
          ...structuredClone(plain),
          band: held ? new HeldBand(held.channels, held.channels[0].length) : null,
        },
      };
    },
    share: (kind, calls, here) =>
      calls.map((call, i) => (i % 2 === 0 ? here(call) : (doThere(kind, call) as ReturnType<typeof here>))),
    begin: (kind, call) => {
      const result = doThere(kind, call);
      return () => result as never;
    },
  };
  return { second, done };
}

const takes = {
  "strings in turn": recordingOf(
    bowedTake([{ frequencyHz: C2 }, { frequencyHz: G2 }, { frequencyHz: C3 }, { frequencyHz: G4 }], {
      seed: 3,
    }),
  ),
  "two and three together": recordingOf(
    bowedTake(
      [
        { frequencyHz: C2, together: [{ frequencyHz: G2 }], durationSeconds: 9 },
        { frequencyHz: C2, together: [{ frequencyHz: C3 }, { frequencyHz: G3 }], durationSeconds: 9 },
      ],
      { seed: 4 },
    ),
  ),
} as const;

describe("a take that another thread reads along", () => {
  for (const [name, recording] of Object.entries(takes)) {
    const alone = measureTake(recording, options);
    it(`${name}: comes out the same, to the last bit`, () => {
      const { second, done } = elsewhere(recording, "all");
      expect(measureTake(recording, options, second)).toEqual(alone);
      // It did have a part in it.
      expect(new Set(done)).toContain("check");
      expect(new Set(done)).toContain("mixture");
      expect(new Set(done)).toContain("wheel");
    });

    it(`${name}: also where the other stops reading ahead, or never began`, () => {
      expect(measureTake(recording, options, elsewhere(recording, "part").second)).toEqual(alone);
      expect(measureTake(recording, options, elsewhere(recording, "nothing").second)).toEqual(alone);
    });
  }

  it("never goes backwards in what it says of its progress, alone or not, and ends with 1", () => {
    const recording = takes["strings in turn"];
    for (const second of [null, elsewhere(recording, "all").second, elsewhere(recording, "part").second]) {
      const shares: number[] = [];
      measureTake(recording, { ...options, onProgress: (share) => shares.push(share) }, second);
      expect(shares.length).toBeGreaterThan(5);
      expect(shares).toEqual([...shares].sort((a, b) => a - b));
      expect(shares[shares.length - 1]).toBe(1);
      expect(shares[shares.length - 2]).toBeLessThan(1);
    }
  });

  it("tells of what can't be read as it does alone: of silence, and of values that are no sound", () => {
    for (const value of [0, Number.NaN]) {
      const recording = memoryRecording([new Float32Array(40_000).fill(value)], 8000);
      const read = (second: SecondReader | null) => {
        try {
          return measureTake(recording, options, second);
        } catch (error) {
          return error;
        }
      };
      const error = read(null);
      expect(error).toBeInstanceOf(Error);
      expect(read(elsewhere(recording, "all").second)).toEqual(error);
    }
  });
});
