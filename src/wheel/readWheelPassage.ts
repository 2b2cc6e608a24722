import type { StringMovement } from "../strings/StringMovement.js";
import { chooseTurn } from "./chooseTurn.js";
import { commonSwing } from "./commonSwing.js";
import { findTurnLine, type TurnLine } from "./findTurnLine.js";
import { followTurns } from "./followTurns.js";
import { lineProbability } from "./lineProbability.js";
import { type MovementIntegrals, movementIntegrals, stepMeans } from "./movementSeries.js";
import { causeOf, phaseDifferences, type StringWaves } from "./phaseDifferences.js";
import { HARMONICS, type SwingWaves, stringSwing, swingWaves } from "./stringSwing.js";
import { rateSpreadOf, turnPath } from "./turnPath.js";
import { unrolledTurn } from "./unrolledTurn.js";
import type { Swing, WheelPassage, WheelRefusal } from "./WheelReading.js";
import { FILTER_ORDER } from "./whitenedFit.js";

/** A passage and the strings that were followed through it. */
export interface TurningPassage {
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly strings: readonly { readonly name: string; readonly movement: StringMovement }[];
}

/** How a passage is to be read. */
export interface WheelOptions {
  /** Turns a second counted by eye, right to within 15 %; null where not counted. */
  readonly givenTurns: number | null;
  /** A line is a swing only where chance makes one as strong more seldom than this. */
  readonly falseAlarmLevel: number;
}

/** Movement is read in means over this long. */
const STEP_SECONDS = 0.05;
const LEAST_SECONDS = 4;
/** Rates of the strongest wave that are looked for: half a turn a second to two pushes a turn at 2.7 turns. */
const LINE_RANGE_HZ: readonly [number, number] = [0.5, 5.5];
const GIVEN_TOLERANCE = 0.15;
const FASTEST_LINE_HZ = 7.5;
const NORMAL_975 = 1.959964;

/**
 * Reads turn rate and swings from one passage.
 *
 * All strings' pitch and level share the phase of the wheel: the strongest line that keeps time is followed through all of them
 * ({@link findTurnLine}), the turn it belongs to is chosen ({@link chooseTurn}), and what comes round once to four times
 * a turn is read of each string.
 */
export function readWheelPassage(passage: TurningPassage, options: WheelOptions): WheelPassage {
  const duration = passage.endSeconds - passage.startSeconds;
  const strings = passage.strings.map(({ name, movement }) => ({
    name,
    integrals: movementIntegrals(movement),
  }));
  if (strings.length === 0) return refused(passage, "not-followed", null);
  if (duration < LEAST_SECONDS) return refused(passage, "too-short", null);
  const count = Math.round(duration / STEP_SECONDS);
  const step = duration / count;
  const means = (of: (integrals: MovementIntegrals) => Float64Array) =>
    strings.map(({ integrals }) => stepMeans(of(integrals), integrals.hopSeconds, count, step));
  const pitch = means((integrals) => integrals.pitch);
  const level = means((integrals) => integrals.level);
  const series = [...pitch, ...level];
  const line = findTurnLine(series, step, rangesOf(options.givenTurns));
  if (line === null) return refused(passage, "not-followed", null);
  const probability = lineProbability(line.gain, series.length);
  if (probability > options.falseAlarmLevel) return refused(passage, "no-swing", probability);

  const { waves: main, candidates } = chooseTurn(series, line.followed, options.givenTurns);
  const { path, rateError, found } = followedTurn(series, line, step, main);
  const zero = zeroOf(found, main);
  const phase = path.phase.map((angle) => angle - zero);
  const known = found.flatMap((one) => one ?? []);
  if (known.length < series.length) return refused(passage, "not-followed", probability);
  const swingOf = (i: number, integral: Float64Array, hopSeconds: number): Swing => ({
    ...stringSwing(known[i], main, zero),
    turn: unrolledTurn(integral, hopSeconds, phase, step),
  });
  const turning = strings.map(({ name, integrals }, k) => ({
    name,
    pitch: swingOf(k, integrals.pitch, integrals.hopSeconds),
    level: swingOf(strings.length + k, integrals.level, integrals.hopSeconds),
  }));
  const wavesOf = (offset: number): StringWaves[] =>
    strings.map(({ name }, k) => ({ name, ...known[offset + k] }));
  const differences = [
    ...phaseDifferences(wavesOf(0), "pitch"),
    ...phaseDifferences(wavesOf(strings.length), "level"),
  ];
  const rate = (phase[count - 1] - phase[0]) / ((count - 1) * step) / (2 * Math.PI);
  return {
    startSeconds: passage.startSeconds,
    endSeconds: passage.endSeconds,
    turnsPerSecond: rate,
    turnsInterval95: [rate - NORMAL_975 * rateError, rate + NORMAL_975 * rateError],
    rateSpread: rateSpreadOf(path),
    falseAlarmProbability: probability,
    refusal: null,
    candidates: candidates.map((one) => (one.isTaken ? { ...one, turnsPerSecond: rate } : one)),
    strings: turning,
    pitch: commonSwing(
      turning.map((one) => one.pitch),
      wavesOf(0),
    ),
    level: commonSwing(
      turning.map((one) => one.level),
      wavesOf(strings.length),
    ),
    differences,
    cause: causeOf(differences, strings.length),
  };
}

