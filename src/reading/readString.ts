import type { Finding } from "../audio/Finding.js";
import { LOW_REGISTER_EDGE_HZ } from "../body/bandEdges.js";
import { lowRegister } from "../body/lowRegister.js";
import { oddToEvenDb } from "../body/oddToEvenDb.js";
import { tristimulus } from "../body/tristimulus.js";
import type { StringRole } from "../instrument/Instrument.js";
import type { PartialLevel } from "../partials/PartialLevel.js";
import { combinePassages } from "../strings/combinePassages.js";
import { isHeard } from "../strings/isHeard.js";
import type { MeasuredPassage, PartialPower } from "../strings/MeasuredPassage.js";
import { movedFinding } from "../strings/movedFinding.js";
import { unsteadyFinding } from "../strings/passageFindings.js";
import type { PassageReading, StringReading } from "../strings/StringReading.js";
import { isStanding, type Standing } from "../strings/standingMixtures.js";
import { cents } from "../units/cents.js";
import { powerToDb } from "../units/decibels.js";

/** What a string is called and should be. */
interface ReadingTarget {
  readonly name: string;
  readonly role: StringRole | null;
  readonly targetHz: number;
}

const FAR_OFF_CENTS = 60;
/** Passages of one string further apart than this were not one tuning, whatever their intervals. */
const PASSAGE_SPREAD_CENTS = 3;

/**
 * The reading of one string from its passages; status `not-heard` without any.
 *
 * @param lowEdgeHz - where the low register ends
 * @param standing - of a string that moved, when it stood: only passages in that time count, though all are listed
 */
export function readString(
  target: ReadingTarget,
  passages: readonly MeasuredPassage[],
  lowEdgeHz: number = LOW_REGISTER_EDGE_HZ,
  standing: Standing | null = null,
): StringReading {
  if (passages.length === 0) return notHeard(target);
  const counting = passages.filter((passage) => isStanding(passage, standing));
  const combined = combinePassages(counting);
  const { frequencyHz } = combined;
  const deviationCents = cents(frequencyHz, target.targetHz);
  const heard = combined.partials.filter(isHeard);
  const total = sumOfPowers(heard);
  // With some of its power in partials that can't be split, what is left is no measure of its register.
  const whole = combined.partials.every(({ shared }) => !shared);
  const amplitudes = combined.partials.map((partial) => (isHeard(partial) ? Math.sqrt(partial.power) : 0));
  const interval = combined.interval95Cents;
  const register = lowRegister(
    heard.map(({ number, power }) => ({ frequencyHz: number * frequencyHz, power })),
    lowEdgeHz,
  );
  return {
    ...target,
    status: "measured",
    frequencyHz,
    deviationCents,
    interval95Cents: interval === null ? null : [deviationCents + interval[0], deviationCents + interval[1]],
    ownErrorCents: null,
    ownErrorInterval95Cents: null,
    unsteadinessCents: combined.unsteadinessCents,
    levelDb: whole && total > 0 ? powerToDb(total) : null,
    harmonicToNoiseDb: harmonicToNoiseDb(total, combined.noisePower),
    partials: combined.partials.map((partial) => partialLevel(partial, frequencyHz, total)),
    lowRegisterDb: whole ? register.lowRegisterDb : null,
    octaveBandsDb: whole ? register.octaveBandsDb : null,
    centroidHz: whole ? register.centroidHz : null,
    frameCentroidHz: combined.frameCentroidHz,
    tristimulus: whole ? tristimulus(amplitudes) : null,
    oddToEvenDb: whole ? oddToEvenDb(amplitudes.map((amplitude) => amplitude * amplitude)) : null,
    perPassage: passages.map((passage) => passageReading(passage, target.targetHz)),
    findings: [
      ...(standing === null ? [] : [movedFinding(standing.move, standing.given)]),
      ...stringFindings(counting, deviationCents, combined.unsteadinessCents, combined.spreadCents),
    ],
  };
}

/** The reading of a string that sounds, or may, but that was not told apart; status `unresolved`. */
export function unresolvedString(target: ReadingTarget, findings: readonly Finding[]): StringReading {
  return { ...notHeard(target), status: "unresolved", findings };
}

function partialLevel(partial: PartialPower, frequencyHz: number, total: number): PartialLevel {
  const { number, power, signalToNoise } = partial;
  return {
    number,
    frequencyHz: number * frequencyHz,
    levelDb: isHeard(partial) && total > 0 ? powerToDb(power / total) : null,
    fullScaleDb: isHeard(partial) ? powerToDb(power) : null,
    signalToNoiseDb: signalToNoise === null || signalToNoise <= 0 ? null : powerToDb(signalToNoise),
    shared: partial.shared ?? false,
  };
}

function passageReading(passage: MeasuredPassage, targetHz: number): PassageReading {
  const { startSeconds, endSeconds, frequencyHz, steadiness } = passage;
  const deviationCents = cents(frequencyHz, targetHz);
  const interval = steadiness.interval95Cents;
  const total = sumOfPowers(passage.partials.filter(isHeard));
  return {
    startSeconds,
    endSeconds,
    frequencyHz,
    deviationCents,
    interval95Cents: interval === null ? null : [deviationCents + interval[0], deviationCents + interval[1]],
    unsteadinessCents: steadiness.unsteadinessCents,
    swingCents: steadiness.swingCents,
    swingRateHz: steadiness.swingRateHz,
    levelDb: total > 0 && passage.partials.every(({ shared }) => !shared) ? powerToDb(total) : null,
    harmonicToNoiseDb: harmonicToNoiseDb(total, passage.noisePower),
    movement: passage.movement ?? null,
  };
}

function stringFindings(
  passages: readonly MeasuredPassage[],
  deviationCents: number,
  unsteadinessCents: number | null,
  spreadCents: number | null,
): Finding[] {
  const findings: Finding[] = [];
  if (Math.abs(deviationCents) > FAR_OFF_CENTS) {
    findings.push({ code: "far-off", severity: "warning", values: { deviationCents } });
  }
  // One note of each kind is enough, however many passages show it.
  for (const finding of passages.flatMap((passage) => passage.findings)) {
    if (!findings.some(({ code }) => code === finding.code)) findings.push(finding);
  }
  const unsteady = unsteadyFinding(unsteadinessCents);
  if (unsteady !== null) findings.push(unsteady);
  if (spreadCents !== null && spreadCents > PASSAGE_SPREAD_CENTS) {
    findings.push({ code: "passages-disagree", severity: "warning", values: { spreadCents } });
  }
  return findings;
}

function harmonicToNoiseDb(tone: number, noise: number | null): number | null {
  return noise !== null && noise > 0 && tone > 0 ? powerToDb(tone / noise) : null;
}

function sumOfPowers(partials: readonly PartialPower[]): number {
  return partials.reduce((sum, { power }) => sum + power, 0);
}

function notHeard(target: ReadingTarget): StringReading {
  return {
    ...target,
    status: "not-heard",
    frequencyHz: null,
    deviationCents: null,
    interval95Cents: null,
    ownErrorCents: null,
    ownErrorInterval95Cents: null,
    unsteadinessCents: null,
    levelDb: null,
    harmonicToNoiseDb: null,
    partials: [],
    lowRegisterDb: null,
    octaveBandsDb: null,
    centroidHz: null,
    frameCentroidHz: null,
    tristimulus: null,
    oddToEvenDb: null,
    perPassage: [],
    findings: [],
  };
}
