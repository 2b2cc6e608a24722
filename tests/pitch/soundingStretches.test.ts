import { describe, expect, it } from "vitest";
import type { PitchTrack } from "../../src/pitch/PitchTrack.js";
import { soundingStretches } from "../../src/pitch/soundingStretches.js";

type Part = readonly [frames: number, levelDb: number, clarity: number];

function trackOf(...parts: readonly Part[]): PitchTrack {
  const frames = parts.flatMap(([count, levelDb, clarity]) =>
    Array.from({ length: count }, () => ({ levelDb, clarity })),
  );
  return {
    hopSeconds: 0.01,
    frequencyHz: Float32Array.from(frames, ({ clarity }) => (clarity > 0.3 ? 196 : 0)),
    clarity: Float32Array.from(frames, ({ clarity }) => clarity),
    levelDb: Float32Array.from(frames, ({ levelDb }) => levelDb),
  };
}

const pause: Part = [100, -75, 0.1];
const note: Part = [200, -20, 0.95];
const muddle: Part = [200, -20, 0.2];

describe("soundingStretches", () => {
  it("are where it is loud, with or without a pitch", () => {
    const found = soundingStretches(trackOf(pause, note, pause, muddle, pause));
    // Frames are numbered from 0: 100 to 299 and 400 to 599.
    expect(found).toHaveLength(2);
    for (const [i, [start, end]] of [
      [1, 2.99],
      [4, 5.99],
    ].entries()) {
      expect(found[i].startSeconds).toBeCloseTo(start, 9);
      expect(found[i].endSeconds).toBeCloseTo(end, 9);
    }
  });

  it("are not ended by a dip of a tenth of a second, but by a pause", () => {
    expect(soundingStretches(trackOf(pause, note, [10, -75, 0.1], note, pause))).toHaveLength(1);
    expect(soundingStretches(trackOf(pause, note, [40, -75, 0.1], note, pause))).toHaveLength(2);
  });

  it("leave knocks out", () => {
    expect(soundingStretches(trackOf(pause, note, pause, [8, -25, 0.1], pause))).toHaveLength(1);
  });

  it("in a take without pauses, are only where there is a pitch: steady noise is no sound", () => {
    expect(soundingStretches(trackOf([500, -30, 0.1]))).toEqual([]);
    expect(soundingStretches(trackOf([300, -30, 0.1], note, [300, -30, 0.1]))).toHaveLength(1);
  });

  it("are none in silence", () => {
    expect(soundingStretches(trackOf([300, -200, 0]))).toEqual([]);
    expect(soundingStretches(trackOf())).toEqual([]);
  });
});
