import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { readSympathetic } from "../../src/sympathetic/readSympathetic.js";
import { addPluck, stiffStringTones } from "../../src/synthesis/pluckedString.js";
import { cents, shiftByCents } from "../../src/units/cents.js";

const STRINGS = [
  { name: "low", note: "D4", hz: 293.6648 },
  { name: "middle", note: "G4", hz: 391.9954 },
  { name: "high", note: "A4", hz: 440 },
];
const targets = STRINGS.map(({ name, note, hz }) => ({
  name,
  note,
  role: "sympathetic" as const,
  targetHz: hz,
}));
/** The bar of the command for synthesised plucks. */
const BAR_CENTS = 0.5;

interface Played {
  readonly hz: number;
  readonly at: number;
  readonly decaySeconds?: number;
}

function samplesOf(played: readonly Played[], seconds: number, seed: number, rate = 48000): Float32Array {
  const random = new SeededRandom(seed);
  const samples = new Float32Array(Math.round(seconds * rate));
  for (const { hz, at, decaySeconds = 3 } of played) {
    const string = { frequencyHz: hz, inharmonicity: 2e-4, decaySeconds, pluckedAt: 0.2, amplitude: 0.1 };
    addPluck(samples, rate, { startSeconds: at, tones: stiffStringTones(string, random) });
  }
  return samples.map((sample) => sample + random.normal(3e-4));
}

/** A sound that goes on evenly between two moments, as a bowed string does. */
function addHeld(samples: Float32Array, hz: number, from: number, to: number, rate = 48000) {
  for (let i = Math.round(from * rate); i < to * rate; i++) {
    const t = i / rate;
    const fade = Math.min(1, (t - from) / 0.06, (to - t) / 0.1);
    for (let n = 1; n <= 12; n++)
      samples[i]! += ((0.08 * fade) / n) * Math.sin(2 * Math.PI * n * hz * t + n * n);
  }
}

const read = (
  samples: Float32Array,
  given: Partial<Parameters<typeof readSympathetic>[1]> = {},
  rate = 48000,
) => readSympathetic(memoryRecording([samples], rate), { targets, a4Hz: 440, ...given });
const codes = ({ findings }: { findings: readonly { code: string }[] }) => findings.map(({ code }) => code);