function rangesOf(givenTurns: number | null): (readonly [number, number])[] {
  if (givenTurns === null) return [LINE_RANGE_HZ];
  return [1, 2, 3].flatMap((waves) => {
    const low = waves * givenTurns * (1 - GIVEN_TOLERANCE);
    const high = Math.min(FASTEST_LINE_HZ, waves * givenTurns * (1 + GIVEN_TOLERANCE));
    return high > low ? [[low, high] as const] : [];
  });
}

/** The turn that a line belongs to, followed once more where other waves of it help. */
function followedTurn(series: readonly Float64Array[], line: TurnLine, step: number, main: number) {
  const { path: linePath, fits, rateError } = line.followed;
  const filters = fits.map(({ filter }) => filter);
  const path = turnPath(
    linePath.meanRateHz / main,
    linePath.knots.map((ahead) => ahead / main),
    linePath.phase.length,
    step,
  );
  const find = (phase: Float64Array, known: readonly Float64Array[]) =>
    series.map((values, i) => swingWaves(values, phase, main, known[i]));
  const found = find(path.phase, filters);
  const shown = HARMONICS.filter(
    (harmonic, h) => harmonic === main || found.some((one) => one?.isShown[h] ?? false),
  );
  const again =
    shown.length > 1 ? followTurns(line.plain, step, path, shown, line.rateSpread, FILTER_ORDER) : null;
  if (again === null) return { path, rateError: rateError / main, found };
  const refined = again.fits.map(({ filter }) => filter);
  return { path: again.path, rateError: again.rateError, found: find(again.path.phase, refined) };
}

/** Where the first string that shows the strongest wave is highest: in its pitch, or else in its level. */
function zeroOf(fits: readonly (SwingWaves | null)[], main: number): number {
  const h = HARMONICS.indexOf(main);
  const own = fits.find((fit) => fit?.isShown[h]);
  return own === undefined || own === null ? 0 : own.waves[h].phase / main;
}

function refused(
  { startSeconds, endSeconds }: TurningPassage,
  refusal: WheelRefusal,
  falseAlarmProbability: number | null,
): WheelPassage {
  const none = { swing: null, interval95: null, togetherShare: null };
  return {
    startSeconds,
    endSeconds,
    turnsPerSecond: null,
    turnsInterval95: null,
    rateSpread: null,
    falseAlarmProbability,
    refusal,
    candidates: [],
    strings: [],
    pitch: none,
    level: none,
    differences: [],
    cause: "unclear",
  };
}
