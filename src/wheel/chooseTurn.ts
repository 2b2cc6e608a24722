import type { FollowedTurns } from "./followTurns.js";
import { swingColumns } from "./swingColumns.js";
import { trendColumns } from "./trendColumns.js";
import type { TurnCandidate } from "./WheelReading.js";
import { waveOf } from "./waveOf.js";
import { whitenedFit } from "./whitenedFit.js";

/** The turn that a line belongs to. */
export interface ChosenTurn {
  /** Waves of the line in one turn. */
  readonly waves: number;
  readonly candidates: readonly TurnCandidate[];
}

/** No one cranks faster or slower for long (common practice, no source). */
const FASTEST_TURNS = 3.2;
const SLOWEST_TURNS = 0.45;
/** Waves that would halve the rate are claimed by chance this seldom. */
const SUB_WAVE_LEVEL = 0.0005;

/** What a path that is not quite right makes of a strong line is smaller than this share of it. */
const LEAST_SHARE = 0.1;

/**
 * Whether a line is the turn itself or comes twice in one: two pushes a turn make it so, and then some wave mostly fits the
 * slower turn only (one, three or five a turn).
 *
 * @param givenTurns - turns a second counted by eye, which decide
 */
export function chooseTurn(
  series: readonly Float64Array[],
  { path, fits }: FollowedTurns,
  givenTurns: number | null,
): ChosenTurn {
  const lineHz = path.meanRateHz;
  if (givenTurns !== null) {
    const waves = Math.max(1, Math.round(lineHz / givenTurns));
    const candidate = { turnsPerSecond: lineHz / waves, isTaken: true, strongestWave: waves };
    return { waves, candidates: [{ ...candidate, reason: "given", probability: null }] };
  }
  const isTooFast = lineHz > FASTEST_TURNS;
  const canHalve = lineHz / 2 >= SLOWEST_TURNS;
  const probability = canHalve
    ? subWaveProbability(
        series,
        path.phase,
        fits.map(({ filter }) => filter),
      )
    : 1;
  const isHalved = canHalve && (isTooFast || probability <= SUB_WAVE_LEVEL);
  const whole: TurnCandidate = {
    turnsPerSecond: lineHz,
    isTaken: !isHalved,
    strongestWave: 1,
    reason: isTooFast ? "too-fast" : "strongest",
    probability: null,
  };
  const half: TurnCandidate = {
    turnsPerSecond: lineHz / 2,
    isTaken: isHalved,
    strongestWave: 2,
    reason: probability <= SUB_WAVE_LEVEL ? "sub-wave" : "no-sub-wave",
    probability,
  };
  const candidates = canHalve ? [whole, half] : [whole];
  return {
    waves: isHalved ? 2 : 1,
    candidates: candidates.sort((a, b) => Number(b.isTaken) - Number(a.isTaken)),
  };
}

/** Chance of waves as strong at half the rate of a line, and half as much again, in any of the series. */
function subWaveProbability(
  series: readonly Float64Array[],
  linePhase: Float64Array,
  filters: readonly Float64Array[],
): number {
  const halved = linePhase.map((angle) => angle / 2);
  const trend = trendColumns(linePhase.length);
  const columns = [...trend, ...swingColumns(halved, [1, 2, 3, 4])];
  const chances = series.flatMap((values, i) => {
    const fit = whitenedFit(values, columns, filters[i], 1);
    if (fit === null) return [];
    const [first, line, third] = [0, 1, 2].map((h) => waveOf(fit, trend.length + 2 * h));
    return [first, third].map((wave) => (wave.amount >= LEAST_SHARE * line.amount ? wave.probability : 1));
  });
  return Math.min(1, chances.length * Math.min(1, ...chances));
}