describe("readSympathetic", () => {
  it.each([22050, 44100, 96000])("reads each string against its target, at %d samples a second", (rate) => {
    const off = [-12, 7, 0.5];
    const order = [2, 0, 1, 0];
    const played = order.map((s, k) => ({ hz: shiftByCents(STRINGS[s]!.hz, off[s]!), at: 0.7 + 1.1 * k }));
    const reading = read(samplesOf(played, 6, 11, rate), {}, rate);
    for (const [s, string] of reading.strings.entries()) {
      expect(string.status).toBe("measured");
      expect(Math.abs(string.deviationCents! - off[s]!)).toBeLessThan(BAR_CENTS);
      // Measured: 1 % at most; rests of other strings, and noise at about 40 dB.
      expect(Math.abs(string.decaySeconds! / 3 - 1)).toBeLessThan(0.05);
    }
    expect(reading.strings.map(({ plucks }) => plucks.length)).toEqual([2, 1, 1]);
    expect(reading.strays).toEqual([]);
  });

  it("says what was not heard, what is far off and what is none of the strings", () => {
    const played = [
      { hz: shiftByCents(293.6648, -150), at: 0.7 },
      { hz: 523.25, at: 2 },
      { hz: 392.5, at: 3.3 },
    ];
    const reading = read(samplesOf(played, 5, 12), { targets: targets.slice(0, 2) });
    expect(reading.strings[0]!.deviationCents).toBeCloseTo(-150, 0);
    expect(codes(reading.strings[0]!)).toContain("pluck-far-off");
    expect(reading.strays).toHaveLength(1);
    expect(reading.strays[0]!.note).toBe("C5");
    expect(codes(reading)).toContain("plucks-not-placed");
    const other = read(samplesOf([played[2]!], 5, 13));
    expect(other.strings.map(({ status }) => status)).toEqual(["not-heard", "measured", "not-heard"]);
    expect(other.strings[0]!.frequencyHz).toBeNull();
  });

  it("does not take a bowed drone for a pluck", () => {
    const samples = samplesOf([{ hz: 392, at: 4.2 }], 6, 14);
    addHeld(samples, 293.7, 0.7, 3.5);
    const reading = read(samples);
    expect(reading.strings.map(({ status }) => status)).toEqual(["not-heard", "measured", "not-heard"]);
    expect(codes(reading)).toContain("held-sound");
  });

  it("says so where nothing was plucked", () => {
    const samples = samplesOf([], 3, 15);
    addHeld(samples, 293.7, 0.7, 2.5);
    const reading = read(samples);
    expect(codes(reading)).toContain("no-pluck");
    expect(reading.strings.every(({ status }) => status === "not-heard")).toBe(true);
    expect(() => read(new Float32Array(48000))).toThrow("recording-silent");
    expect(() => read(new Float32Array(0))).toThrow("recording-empty");
  });

  it("tells an octave and a fifth over strings that still ring", () => {
    const hz = [146.8, 293.66 * 1.004, 440.4, 587.8];
    const played = hz.map((one, k) => ({ hz: one, at: 0.7 + 0.8 * k, decaySeconds: 5 }));
    const octaves = hz.map((targetHz, k) => ({ ...targets[0]!, name: `s${k}`, targetHz }));
    const reading = read(samplesOf(played, 5, 16), { targets: octaves });
    for (const string of reading.strings) {
      expect(string.plucks).toHaveLength(1);
      expect(Math.abs(string.deviationCents!)).toBeLessThan(BAR_CENTS);
    }
  });

  it("takes two strings of one note in the order of plucking, or as --order says", () => {
    const played = [
      { hz: 392, at: 0.7 },
      { hz: 393, at: 2.2 },
    ];
    const samples = samplesOf(played, 4.5, 17);
    const two = [
      { ...targets[1]!, name: "a" },
      { ...targets[1]!, name: "b" },
    ];
    const reading = read(samples, { targets: two });
    expect(reading.strings.map(({ frequencyHz }) => Math.round(10 * frequencyHz!) / 10)).toEqual([392, 393]);
    const turned = read(samples, { targets: two, order: ["b", "a"] });
    expect(turned.strings.map(({ frequencyHz }) => Math.round(10 * frequencyHz!) / 10)).toEqual([393, 392]);
    expect(codes(turned)).toContain("equal-plucks");
  });

  it("reads a string that stands on one side of a stereo recording", () => {
    const left = samplesOf([{ hz: 293.7, at: 0.7 }], 4, 18);
    const right = samplesOf([{ hz: 440.3, at: 2.2 }], 4, 19);
    const reading = readSympathetic(memoryRecording([left, right], 48000), { targets, a4Hz: 440 });
    expect(reading.strings.map(({ plucks }) => plucks.length)).toEqual([1, 0, 1]);
    expect(Math.abs(cents(reading.strings[2]!.frequencyHz!, 440.3))).toBeLessThan(BAR_CENTS);
    // Power mean: one of two channels is half the power.
    const alone = read(left).strings[0]!.levelDb!;
    expect(reading.strings[0]!.levelDb! - alone).toBeCloseTo(-3.01, 1);
  });

  it("reads against the nearest notes without targets", () => {
    const reading = read(
      samplesOf(
        [
          { hz: 445, at: 0.7 },
          { hz: 330, at: 2 },
          { hz: 445.1, at: 3.2 },
        ],
        5,
        20,
      ),
      {
        targets: null,
      },
    );
    expect(reading.strings.map(({ note, plucks }) => [note, plucks.length])).toEqual([
      ["E4", 1],
      ["A4", 2],
    ]);
    expect(reading.strings[0]!.role).toBeNull();
  });
});
