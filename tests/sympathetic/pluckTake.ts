import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import {
  addPluck,
  type DampedTone,
  type PluckedNote,
  stiffStringTones,
} from "../../src/synthesis/pluckedString.js";
import { shiftByCents } from "../../src/units/cents.js";

/** One pluck of a made-up take. */
export interface MadePluck {
  readonly string: number;
  readonly startSeconds: number;
  /** The first partial's tones: their mean is the truth. */
  readonly first: readonly DampedTone[];
  /** Of the string. */
  readonly inharmonicity: number;
  readonly decaySeconds: number;
  readonly glideCents: number;
}

/** A take with what is true of it. */
export interface MadeTake {
  readonly samples: Float32Array;
  readonly sampleRateHz: number;
  readonly plucks: readonly MadePluck[];
  /** First partial of each string, its own polarisations aside. */
  readonly stringsHz: readonly number[];
  readonly targetsHz: readonly number[];
}

export interface TakeWish {
  readonly seed: number;
  readonly sampleRateHz?: number;
  /** MIDI notes of the strings; random ones where not given. */
  readonly notes?: readonly number[];
  readonly plucksAString?: number;
  readonly splitHz?: number;
  readonly glideCents?: number;
  readonly noiseDb?: number;
  readonly decaySeconds?: readonly [number, number];
  readonly gapSeconds?: readonly [number, number];
  /** Pitch from pluck to pluck, as a standard deviation. */
  readonly wanderCents?: number;
  /** How strongly other strings answer at shared partials. */
  readonly coupling?: number;
}

const REGISTERS = [48, 50, 52, 53, 55, 57, 59, 60, 62, 64, 65, 67, 69, 71, 72, 74, 76, 79, 81, 84];

/** A take of plucked strings, one after another in random order, which ring on unless plucked again. */
export function pluckTake(wish: TakeWish): MadeTake {
  const random = new SeededRandom(wish.seed);
  const { sampleRateHz = 48000, plucksAString = 1, splitHz = 0, glideCents = 0, noiseDb = 40 } = wish;
  const [shortest, longest] = wish.decaySeconds ?? [0.5, 6];
  const [leastGap, mostGap] = wish.gapSeconds ?? [0.7, 1.6];
  const notes =
    wish.notes ??
    shuffled(REGISTERS, random)
      .slice(0, 1 + Math.floor(random.uniform(0, 8)))
      .sort((a, b) => a - b);
  const strings = notes.map((note) => {
    const targetHz = 440 * 2 ** ((note - 69) / 12);
    return {
      targetHz,
      frequencyHz: shiftByCents(targetHz, random.uniform(-35, 35)),
      inharmonicity: 10 ** random.uniform(-5, -3),
      decaySeconds: shortest * (longest / shortest) ** random.uniform(),
      splitHz: splitHz * random.uniform(0.2, 1),
    };
  });
  const order = shuffled(
    strings.flatMap((_, s) => Array.from({ length: plucksAString }, () => s)),
    random,
  );
  let at = 0.8;
  const notesPlayed = order.map((s, k) => {
    const string = strings[s]!;
    const startSeconds = at;
    at += random.uniform(leastGap, mostGap);
    const own = shiftByCents(string.frequencyHz, random.normal(wish.wanderCents ?? 0));
    const tones = stiffStringTones(
      {
        ...string,
        frequencyHz: own,
        pluckedAt: random.uniform(0.08, 0.45),
        amplitude: 0.1 * 10 ** (random.uniform(-6, 6) / 20),
        dampingRise: random.uniform(0.05, 0.4),
      },
      random,
    );
    const glide = glideCents * random.uniform(0, 1);
    const again = order.indexOf(s, k + 1);
    const fade = random.uniform(1.6, 2.5) * (Math.log(1000) / string.decaySeconds);
    return { s, startSeconds, tones, glide, fade, again, string };
  });
  const endSeconds = at + 1.5;
  const samples = new Float32Array(Math.round(endSeconds * sampleRateHz));
  for (const { startSeconds, tones, glide, fade, again, s } of notesPlayed) {
    const note: PluckedNote = {
      startSeconds,
      ...(again >= 0 && { stopSeconds: notesPlayed[again]!.startSeconds - 0.03 }),
      tones,
      glideCents: glide,
      glideDecayPerSecond: fade,
    };
    addPluck(samples, sampleRateHz, note);
    for (const [o, other] of strings.entries()) {
      if (o !== s) addAnswer(samples, sampleRateHz, startSeconds, tones, other, wish.coupling ?? 0, random);
    }
  }
  let power = 0;
  for (const { tones } of notesPlayed) {
    power += tones.reduce((sum, { amplitude }) => sum + amplitude ** 2 / 2, 0) / notesPlayed.length;
  }
  // Within the band that partials lie in, to 3 kHz: the noise of the room is spread to half the rate.
  const noise = Math.sqrt(power * 10 ** (-noiseDb / 10) * (sampleRateHz / 2 / 3000));
  for (let i = 0; i < samples.length; i++) samples[i]! += random.normal(noise);
  return {
    samples,
    sampleRateHz,
    stringsHz: strings.map(({ frequencyHz }) => frequencyHz),
    targetsHz: strings.map(({ targetHz }) => targetHz),
    plucks: notesPlayed.map(({ s, startSeconds, tones, glide, string }) => ({
      string: s,
      startSeconds,
      first: tones.slice(0, splitHz === 0 ? 1 : 2),
      inharmonicity: string.inharmonicity,
      decaySeconds: string.decaySeconds,
      glideCents: glide,
    })),
  };
}

