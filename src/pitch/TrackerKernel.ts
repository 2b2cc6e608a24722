import { fourierTables } from "../kernels/fourierTables.js";
import { keepValues } from "../kernels/keepValues.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import { hannWindow } from "../signal/hannWindow.js";
import { sharedFft } from "../signal/sharedFft.js";

const VALUE_BYTES = Float64Array.BYTES_PER_ELEMENT;
/** The kernel sums eight bins at a time; so many zeros it may meet beyond the last. */
const ZEROS_BEYOND = 8;
/** A lag that may be a peak, and a peak that was refined. */
const BYTES_A_LAG = 20;

interface Range {
  readonly minimum: number;
  readonly maximum: number;
}

/** What makes a peak of the correlation; `FrameTracker` says why. */
interface PeakRules {
  readonly leastClarity: number;
  readonly firstPeakShare: number;
  readonly roughShare: number;
  readonly dipShare: number;
}

/** What only the size decides, made once for each. */
interface Tables {
  /** Place of the window in the kernels' memory. */
  readonly window: number;
  /** Place of sine and cosine of pi k / (size / 2), one pair after another. */
  readonly waves: number;
  readonly windowEnergy: number;
  /** What the correlation of a lone sine comes down to at each lag. */
  readonly envelope: Float64Array;
}

/** Parts of the scratch memory, counted in bytes from where it begins. */
interface Layout<P extends string> {
  readonly byteCount: number;
  readonly parts: Readonly<Record<P, number>>;
}

const tablesOf = new Map<number, Tables>();

/** Runs the steps of the pitch tracker that look at every sample and every bin, as kernels (`kernels/assembly/tracker.ts`). */
export class TrackerKernel {
  /** Sum of the squares of the window. */
  readonly windowEnergy: number;
  private readonly size: number;
  private readonly bins: { readonly first: number; readonly last: number };
  private readonly lags: Range;
  private readonly rules: PeakRules;
  private readonly tables: Tables;
  private readonly envelope: Float64Array;
  private readonly forPower: Layout<"samples" | "values" | "work" | "power">;
  private readonly forPeak: Layout<
    "power" | "amplitude" | "folded" | "work" | "correlation" | "envelope" | "lags" | "result"
  >;

  /**
   * @param size - samples in a frame, a power of two
   * @param bins - that are looked at, both included
   * @param lags - in samples, both included
   */
  constructor(
    size: number,
    bins: { readonly first: number; readonly last: number },
    lags: Range,
    rules: PeakRules,
  ) {
    this.size = size;
    this.bins = bins;
    this.lags = lags;
    this.rules = rules;
    this.tables = tablesOf.get(size) ?? makeTables(size);
    this.windowEnergy = this.tables.windowEnergy;
    const count = lags.maximum + 2;
    this.envelope = this.tables.envelope.subarray(0, count);
    const half = size / 2;
    const powers = VALUE_BYTES * (half + 1);
    this.forPower = layout({
      samples: 2 * size * Float32Array.BYTES_PER_ELEMENT,
      values: 2 * size * VALUE_BYTES,
      work: 2 * size * VALUE_BYTES,
      power: powers,
    });
    this.forPeak = layout({
      power: powers,
      amplitude: VALUE_BYTES * (half + 1 + ZEROS_BEYOND),
      folded: VALUE_BYTES * (half + 2),
      work: VALUE_BYTES * (half + 2),
      correlation: VALUE_BYTES * (count + 1),
      envelope: VALUE_BYTES * count,
      lags: BYTES_A_LAG * count + 16,
      result: 2 * VALUE_BYTES,
    });
  }

