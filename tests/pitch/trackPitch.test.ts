import { describe, expect, it, vi } from "vitest";
import type { AudioRecording } from "../../src/audio/AudioRecording.js";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { FrameTracker } from "../../src/pitch/FrameTracker.js";
import { trackPitch } from "../../src/pitch/trackPitch.js";
import { cents } from "../../src/units/cents.js";
import { addNoise, NOTES_HZ, oneOverN, toneOf } from "../synthesis/testTones.js";

const worstCents = (frequencyHz: Float32Array, from: number, to: number, truthHz: number) =>
  Math.max(...Array.from(frequencyHz.slice(from, to), (hz) => Math.abs(cents(hz, truthHz))));

describe.each([8000, 11025, 16000, 22050, 44100, 48000, 96000])("trackPitch at %i Hz", (sampleRateHz) => {
  it.each(["C2", "G4"] as const)("follows %s, in stereo with one channel upside down", (note) => {
    const frequencyHz = NOTES_HZ[note];
    const { samples } = toneOf({ frequencyHz, durationSeconds: 1, sampleRateHz });
    const track = trackPitch(memoryRecording([samples, samples.map((value) => -value)], sampleRateHz));
    expect(track.frequencyHz.length).toBe(101); // 0 to 1 s every 10 ms
    // No noise, constant pitch, whole frames: measured worst 0.03 cent; ten times that.
    expect(worstCents(track.frequencyHz, 22, 78, frequencyHz)).toBeLessThan(0.3);
    // Mean power of the partials up to 3 kHz, a full-scale sine being 1. The partial next to 3 kHz may lie half
    // within: 0.2^2 / 45^2 against 0.065, 0.001 dB, plus the ripple of the window over partials: 0.05 in all.
    const power = oneOverN(frequencyHz)
      .filter((_, index) => (index + 1) * frequencyHz <= 3000)
      .reduce((sum, amplitude) => sum + amplitude ** 2, 0);
    for (let k = 22; k < 78; k++) {
      expect(Math.abs(track.levelDb[k] - 10 * Math.log10(power))).toBeLessThan(0.05);
    }
  });
});

