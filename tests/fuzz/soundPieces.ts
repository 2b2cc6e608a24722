import type { SeededRandom } from "../../src/statistics/SeededRandom.js";

/** What a piece of a fuzzed recording may hold. */
const pieces: readonly ((random: SeededRandom, length: number, rateHz: number) => (i: number) => number)[] = [
  () => () => 0,
  (random) => {
    const level = 10 ** random.uniform(-5, 0);
    return () => level * random.uniform(-1, 1);
  },
  // A bowed string, with swing; some of them out of any range.
  (random, _, rateHz) => {
    const hz = 10 ** random.uniform(1.5, 3.1);
    const swing = random.uniform(0, 0.02) ** 3;
    const count = Math.max(1, Math.min(20, Math.floor(rateHz / 2 / hz)));
    const level = 10 ** random.uniform(-4, 0.5);
    return (i) => {
      const t = i / rateHz;
      const phase = 2 * Math.PI * hz * (t + swing * Math.sin(7 * t));
      let sum = 0;
      for (let n = 1; n <= count; n++) sum += Math.sin(n * phase) / n;
      return level * sum;
    };
  },
  // A pluck that dies away.
  (random, _, rateHz) => {
    const hz = 10 ** random.uniform(1.5, 3.2);
    const decay = 10 ** random.uniform(-0.5, 2.5);
    return (i) => Math.exp((-decay * i) / rateHz) * Math.sin((2 * Math.PI * hz * i) / rateHz);
  },
  // Clicks, one length apart.
  (random, length) => {
    const every = Math.max(2, Math.floor(random.uniform(2, length)));
    return (i) => (i % every === 0 ? random.uniform(-1, 1) : 0);
  },
  (random) => {
    const level = random.uniform(-1.5, 1.5);
    return () => level;
  },
  // Full scale, clipped.
  (random, _, rateHz) => {
    const hz = 10 ** random.uniform(1.5, 3);
    return (i) => Math.sign(Math.sin((2 * Math.PI * hz * i) / rateHz));
  },
  (random) => {
    const strange = [Number.NaN, Number.POSITIVE_INFINITY, -1e30, 1e-40, Number.MAX_VALUE];
    return () =>
      random.uniform(0, 1) < 0.01 ? strange[Math.floor(random.uniform(0, strange.length))]! : 0.1;
  },
];

const BOWED = 2;

/** Sound of a few pieces, each of a kind drawn at random, with jumps where they meet. */
export function soundPieces(random: SeededRandom, length: number, rateHz: number): Float64Array {
  const sound = new Float64Array(length);
  let from = 0;
  while (from < length) {
    const to = Math.min(length, from + 1 + Math.floor(random.uniform(0, 1) ** 2 * length));
    // Half of the pieces are bowed: the others would hide what is read of them.
    const kind = random.uniform(0, 1) < 0.5 ? BOWED : Math.floor(random.uniform(0, pieces.length));
    const at = pieces[kind]!(random, to - from, rateHz);
    for (let i = from; i < to; i++) sound[i] = at(i - from);
    from = to;
  }
  return sound;
}
