/** One partial's frequency with its standard deviation in cents. */
export interface PartialPitch {
  readonly number: number;
  readonly frequencyHz: number;
  readonly deviationCents: number;
}

/** The law of a stiff string, fitted, and where the first partial stands. */
export interface StiffString {
  readonly firstHz: number;
  readonly deviationCents: number;
  /** Null where fewer than three partials tell. */
  readonly inharmonicity: number | null;
  readonly inharmonicityDeviation: number | null;
  /** How far partials stray from the law beyond their own uncertainty, as a standard deviation. */
  readonly strayCents: number;
}

const CENT = Math.LN2 / 1200;
const STIFFEST = 5e-3;
const FEWEST = 3;
/** Beating polarisations and a bridge that gives move a partial by less. */
const OUTLYING_CENTS = 25;
const LEAST_STRAY_CENTS = 1;

/**
 * Fits f_n = n f0 sqrt(1 + B n^2) (Fletcher 1964) to the partials and says where the first one stands.
 *
 * In ln(f_n / n) = ln f0 + ln(1 + B n^2) / 2 each partial counts with its variance and what all of them stray from the law by: a
 * bridge that gives moves single partials, and beating polarisations do. The first partial is then its own reading drawn towards
 * the law as far as the law holds (a random effect, Robinson 1991): where the partials keep to it, all of them give the
 * pitch; where they don't, the first one counts alone.
 *
 * @returns null where the first partial is missing and the law can't say it
 */
export function stiffString(given: readonly PartialPitch[]): StiffString | null {
  const partials = withoutOutliers(given);
  const own = partials.find(({ number }) => number === 1);
  if (partials.length < FEWEST) {
    return own === undefined
      ? null
      : {
          firstHz: own.frequencyHz,
          deviationCents: own.deviationCents,
          inharmonicity: null,
          inharmonicityDeviation: null,
          strayCents: 0,
        };
  }
  let stray = 0;
  let law = fitLaw(partials, stray);
  for (let i = 0; i < 20; i++) {
    // Paule & Mandel 1982: the stray that makes chi square its degrees of freedom.
    const excess = law.chiSquare - (partials.length - 2);
    if (excess <= 0 && stray === 0) break;
    const next = Math.max(0, stray + excess / law.slope);
    const isSettled = Math.abs(next - stray) < 1e-6;
    stray = next;
    law = fitLaw(partials, stray);
    if (isSettled) break;
  }
  const lawCents = law.baseCents + lawOffset(law.stiffness, 1);
  if (own === undefined) {
    return {
      firstHz: Math.exp(lawCents * CENT),
      deviationCents: Math.hypot(law.firstDeviation, Math.sqrt(stray)),
      inharmonicity: law.stiffness,
      inharmonicityDeviation: law.stiffnessDeviation,
      strayCents: Math.sqrt(stray),
    };
  }
  const share = stray / (stray + own.deviationCents ** 2);
  const ownCents = Math.log(own.frequencyHz) / CENT;
  const variance = share * own.deviationCents ** 2 + (1 - share) ** 2 * law.firstDeviation ** 2;
  return {
    firstHz: Math.exp((lawCents + share * (ownCents - lawCents)) * CENT),
    deviationCents: Math.sqrt(variance),
    inharmonicity: law.stiffness,
    inharmonicityDeviation: law.stiffnessDeviation,
    strayCents: Math.sqrt(stray),
  };
}

/** A partial that stands far from where the others put it was mistaken for something else. */
function withoutOutliers(given: readonly PartialPitch[]): readonly PartialPitch[] {
  let kept = given;
  while (kept.length > FEWEST) {
    const away = kept.map((one) => {
      const law = fitLaw(
        kept.filter((other) => other !== one),
        LEAST_STRAY_CENTS ** 2,
      );
      const left =
        Math.log(one.frequencyHz / one.number) / CENT - law.baseCents - lawOffset(law.stiffness, one.number);
      return Math.abs(left) / Math.hypot(one.deviationCents, OUTLYING_CENTS);
    });
    const worst = away.indexOf(Math.max(...away));
    if (away[worst] < 1) break;
    kept = kept.filter((_, i) => i !== worst);
  }
  return kept;
}

/** ln(1 + B n^2) / 2 in cents. */
function lawOffset(stiffness: number, number: number): number {
  return Math.log1p(stiffness * number * number) / 2 / CENT;
}

function fitLaw(partials: readonly PartialPitch[], stray: number) {
  let stiffness = 1e-5;
  let baseCents = 0;
  let [s, sx, sxx] = [0, 0, 0];
  for (let step = 0; step < 12; step++) {
    [s, sx, sxx] = [0, 0, 0];
    let [sy, sxy] = [0, 0];
    for (const { number, frequencyHz, deviationCents } of partials) {
      const weight = 1 / (deviationCents ** 2 + stray);
      const x = (number * number) / (2 * CENT * (1 + stiffness * number * number));
      const y = Math.log(frequencyHz / number) / CENT - lawOffset(stiffness, number) + stiffness * x;
      s += weight;
      sx += weight * x;
      sy += weight * y;
      sxx += weight * x * x;
      sxy += weight * x * y;
    }
    const next = Math.min(STIFFEST, Math.max(-1e-4, (s * sxy - sx * sy) / (s * sxx - sx * sx)));
    baseCents = (sy - next * sx) / s;
    const isSettled = Math.abs(next - stiffness) < 1e-10;
    stiffness = next;
    if (isSettled) break;
  }
  let chiSquare = 0;
  let slope = 0;
  for (const { number, frequencyHz, deviationCents } of partials) {
    const left = Math.log(frequencyHz / number) / CENT - baseCents - lawOffset(stiffness, number);
    const weight = 1 / (deviationCents ** 2 + stray);
    chiSquare += weight * left * left;
    slope += weight * weight * left * left;
  }
  const spread = s * sxx - sx * sx;
  const first = 1 / (2 * CENT * (1 + stiffness));
  return {
    baseCents,
    stiffness,
    chiSquare,
    slope: Math.max(slope, 1e-12),
    stiffnessDeviation: Math.sqrt(s / spread),
    // Of base + x_1 B.
    firstDeviation: Math.sqrt((sxx - 2 * first * sx + first * first * s) / spread),
  };
}
