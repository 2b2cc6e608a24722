import { describe, expect, it } from "vitest";
import { HeldBand } from "../../src/audio/HeldBand.js";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { readAnalysisBand } from "../../src/audio/readAnalysisBand.js";
import { surveyRecording } from "../../src/audio/surveyRecording.js";
import { trackPitch } from "../../src/pitch/trackPitch.js";
import { decimationFactor } from "../../src/signal/Decimator.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";

const SECONDS = 2;

/** A tone beside an offset and noise, different in each channel. */
function channelsAt(rateHz: number): Float32Array[] {
  const random = new SeededRandom(rateHz);
  return [0.1, -0.3].map((offset, c) =>
    Float32Array.from(
      { length: SECONDS * rateHz },
      (_, i) => offset + 0.2 * Math.sin((2 * Math.PI * (200 + 50 * c) * i) / rateHz) + random.normal(0.01),
    ),
  );
}

describe("HeldBand", () => {
  it.each([8000, 22_050, 44_100, 48_000, 96_000])(
    "gives what reading and decimating a stretch again gives, at %d Hz",
    (rateHz) => {
      const recording = memoryRecording(channelsAt(rateHz), rateHz);
      const survey = surveyRecording(recording);
      const count = Math.ceil(recording.frameCount / decimationFactor(rateHz));
      const band = HeldBand.forRecording(recording.channelCount, count);
      trackPitch(
        recording,
        () => {},
        (piece) => band?.add(piece),
      );
      for (const span of [
        { startSeconds: 0.3, endSeconds: 1.7 },
        { startSeconds: 0, endSeconds: SECONDS },
        { startSeconds: 1.5, endSeconds: 5 },
      ]) {
        const again = readAnalysisBand(recording, survey, span);
        const held = readAnalysisBand(recording, { ...survey, band }, span);
        expect(held.map(({ length }) => length)).toEqual(again.map(({ length }) => length));
        for (const [c, samples] of held.entries()) {
          // The filter begins at the stretch or at the take: the same sums, but for rounding to single precision.
          for (let i = 0; i < samples.length; i++)
            expect(Math.abs(samples[i] - again[c][i])).toBeLessThan(1e-7);
        }
      }
      // The middle of the take was kept, so the above compared two ways.
      expect(band?.slice(100, 200)).not.toBeNull();
    },
  );

  it("keeps nothing of a long recording, and gives nothing that it has not got", () => {
    // 64 MiB of single-precision samples: 17.5 minutes of stereo at 8 kHz.
    expect(HeldBand.forRecording(2, 2 ** 23)).not.toBeNull();
    expect(HeldBand.forRecording(2, 2 ** 23 + 1)).toBeNull();
    const band = HeldBand.forRecording(1, 100);
    band?.add([new Float32Array(60).fill(1)]);
    expect(band?.slice(0, 61)).toBeNull();
    expect(band?.slice(10, 60)?.[0].length).toBe(50);
    band?.add([new Float32Array(60).fill(1)]);
    expect(band?.slice(0, 101)).toBeNull();
    expect(band?.slice(0, 100)?.[0].length).toBe(100);
  });
});
