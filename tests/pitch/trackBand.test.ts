import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import type { PitchTrack } from "../../src/pitch/PitchTrack.js";
import type { TrackPart } from "../../src/pitch/TrackPart.js";
import { trackBand } from "../../src/pitch/trackBand.js";
import { trackPitch } from "../../src/pitch/trackPitch.js";
import { trackRest as steps } from "../../src/pitch/trackRest.js";
import { decimationFactor } from "../../src/signal/Decimator.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { bandToFill } from "../../src/strings/bandToFill.js";

const RATE_HZ = 8000;

function trackRest(...given: Parameters<typeof steps>): TrackPart {
  const all = steps(...given);
  for (;;) {
    const step = all.next();
    if (step.done) return step.value;
  }
}

/** Steady notes, glides, noise and silence of random lengths in turn, two channels. */
function restless(seed: number, seconds: number): Float32Array[] {
  const random = new SeededRandom(seed);
  const left = new Float32Array(seconds * RATE_HZ);
  const right = new Float32Array(left.length);
  let phase = 0;
  for (let at = 0; at < left.length; ) {
    const end = Math.min(left.length, at + Math.round(random.uniform(0.02, 1.2) * RATE_HZ));
    const kind = Math.floor(random.uniform(0, 4));
    const hz = random.uniform(60, 700);
    const glide = kind === 1 ? random.uniform(-0.5, 0.5) : 0;
    for (let i = at; i < end; i++) {
      phase += (2 * Math.PI * hz * (1 + (glide * (i - at)) / RATE_HZ)) / RATE_HZ;
      const tone = kind < 2 ? 0.2 * (Math.sin(phase) + 0.5 * Math.sin(2 * phase + 1)) : 0;
      const noise = random.normal(kind === 2 ? 0.1 : 1e-4);
      left[i] = tone + noise;
      right[i] = 0.5 * tone + random.normal(1e-4);
    }
    at = end;
  }
  return [left, right];
}

/** The track of a band that is filled in steps, with the rest from a frame on tracked by somebody else. */
function joinedAt(
  channels: readonly Float32Array[],
  rateHz: number,
  durationSeconds: number,
  firstFrame: number,
  rest: TrackPart,
  step: number,
): PitchTrack | null {
  return trackBand(
    channels,
    rateHz,
    durationSeconds,
    (seen) => Math.min(channels[0].length, seen + step),
    () => {},
    (frame) => (frame > firstFrame ? rest : null),
  );
}

/** To the bit: nobody may see whether another thread was there. */
function expectAlike(joined: PitchTrack | null, whole: PitchTrack): void {
  expect(joined?.frequencyHz).toEqual(whole.frequencyHz);
  expect(joined?.clarity).toEqual(whole.clarity);
  expect(joined?.levelDb).toEqual(whole.levelDb);
}

describe("trackBand", () => {
  it("gives the frames of trackPitch, wherever somebody else tracks the rest from and however the band is filled", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.integer({ min: 3, max: 8 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.integer({ min: 100, max: 30_000 }),
        (seed, seconds, share, step) => {
          const channels = restless(seed, seconds);
          const whole = trackPitch(memoryRecording(channels, RATE_HZ));
          const firstFrame = Math.floor(share * whole.frequencyHz.length);
          const rest = trackRest(channels, RATE_HZ, seconds, firstFrame);
          const joined = joinedAt(channels, RATE_HZ, seconds, firstFrame, rest, step);
          expectAlike(joined, whole);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("does so of recordings that are decimated, of odd lengths, too", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.constantFrom(11_025, 16_000, 44_100, 48_000),
        fc.integer({ min: 1, max: 40_000 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (seed, sampleRateHz, frames, share) => {
          const channels = restless(seed, 5).map((samples) => samples.slice(0, frames));
          const recording = memoryRecording(channels, sampleRateHz);
          const whole = trackPitch(recording);
          const band = bandToFill(recording, (byteLength) => new ArrayBuffer(byteLength));
          if (band === null) throw new Error("not kept");
          const filling = band.fill();
          while (!filling.next().done);
          const rate = sampleRateHz / decimationFactor(sampleRateHz);
          const { durationSeconds } = recording;
          const firstFrame = Math.floor(share * whole.frequencyHz.length);
          const rest = trackRest(band.channels, rate, durationSeconds, firstFrame);
          const joined = joinedAt(band.channels, rate, durationSeconds, firstFrame, rest, frames);
          expectAlike(joined, whole);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("uses what was tracked elsewhere: the frames of a rest that says otherwise come out as it says", () => {
    const channels = restless(5, 6);
    const rest = trackRest(channels, RATE_HZ, 6, 300);
    rest.frequencyHz.fill(123, 150);
    const joined = joinedAt(channels, RATE_HZ, 6, 300, rest, channels[0].length);
    expect([...(joined?.frequencyHz.slice(460) ?? [])].every((value) => value === 123)).toBe(true);
  });

  it("gives nothing of a band that nobody fills to its end", () => {
    const channels = restless(6, 2);
    expect(trackBand(channels, RATE_HZ, 2, (seen) => (seen < 9000 ? 9000 : null))).toBeNull();
  });
});