describe("trackPitch", () => {
  const rate = 8000;

  it("centres frame k on k * 10 ms", () => {
    // Silence until 1 s, then a tone: the frame at the joint is half full, and its power lies between 1 % and 99 %;
    // by the symmetry of the window half the tone's power within what the position of the wave makes of it.
    const samples = new Float32Array(2 * rate);
    samples.set(
      toneOf({ frequencyHz: 392, durationSeconds: 1, attackSeconds: 0, releaseSeconds: 0 }).samples,
      rate,
    );
    const { levelDb } = trackPitch(memoryRecording([samples], rate));
    const relative = (k: number) => levelDb[k] - levelDb[150];
    expect(Math.abs(relative(100) - 10 * Math.log10(0.5))).toBeLessThan(0.3);
    expect(relative(97)).toBeLessThan(-5); // 30 of 128 ms earlier: the window holds 4 to 20 % of its energy
    expect(relative(103)).toBeGreaterThan(-1);
  });

  it("gives the same track whatever pieces the recording hands out", () => {
    const { samples } = toneOf({ frequencyHz: 130.8, durationSeconds: 20, swingCents: 3, jitterCents: 0.5 });
    const other = addNoise(samples.slice(), 0.01, 5);
    const whole = memoryRecording([samples, other], rate);
    // A recording that hands out fewer frames than asked would be at its end; pieces are cut by the tracker itself.
    // Leading silence of one hop moves every piece boundary against the sound by 80 samples, and the track by one frame.
    const shifted = [samples, other].map((channel) => {
      const longer = new Float32Array(channel.length + 80);
      longer.set(channel, 80);
      return longer;
    });
    const track = trackPitch(whole);
    const later = trackPitch(memoryRecording(shifted, rate));
    for (let k = 10; k < 1990; k++) {
      expect(later.frequencyHz[k + 1]).toBe(track.frequencyHz[k]);
      expect(later.levelDb[k + 1]).toBe(track.levelDb[k]);
    }
  });

  it("shows every sample once, in order, and ends at a share of 1", () => {
    const samples = toneOf({ frequencyHz: 196, durationSeconds: 20 }).samples;
    const recording: AudioRecording = memoryRecording([samples], rate);
    let seen = 0;
    const shares: number[] = [];
    trackPitch(recording, ([piece], share) => {
      for (let i = 0; i < piece.length; i += 997) expect(piece[i]).toBe(samples[seen + i]);
      seen += piece.length;
      shares.push(share);
    });
    expect(seen).toBe(samples.length);
    expect(shares.at(-1)).toBe(1);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
  });

  it("says silence where there is silence, and is not upset by values that are not numbers", () => {
    const silent = trackPitch(memoryRecording([new Float32Array(rate)], rate));
    expect(silent.frequencyHz.every((hz) => hz === 0)).toBe(true);
    expect(silent.levelDb.every((db) => db === -200)).toBe(true);
    const { samples } = toneOf({ frequencyHz: 196, durationSeconds: 2 });
    samples[4000] = Number.NaN;
    samples[4001] = Number.POSITIVE_INFINITY;
    const track = trackPitch(memoryRecording([samples], rate));
    expect(track.frequencyHz.every((hz) => Number.isFinite(hz))).toBe(true);
    // A gap of two samples of 1024 is a click some 40 dB down.
    expect(worstCents(track.frequencyHz, 30, 170, 196)).toBeLessThan(2);
  });

  it("takes a recording shorter than one frame", () => {
    const track = trackPitch(memoryRecording([new Float32Array(40)], rate));
    expect(track.frequencyHz.length).toBe(1);
    expect(trackPitch(memoryRecording([new Float32Array(0)], rate)).levelDb[0]).toBe(-200);
  });

  /** What the tracker says of every frame, none left out. */
  const everyFrame = (samples: Float32Array) => {
    const tracker = new FrameTracker(rate);
    const half = tracker.frameSamples / 2;
    const padded = new Float32Array(samples.length + 2 * tracker.frameSamples);
    padded.set(samples, half);
    return Array.from({ length: Math.floor(samples.length / 80) + 1 }, (_, k) =>
      tracker.track([padded], 80 * k),
    );
  };

  it.each([
    [2, 1],
    [3, 3],
    [6, 3],
    [3, 5],
  ])("leaves frames out of a swing of %d cents, %d times a second, at no loss", (swingCents, swingRateHz) => {
    const { samples } = toneOf({
      frequencyHz: 98,
      durationSeconds: 6,
      swingCents,
      swingRateHz,
    });
    addNoise(samples, 1e-4, 3);
    const spy = vi.spyOn(FrameTracker.prototype, "track");
    const track = trackPitch(memoryRecording([samples], rate));
    const looked = spy.mock.calls.length;
    spy.mockRestore();
    expect(looked).toBeLessThan(0.9 * track.frequencyHz.length);
    for (const [k, { frequencyHz, power }] of everyFrame(samples).entries()) {
      if (k < 30 || k > 570) continue; // the tone fades in and out
      // A straight line over 50 ms leaves out (2 pi rate 0.05 s)^2 / 8 of the swing: 11 % at 3 Hz, 31 % at 5 Hz.
      const leftOut = (swingCents * (2 * Math.PI * swingRateHz * 0.05) ** 2) / 8;
      expect(Math.abs(cents(track.frequencyHz[k], frequencyHz)), `frame ${k}`).toBeLessThan(leftOut + 0.1);
      expect(Math.abs(track.levelDb[k] - 10 * Math.log10(power)), `frame ${k}`).toBeLessThan(0.3);
    }
  });

  it("leaves nothing out where a note begins, changes or stops for a moment", () => {
    const samples = new Float32Array(4 * rate);
    const tone = (frequencyHz: number, from: number, to: number) => {
      for (let i = from * rate; i < to * rate; i++) {
        for (let n = 1; n <= 8; n++) {
          samples[i] += (0.2 / n) * Math.cos((2 * Math.PI * n * frequencyHz * i) / rate + n * n);
        }
      }
    };
    tone(196, 0.5, 1.5);
    tone(198, 1.5, 2.5); // 18 cents up
    tone(198, 2.53, 3.5); // 30 ms of silence
    const track = trackPitch(memoryRecording([samples], rate));
    const frames = everyFrame(samples);
    for (const place of [50, 150, 251, 350]) {
      for (let k = place - 4; k <= place + 4; k++) {
        expect(track.frequencyHz[k]).toBe(Math.fround(frames[k].frequencyHz));
        expect(track.clarity[k]).toBe(Math.fround(frames[k].clarity));
      }
    }
  });
});
