import { centroid } from "./centroid.js";
import type { DampedMode } from "./DampedMode.js";
import type { PluckFit, PluckPartial } from "./fitPluck.js";
import { glideLead } from "./PitchGlide.js";
import type { Pluck } from "./Pluck.js";
import { stiffString } from "./stiffString.js";

/** Partials clearer than this tell of the pitch: their power over that of the noise in as many frames. */
const CLEAR_PARTIAL = 4;
const CLEAR_FRAMES = 2;
/** Of modes that are carried on under the next pluck: T60 of 20 s. */
const LEAST_DECAY = 0.35;
const GLIDE_AT_SECONDS = 0.05;
/** A glide does not keep quite to the law that it is fitted by. */
const GLIDE_LAW_SHARE = 0.015;
/** The weight of a rival is its likelihood over that of what stands, exp(-cost / 2), and its square root that of a deviation. */
const RIVAL_COST = 4;
const MOST_APART_CENTS = 20;
/** Frames of 10 ms: a tenth of a second from the beginning, and again a quarter later. */
const EARLY_FRAMES = 10;
const LATE_FRAME = 25;
const CENT = Math.LN2 / 1200;

/**
 * What a fitted pluck says of its string. Where a glide or beating modes would explain the sound nearly as well as what
 * stands, the pitch that they give widens the uncertainty, the more the less they are behind.
 *
 * @param startSeconds - of the stretch that was fitted
 * @returns null where no partial is clear
 */
export function pluckOf(
  fit: PluckFit,
  onsetSeconds: number,
  startSeconds: number,
  seconds: number,
): Pluck | null {
  const pluck = readFit(fit, onsetSeconds, startSeconds, seconds);
  if (pluck === null) return null;
  const variance = fit.rivals.reduce((sum, rival) => {
    const other = readFit(rival, onsetSeconds, startSeconds, seconds);
    if (other === null) return sum;
    const apartCents = Math.log(other.frequencyHz / pluck.frequencyHz) / CENT;
    if (Math.abs(apartCents) > MOST_APART_CENTS) return sum;
    return sum + (Math.exp(-(rival.cost - fit.cost) / RIVAL_COST) * apartCents) ** 2;
  }, pluck.deviationCents ** 2);
  return { ...pluck, deviationCents: Math.sqrt(variance) };
}

function readFit(fit: PluckFit, onsetSeconds: number, startSeconds: number, seconds: number): Pluck | null {
  const clear = clearPartials(fit, seconds);
  // Partials 2, 4 and 6 alone are those of a string an octave higher.
  const divisor = clear.reduce((common, { number }) => greatestDivisor(common, number), 0);
  const string = stiffString(clear.map((one) => ({ ...one, number: one.number / divisor })));
  const [first] = clear;
  if (string === null || first === undefined) return null;
  const { middle, partial } = first;
  const [a, b] = partial.fit.modes;
  const { rise, fadePerSecond } = fit.glide;
  const atHear =
    Math.exp(-fadePerSecond * Math.max(0, GLIDE_AT_SECONDS - (startSeconds - onsetSeconds))) / CENT;
  const power = fit.partials.reduce(
    (sum, { fit: one }) => one.modes.reduce((all, { re, im }) => all + re * re + im * im, sum),
    0,
  );
  return {
    onsetSeconds,
    startSeconds,
    endSeconds: startSeconds + seconds,
    frequencyHz: string.firstHz,
    deviationCents: Math.hypot(
      string.deviationCents,
      fromGlideCents(fit, partial, middle.frequencyHz),
      (GLIDE_LAW_SHARE * rise) / CENT,
    ),
    inharmonicity: string.inharmonicity,
    inharmonicityDeviation: string.inharmonicityDeviation,
    decaySeconds: Math.log(1000) / middle.decayPerSecond,
    decayDeviationSeconds: (Math.log(1000) / middle.decayPerSecond ** 2) * middle.decayDeviation,
    glideCents: rise * atHear,
    glideDeviationCents: Math.sqrt(fit.glideCovariance[0]) * atHear,
    splitHz: b === undefined ? null : Math.abs(a.frequencyHz - b.frequencyHz),
    partialCount: clear.length,
    levelDb: 10 * Math.log10(Math.max(power, 1e-30)),
    holdShare: holdShare(clear.map((one) => one.partial)),
    modes: fit.partials.flatMap(({ fit: one }) =>
      one.modes.map((mode) => withGlide(mode, rise, fadePerSecond)),
    ),
  };
}

function clearPartials(fit: PluckFit, seconds: number) {
  return fit.partials.flatMap((partial) => {
    const { number, fit: one } = partial;
    const middle = centroid(one, seconds);
    const isClear = one.power - one.restPower > CLEAR_PARTIAL ** 2 * one.noiseVariance * CLEAR_FRAMES;
    const deviationCents = middle.frequencyDeviationHz / middle.frequencyHz / CENT;
    if (!isClear || !(middle.frequencyHz > 0) || !(deviationCents > 0)) return [];
    return [{ number, frequencyHz: middle.frequencyHz, deviationCents, middle, partial }];
  });
}

/** What the uncertainty of the glide makes of the first partial's pitch, in cents. */
function fromGlideCents(
  { glideCovariance, hasGlide }: PluckFit,
  { evidence }: PluckPartial,
  frequencyHz: number,
): number {
  if (evidence === null || !hasGlide) return 0;
  const [ofRise, shared, ofFade] = glideCovariance;
  const [byRise, byFade] = evidence.slopes;
  const variance = byRise ** 2 * ofRise + 2 * byRise * byFade * shared + byFade ** 2 * ofFade;
  return Math.sqrt(Math.max(0, variance)) / (2 * Math.PI * frequencyHz) / CENT;
}

/** Power of the partials some time after the pluck against that just after it: a bowed sound does not fade. */
function holdShare(partials: readonly PluckPartial[]): number {
  let early = 0;
  let late = 0;
  for (const { frames } of partials) {
    const lateFrom = Math.min(LATE_FRAME, Math.floor(frames.re.length / 2));
    for (let m = 0; m < EARLY_FRAMES; m++) {
      early += (frames.re[m] ?? 0) ** 2 + (frames.im[m] ?? 0) ** 2;
      late += (frames.re[lateFrom + m] ?? 0) ** 2 + (frames.im[lateFrom + m] ?? 0) ** 2;
    }
  }
  return early > 0 ? late / early : 1;
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}

/** Later on a glide is only a turn of phase, by what it gained in all. */
function withGlide(mode: DampedMode, rise: number, fadePerSecond: number): DampedMode {
  const angle = 2 * Math.PI * mode.frequencyHz * rise * glideLead(fadePerSecond, Number.POSITIVE_INFINITY);
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return {
    frequencyHz: mode.frequencyHz,
    // What seemed not to fade would be carried on for ever, or grow.
    decayPerSecond: Math.max(LEAST_DECAY, mode.decayPerSecond),
    re: mode.re * cos - mode.im * sin,
    im: mode.re * sin + mode.im * cos,
  };
}
