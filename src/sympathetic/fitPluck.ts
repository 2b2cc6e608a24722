import { addMode } from "./addMode.js";
import { arePolarisations } from "./arePolarisations.js";
import { type DampedMode, strongest } from "./DampedMode.js";
import { fitPartial, type PartialFit } from "./fitPartial.js";
import { type GlideEvidence, glideEvidence } from "./glideEvidence.js";
import { LIKELY_FADE_SPREAD, LIKELY_RISE, likelyGlide } from "./likelyGlide.js";
import type { PitchGlide } from "./PitchGlide.js";
import { alongGlide, type PartialFrames, partialFrames } from "./partialFrames.js";
import type { OldMode } from "./partialModel.js";
import { startMode } from "./startMode.js";
import { VALUES_A_FRAME, withRestCosts } from "./withRestCosts.js";
import { withSecondMode } from "./withSecondMode.js";

/** One partial of a pluck, fitted. */
export interface PluckPartial {
  readonly number: number;
  readonly fit: PartialFit;
  /** Without the glide. */
  readonly frames: PartialFrames;
  /** Null where it tells nothing of the glide. */
  readonly evidence: GlideEvidence | null;
}

/** A pluck as decaying sines. */
export interface PluckFit {
  readonly partials: readonly PluckPartial[];
  /** Strings that rang before, amplitudes as they are after the pluck. */
  readonly old: readonly OldMode[];
  readonly glide: PitchGlide;
  /** False where the pitch is taken to be even from the beginning; what is known of a glide is told all the same. */
  readonly hasGlide: boolean;
  /** Covariance of rise and logarithm of fade: rise with itself, with fade, fade with itself. */
  readonly glideCovariance: readonly [number, number, number];
  /** What neither explains. */
  readonly rest: Float64Array;
  /** Twice the negative logarithm of the likelihood over the best, with what each second mode and the glide must be worth. */
  readonly cost: number;
  /** Other explanations that were tried, which explain the sound nearly as well, or less well. */
  readonly rivals: readonly PluckFit[];
}

const NO_GLIDE: PitchGlide = { rise: 0, fadePerSecond: 1 };
const FIRST_ROUNDS = 2;
/** Rounds of each explanation, and those in which two modes a partial are looked for. */
const EXPLANATIONS = {
  // A glide is settled before second modes may take its place.
  "glide-first": { rounds: 8, mayBeTwo: [6, 7] },
  "modes-first": { rounds: 6, mayBeTwo: [0, 1, 4] },
  "no-glide": { rounds: 4, mayBeTwo: [0, 1, 2] },
} as const;
/** What is tried first for what one decaying sine a partial does not explain. */
type Explanation = keyof typeof EXPLANATIONS;
/** Old modes this near a partial are corrected with it. */
const OLD_REACH_HZ = 30;
const OLD_SPREAD = 0.15;
const SHAKEN_SPREAD = 0.05;
const REACH_HZ = 12;
/** What a second mode must be worth: 99.7 % of chi square with 4 degrees of freedom. */
const SECOND_MODE_COST = 16;
/** Once so many partials have two, the others are likely to: 93 %. */
const FEW_SECOND_MODES = 2;
const FURTHER_MODE_COST = 9;
/** What a glide must be worth: twice the logarithm of what is likely over what is then known of it. */
const GLIDE_COST = 6;
const SMALL_RISE = 1e-5;

/**
 * Fits a pluck, partial by partial, each with all others taken out (as in SAGE, Fessler & Hero 1994, and RELAX, Li & Stoica 1996),
 * in rounds. What one decaying sine a partial does not explain may be a glide, the same for all partials, or a second mode of
 * single partials: both are tried first, and the likelier one stands.
 *
 * @param samples - from just after the pluck to just before the next
 * @param numbersHz - where each partial is, by its number
 * @param choices - what may ring from before, each a list of modes with their amplitudes at the first sample: the likeliest stands
 */