/** Another string answers where it shares a partial: from nothing, as the difference of two decaying sines. */
function addAnswer(
  samples: Float32Array,
  sampleRateHz: number,
  startSeconds: number,
  tones: readonly DampedTone[],
  other: { frequencyHz: number; inharmonicity: number; decaySeconds: number },
  coupling: number,
  random: SeededRandom,
) {
  if (coupling === 0) return;
  const { frequencyHz, inharmonicity } = other;
  for (const tone of tones.slice(0, 16)) {
    const n = Math.round(tone.frequencyHz / frequencyHz);
    const own = n * frequencyHz * Math.sqrt((1 + inharmonicity * n * n) / (1 + inharmonicity));
    if (n < 1 || Math.abs(own - tone.frequencyHz) > 12) continue;
    const amplitude = (coupling * tone.amplitude) / (1 + Math.abs(own - tone.frequencyHz));
    const phase = random.uniform(0, 2 * Math.PI);
    const decayPerSecond = Math.log(1000) / other.decaySeconds;
    addPluck(samples, sampleRateHz, {
      startSeconds,
      tones: [
        { frequencyHz: own, decayPerSecond, amplitude, phase },
        { ...tone, amplitude, phase: phase + Math.PI },
      ],
    });
  }
}

/** Mean frequency of tones over a stretch, weighted with their energy: by steps of 0.1 ms. */
export function trueMeanHz(
  tones: readonly DampedTone[],
  startSeconds: number,
  from: number,
  to: number,
): number {
  if (tones.length === 1) return tones[0]!.frequencyHz;
  let weighted = 0;
  let energy = 0;
  for (let t = from - startSeconds; t < to - startSeconds; t += 1e-4) {
    let [re, im, dRe, dIm] = [0, 0, 0, 0];
    for (const { frequencyHz, decayPerSecond, amplitude, phase } of tones) {
      const size = amplitude * Math.exp(-decayPerSecond * t);
      const omega = 2 * Math.PI * frequencyHz;
      const [c, s] = [size * Math.cos(omega * t + phase), size * Math.sin(omega * t + phase)];
      re += c;
      im += s;
      dRe += -decayPerSecond * c - omega * s;
      dIm += omega * c - decayPerSecond * s;
    }
    weighted += re * dIm - im * dRe;
    energy += re * re + im * im;
  }
  return weighted / energy / (2 * Math.PI);
}

function shuffled<T>(items: readonly T[], random: SeededRandom): T[] {
  const left = [...items];
  const result: T[] = [];
  while (left.length > 0) result.push(...left.splice(Math.floor(random.uniform(0, left.length)), 1));
  return result;
}
