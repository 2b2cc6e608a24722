import { SeededRandom } from "../statistics/SeededRandom.js";

/** A decaying mode of an invented body. */
export interface BodyMode {
  /** At which it rings: the imaginary part of its pole over 2 pi. */
  readonly frequencyHz: number;
  /** Frequency over half-power bandwidth; it decays as exp(-pi f t / Q). */
  readonly q: number;
  /** How strongly a force that lasts no time at all would start it, in decibels. */
  readonly strengthDb: number;
}

/** One tap: a push in the shape of half a sine wave. */
export interface Tap {
  readonly atSeconds: number;
  /** Peak force against other taps. */
  readonly force: number;
  readonly contactSeconds: number;
}

/** What is tapped, and how it is recorded. */
export interface TappedBodyOptions {
  readonly modes: readonly BodyMode[];
  readonly taps: readonly Tap[];
  readonly durationSeconds: number;
  readonly sampleRateHz: number;
  readonly seed: number;
  /** Peak of the loudest tap, of full scale. Default 0.5. */
  readonly peak?: number;
  /** Standard deviation of white noise against that peak; none where not given. */
  readonly noiseDb?: number;
  /** What a room makes of the sound, before noise is added; a room far from all walls where not given. */
  readonly room?: (dry: Float64Array) => Float64Array;
  /** Steady sine waves, against the peak. */
  readonly hum?: readonly { readonly frequencyHz: number; readonly levelDb: number }[];
}

/** A take of taps, and how each mode really began in each of them. */
export interface TappedBody {
  readonly samples: Float32Array;
  /**
   * By tap and mode: the complex amplitude c (real and imaginary part) of the free ringing Re(c exp(s t)), t from the start of the
   * tap, s = -pi f / Q + 2 pi j f.
   */
  readonly starts: readonly (readonly (readonly [number, number])[])[];
}

/**
 * A body that is tapped, with known truth: each mode is a damped oscillator driven by the force of every tap.
 *
 * The impulse response of a mode is exp(-pi f t / Q) sin(2 pi f t), sampled; a second-order recursion runs it over the sampled
 * force exactly. After the contact it rings freely with the amplitude that the force has at the mode's complex frequency.
 */
export function tappedBody(options: TappedBodyOptions): TappedBody {
  const { modes, taps, sampleRateHz, seed, peak = 0.5 } = options;
  const random = new SeededRandom(seed);
  const count = Math.round(options.durationSeconds * sampleRateHz);
  const force = new Float64Array(count);
  for (const { atSeconds, force: strength, contactSeconds } of taps) {
    const from = Math.ceil(atSeconds * sampleRateHz);
    for (let i = from; i < count && i / sampleRateHz < atSeconds + contactSeconds; i++) {
      force[i] += strength * Math.sin((Math.PI * (i / sampleRateHz - atSeconds)) / contactSeconds);
    }
  }
  const dry = new Float64Array(count);
  const signs = modes.map(() => (random.uniform() < 0.5 ? -1 : 1));
  for (const [k, mode] of modes.entries()) addMode(dry, force, mode, sampleRateHz, signs[k]!);
  const loudest = dry.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const scale = loudest > 0 ? peak / loudest : 0;
  const sound = options.room?.(dry) ?? dry;
  const noise = options.noiseDb === undefined ? 0 : peak * 10 ** (options.noiseDb / 20);
  const lines = (options.hum ?? []).map(({ frequencyHz, levelDb }) => ({
    radians: (2 * Math.PI * frequencyHz) / sampleRateHz,
    amplitude: peak * 10 ** (levelDb / 20),
    phase: random.uniform(0, 2 * Math.PI),
  }));
  const samples = Float32Array.from(sound, (value, i) => {
    const hum = lines.reduce(
      (sum, { radians, amplitude, phase }) => sum + amplitude * Math.sin(radians * i + phase),
      0,
    );
    return scale * value + hum + (noise > 0 ? random.normal(noise) : 0);
  });
  const starts = taps.map((tap) =>
    modes.map((mode, k) => startOf(force, tap, mode, scale * signs[k]!, sampleRateHz)),
  );
  return { samples, starts };
}

function addMode(out: Float64Array, force: Float64Array, mode: BodyMode, rateHz: number, sign: number): void {
  const radians = (2 * Math.PI * mode.frequencyHz) / rateHz;
  const keep = Math.exp(-radians / (2 * mode.q));
  const gain = sign * 10 ** (mode.strengthDb / 20) * keep * Math.sin(radians);
  const first = 2 * keep * Math.cos(radians);
  let [before, last] = [0, 0];
  for (let i = 0; i < out.length; i++) {
    const next = first * last - keep * keep * before + (i > 0 ? gain * force[i - 1] : 0);
    [before, last] = [last, next];
    out[i] += next;
  }
}

/** The sum of force times exp(-s t), t from the start of the tap, turned as the sine of the impulse response is. */
function startOf(
  force: Float64Array,
  tap: Tap,
  mode: BodyMode,
  scale: number,
  rateHz: number,
): readonly [number, number] {
  const radians = 2 * Math.PI * mode.frequencyHz;
  const decay = radians / (2 * mode.q);
  let [re, im] = [0, 0];
  for (let i = Math.ceil(tap.atSeconds * rateHz); i / rateHz < tap.atSeconds + tap.contactSeconds; i++) {
    const t = i / rateHz - tap.atSeconds;
    const size = (force[i] ?? 0) * Math.exp(decay * t);
    re += size * Math.cos(radians * t);
    im -= size * Math.sin(radians * t);
  }
  const gain = scale * 10 ** (mode.strengthDb / 20);
  return [gain * im, -gain * re];
}