export function fitPluck(
  samples: Float64Array,
  sampleRateHz: number,
  numbersHz: ReadonlyMap<number, number>,
  choices: readonly (readonly DampedMode[])[],
): PluckFit & { readonly choice: number } {
  const firsts = choices.map((ringing, choice) => {
    const fit = firstFit(samples, sampleRateHz, numbersHz, ringing);
    return { fit, choice, ...likelyGlide(fit.partials, REACH_HZ) };
  });
  const { fit, choice, glide: likely } = firsts.reduce((a, b) => (b.cost < a.cost ? b : a));
  const finish = (glide: PitchGlide, explanation: Explanation) =>
    finished(fit, glide, explanation, sampleRateHz, numbersHz);
  const plain = finish({ ...likely, rise: 0 }, "no-glide");
  const isPlain = likely.rise <= SMALL_RISE && secondModes(plain.partials) === 0;
  const tried = withRestCosts([
    plain,
    ...(isPlain ? [] : [finish({ ...likely, rise: 0 }, "modes-first")]),
    ...(likely.rise > SMALL_RISE ? [finish(likely, "glide-first")] : []),
  ]).sort((a, b) => a.cost - b.cost);
  return { ...tried[0], rivals: tried.slice(1), choice };
}

/** One decaying sine a partial, no glide. */
function firstFit(
  samples: Float64Array,
  sampleRateHz: number,
  numbersHz: ReadonlyMap<number, number>,
  ringing: readonly DampedMode[],
): PluckFit {
  const rest = samples.slice();
  for (const mode of ringing) addMode(rest, sampleRateHz, mode, -1, NO_GLIDE);
  const old: OldMode[] = ringing.map((mode) => ({
    mode,
    re: 0,
    im: 0,
    spread: OLD_SPREAD * Math.hypot(mode.re, mode.im),
  }));
  let fit: PluckFit = {
    partials: [],
    old,
    glide: NO_GLIDE,
    hasGlide: false,
    glideCovariance: [LIKELY_RISE ** 2, 0, LIKELY_FADE_SPREAD ** 2],
    rest,
    cost: Number.POSITIVE_INFINITY,
    rivals: [],
  };
  for (let round = 0; round < FIRST_ROUNDS; round++)
    fit = fitRound(fit, sampleRateHz, numbersHz, false, false);
  return fit;
}

function finished(
  before: PluckFit,
  glide: PitchGlide,
  explanation: Explanation,
  sampleRateHz: number,
  numbersHz: ReadonlyMap<number, number>,
): PluckFit {
  const usualFade = glide.fadePerSecond;
  let fit = along({ ...before, rest: before.rest.slice() }, glide, sampleRateHz);
  const { rounds, mayBeTwo } = EXPLANATIONS[explanation];
  for (let round = 0; round < rounds; round++) {
    const isTwo = (mayBeTwo as readonly number[]).includes(round);
    fit = fitRound(fit, sampleRateHz, numbersHz, isTwo, round === 0);
    const { step, covariance } = glideStep(fit, usualFade);
    fit = { ...fit, hasGlide: explanation !== "no-glide", glideCovariance: covariance };
    if (explanation === "no-glide" || round === rounds - 1) continue;
    const moved = {
      // A string that swings wide is tenser: pitch falls from there, and never rises.
      rise: Math.max(0, fit.glide.rise + step[0]),
      fadePerSecond: fit.glide.fadePerSecond * Math.exp(Math.min(0.4, Math.max(-0.4, step[1]))),
    };
    fit = along(fit, moved, sampleRateHz);
  }
  const further = Math.max(0, secondModes(fit.partials) - FEW_SECOND_MODES);
  const cost =
    (secondModes(fit.partials) - further) * SECOND_MODE_COST +
    further * FURTHER_MODE_COST +
    (explanation === "no-glide" ? 0 : GLIDE_COST) +
    (fit.glide.rise / LIKELY_RISE) ** 2 +
    (Math.log(fit.glide.fadePerSecond / usualFade) / LIKELY_FADE_SPREAD) ** 2;
  return { ...fit, cost };
}

function secondModes(partials: readonly PluckPartial[]): number {
  return partials.filter(({ fit }) => fit.modes.length > 1).length;
}

