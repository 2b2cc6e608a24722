import type { SeededRandom } from "../statistics/SeededRandom.js";

/** One decaying sine. */
export interface DampedTone {
  /** Once the glide is over. */
  readonly frequencyHz: number;
  /** Of the amplitude, a second. */
  readonly decayPerSecond: number;
  /** At the pluck. */
  readonly amplitude: number;
  readonly phase: number;
}

/** One pluck as a sum of decaying sines. */
export interface PluckedNote {
  readonly startSeconds: number;
  /** Where a finger stops the string; it rings on where not given. */
  readonly stopSeconds?: number;
  readonly tones: readonly DampedTone[];
  /** How far all tones start too high. */
  readonly glideCents?: number;
  /** How fast the glide goes. */
  readonly glideDecayPerSecond?: number;
}

/** A stiff string, plucked. */
export interface StiffPluck {
  /** Of the first partial. */
  readonly frequencyHz: number;
  /** B in f_n = n f0 sqrt(1 + B n^2). */
  readonly inharmonicity: number;
  /** Time in which the first partial falls by 60 dB. */
  readonly decaySeconds: number;
  /** Share of its length at which it is plucked, 0 to 0.5. */
  readonly pluckedAt: number;
  /** Of the first partial, before the place of the pluck has its say. */
  readonly amplitude: number;
  /** By how much of the first partial's decay each further partial decays faster. */
  readonly dampingRise?: number;
  /** Distance of the two polarisations at the first partial; it grows with the number of the partial. */
  readonly splitHz?: number;
}

const ATTACK_SECONDS = 0.002;
const STOP_SECONDS = 0.008;
const BLOCK = 32;
const TOP_HZ = 9000;
const SILENCE = 1e-7;

/**
 * The tones of a plucked stiff string: f_n = n f0 sqrt(1 + B n^2) (Fletcher 1964), partial n at sin(n pi p) / n for a pluck at p
 * of the length, its decay the faster the higher its number, each a little stronger or weaker at random, as a body makes it. With
 * two polarisations every partial is two tones, the second of random strength and slower decay.
 */
export function stiffStringTones(string: StiffPluck, random: SeededRandom): DampedTone[] {
  const { frequencyHz, inharmonicity, decaySeconds, pluckedAt, amplitude, dampingRise = 0.2 } = string;
  const { splitHz = 0 } = string;
  const tones: DampedTone[] = [];
  for (let n = 1; n <= 40; n++) {
    const hz = n * frequencyHz * Math.sqrt((1 + inharmonicity * n * n) / (1 + inharmonicity));
    if (hz > TOP_HZ) break;
    const strength = (amplitude * Math.sin(n * Math.PI * pluckedAt)) / n;
    const bodied = strength * 10 ** (random.uniform(-4, 4) / 20);
    const decayPerSecond = (Math.log(1000) / decaySeconds) * (1 + dampingRise * (n - 1));
    const phase = random.uniform(0, 2 * Math.PI);
    if (splitHz === 0) {
      tones.push({ frequencyHz: hz, decayPerSecond, amplitude: bodied, phase });
      continue;
    }
    const apart = (n * splitHz) / 2;
    const second = random.uniform(0.2, 0.7);
    tones.push(
      { frequencyHz: hz + apart, decayPerSecond, amplitude: bodied, phase },
      {
        frequencyHz: hz - apart,
        decayPerSecond: decayPerSecond * random.uniform(0.5, 1),
        amplitude: second * bodied,
        phase: phase + random.uniform(-0.6, 0.6),
      },
    );
  }
  return tones;
}

/**
 * Adds a pluck to a recording: 2 ms to full strength, then every tone decays by itself. All tones start sharp by the glide, which
 * fades as exp(-r t): the tension that a wide swing adds goes as its square, so r is about twice the decay of the amplitude (Legge &
 * Fletcher 1984).
 */
export function addPluck(samples: Float32Array, sampleRateHz: number, note: PluckedNote): void {
  const { startSeconds, stopSeconds = Number.POSITIVE_INFINITY, glideCents = 0 } = note;
  const rise = glideCents === 0 ? 0 : 2 ** (glideCents / 1200) - 1;
  const fade = note.glideDecayPerSecond ?? 1;
  const first = Math.max(0, Math.ceil(startSeconds * sampleRateHz));
  for (const { frequencyHz, decayPerSecond, amplitude, phase } of note.tones) {
    const lasts = Math.log(Math.abs(amplitude) / SILENCE) / decayPerSecond;
    const end = Math.min(
      samples.length,
      Math.ceil((Math.min(startSeconds + lasts, stopSeconds + STOP_SECONDS) + 1e-9) * sampleRateHz),
    );
    const shrink = Math.exp(-decayPerSecond / sampleRateHz);
    for (let from = first; from < end; from += BLOCK) {
      const t = from / sampleRateHz - startSeconds;
      const angle = 2 * Math.PI * frequencyHz * (t + (rise * (1 - Math.exp(-fade * t))) / fade) + phase;
      const step =
        (2 * Math.PI * frequencyHz * (1 + rise * Math.exp(-fade * (t + BLOCK / 2 / sampleRateHz)))) /
        sampleRateHz;
      const cos = shrink * Math.cos(step);
      const sin = shrink * Math.sin(step);
      const size = amplitude * Math.exp(-decayPerSecond * t);
      let re = size * Math.cos(angle);
      let im = size * Math.sin(angle);
      for (let i = from; i < Math.min(end, from + BLOCK); i++) {
        const since = i / sampleRateHz - startSeconds;
        const until = (stopSeconds + STOP_SECONDS - startSeconds - since) / STOP_SECONDS;
        samples[i] += im * Math.min(1, since / ATTACK_SECONDS) * Math.max(0, Math.min(1, until));
        const next = re * cos - im * sin;
        im = re * sin + im * cos;
        re = next;
      }
    }
  }
}