  /**
   * Power of the windowed frames from `start` at bins 0 to half of the size, the channels added up.
   *
   * @param power - filled; 0 outside of the bins that are looked at
   */
  powerOf(power: Float64Array, channels: readonly Float32Array[], start: number): void {
    const { size, bins, tables, forPower } = this;
    const at = kernels().scratch(forPower.byteCount, ScratchUser.tracker);
    const samples = at + forPower.parts.samples;
    const values = at + forPower.parts.values;
    const work = at + forPower.parts.work;
    const sums = at + forPower.parts.power;
    const both = fourierTables(size);
    const one = fourierTables(size / 2);
    const { functions, f32, f64 } = kernels();
    const firstSum = sums / VALUE_BYTES;
    const firstSample = samples / Float32Array.BYTES_PER_ELEMENT;
    f64.fill(0, firstSum, firstSum + power.length);
    for (let c = 0; c < channels.length; c += 2) {
      f32.set(channels[c].subarray(start, start + size), firstSample);
      if (c + 1 < channels.length) {
        f32.set(channels[c + 1].subarray(start, start + size), firstSample + size);
        const second = samples + size * Float32Array.BYTES_PER_ELEMENT;
        // biome-ignore format: arguments of a kernel, its places first
        functions.addPowers(samples, second, tables.window, size, values, work, both.factors, sums, bins.first, bins.last);
      } else {
        // biome-ignore format: as above
        functions.addPower(samples, tables.window, size, values, work, one.factors, one.turns, sums, bins.first, bins.last);
      }
    }
    power.set(f64.subarray(firstSum, firstSum + power.length));
  }

  /** The first high peak of the correlation that a power spectrum has: its lag in samples, 0 where there is none, and its height. */
  firstHighPeak(power: Float64Array): { lag: number; height: number } {
    const { size, bins, lags, rules, envelope, tables, forPeak } = this;
    const half = size / 2;
    const { factors, turns } = fourierTables(half / 2);
    const at = kernels().scratch(forPeak.byteCount, ScratchUser.tracker);
    const { parts } = forPeak;
    const [powers, amplitude, correlation] = [at + parts.power, at + parts.amplitude, at + parts.correlation];
    const [folded, work, result] = [at + parts.folded, at + parts.work, at + parts.result];
    const { functions, f64 } = kernels();
    f64.set(power, powers / VALUE_BYTES);
    f64.fill(0, amplitude / VALUE_BYTES, folded / VALUE_BYTES);
    f64.set(envelope, (at + parts.envelope) / VALUE_BYTES);
    // biome-ignore format: as above
    functions.correlate(powers, amplitude, bins.first, bins.last, half, tables.waves, folded, work, factors, turns, correlation, envelope.length);
    // biome-ignore format: as above
    functions.firstHighPeak(correlation, at + parts.envelope, amplitude, size, bins.first, bins.last, lags.minimum, lags.maximum, rules.leastClarity, rules.firstPeakShare, rules.roughShare, rules.dipShare, at + parts.lags, result);
    return { lag: f64[result / VALUE_BYTES], height: f64[result / VALUE_BYTES + 1] };
  }
}

/** Parts one after another, each from a multiple of 16 bytes on. */
function layout<P extends string>(byteCounts: Readonly<Record<P, number>>): Layout<P> {
  const parts = {} as Record<P, number>;
  let byteCount = 0;
  for (const name of Object.keys(byteCounts) as P[]) {
    parts[name] = byteCount;
    byteCount += Math.ceil(byteCounts[name] / 16) * 16;
  }
  return { byteCount, parts };
}

function makeTables(size: number): Tables {
  const half = size / 2;
  const window = hannWindow(size);
  const waves = new Float64Array(2 * half);
  for (let k = 0; k < half; k++) {
    waves[2 * k] = Math.sin((Math.PI * k) / half);
    waves[2 * k + 1] = Math.cos((Math.PI * k) / half);
  }
  const windowEnergy = window.reduce((sum, value) => sum + value * value, 0);
  const tables = {
    window: keepValues(window),
    waves: keepValues(waves),
    windowEnergy,
    envelope: envelopeOf(window),
  };
  tablesOf.set(size, tables);
  return tables;
}

function envelopeOf(window: Float64Array): Float64Array {
  const size = window.length;
  const input = new Float64Array(2 * size);
  const spectrum = new Float64Array(2 * size);
  for (let i = 0; i < size; i++) {
    input[2 * i] = window[i] * Math.cos((Math.PI * i) / 2);
    input[2 * i + 1] = window[i] * Math.sin((Math.PI * i) / 2);
  }
  sharedFft(size).forward(spectrum, input);
  for (let k = 0; k < size; k++) {
    input[2 * k] = Math.hypot(spectrum[2 * k], spectrum[2 * k + 1]);
    input[2 * k + 1] = 0;
  }
  sharedFft(size).forward(spectrum, input);
  return Float64Array.from({ length: size / 2 }, (_, lag) =>
    Math.max(1e-3, Math.hypot(spectrum[2 * lag], spectrum[2 * lag + 1]) / spectrum[0]),
  );
}