/** Every partial once, with all others taken out; anew where a changed glide may want another start. Changes `rest` in place. */
function fitRound(
  { partials, old: given, ...fit }: PluckFit,
  sampleRateHz: number,
  numbersHz: ReadonlyMap<number, number>,
  mayBeTwo: boolean,
  isAnew: boolean,
): PluckFit {
  const next: PluckPartial[] = [];
  const old = [...given];
  const { glide, rest } = fit;
  const modeCost = secondModes(partials) > FEW_SECOND_MODES ? FURTHER_MODE_COST : SECOND_MODE_COST;
  for (const [number, aboutHz] of numbersHz) {
    const before = partials.find((one) => one.number === number);
    for (const mode of before?.fit.modes ?? []) addMode(rest, sampleRateHz, mode, 1, glide);
    const centreHz = before === undefined ? aboutHz : strongest(before.fit.modes).frequencyHz;
    const frames = partialFrames(rest, sampleRateHz, centreHz);
    const turned = alongGlide(frames, glide);
    const start = before?.fit.modes ?? [startMode(turned)];
    const size = Math.hypot(strongest(start).re, strongest(start).im);
    const near = old.flatMap((one, at) =>
      Math.abs(one.mode.frequencyHz - centreHz) < OLD_REACH_HZ
        ? [{ at, one: { ...one, spread: Math.hypot(one.spread, SHAKEN_SPREAD * size) } }]
        : [],
    );
    const nearOld = near.map(({ one }) => one);
    const starts = isAnew && before !== undefined ? [start, [startMode(turned)]] : [start];
    const again = likeliest(starts.map((modes) => fitPartial(turned, modes, nearOld, REACH_HZ)));
    const isOdd = again !== null && again.modes.length > 1 && !arePolarisations(again.modes, number);
    const single = isOdd ? fitPartial(turned, [strongest(again.modes)], nearOld, REACH_HZ) : again;
    const fitted =
      single !== null && mayBeTwo
        ? withSecondMode(turned, single, nearOld, REACH_HZ, modeCost / VALUES_A_FRAME, number)
        : single;
    if (fitted === null) continue;
    for (const mode of fitted.modes) addMode(rest, sampleRateHz, mode, -1, glide);
    for (const [k, { at }] of near.entries()) {
      const { mode, re, im } = fitted.old[k];
      addMode(rest, sampleRateHz, { ...mode, re: re - old[at].re, im: im - old[at].im }, -1, NO_GLIDE);
      old[at] = { ...old[at], re, im };
    }
    next.push({ number, fit: fitted, frames, evidence: glideEvidence(turned, fitted, glide) });
  }
  return { ...fit, partials: next, old };
}

function likeliest(fits: readonly (PartialFit | null)[]): PartialFit | null {
  return fits.reduce((a, b) => (a === null || (b !== null && b.restPower < a.restPower) ? b : a));
}

/** The same modes along another glide. Changes `rest` in place. */
function along(fit: PluckFit, glide: PitchGlide, sampleRateHz: number): PluckFit {
  for (const { fit: one } of fit.partials) {
    for (const mode of one.modes) {
      addMode(fit.rest, sampleRateHz, mode, 1, fit.glide);
      addMode(fit.rest, sampleRateHz, mode, -1, glide);
    }
  }
  return { ...fit, glide };
}

/** Gauss-Newton for rise and fade together, each drawn to what is likely. */
function glideStep({ partials, glide }: PluckFit, usualFade: number) {
  let [a, b, c] = [LIKELY_RISE ** -2, 0, LIKELY_FADE_SPREAD ** -2];
  let x = -glide.rise * a;
  let y = -Math.log(glide.fadePerSecond / usualFade) * c;
  for (const { evidence } of partials) {
    if (evidence === null) continue;
    x += evidence.score[0];
    y += evidence.score[1];
    a += evidence.information[0];
    b += evidence.information[1];
    c += evidence.information[2];
  }
  const determinant = a * c - b * b;
  return {
    step: [(c * x - b * y) / determinant, (a * y - b * x) / determinant] as const,
    covariance: [c / determinant, -b / determinant, a / determinant] as const,
  };
}
