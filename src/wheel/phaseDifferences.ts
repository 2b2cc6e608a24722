import { HARMONICS } from "./stringSwing.js";
import type { PhaseDifference, WheelPassage } from "./WheelReading.js";
import type { Wave } from "./waveOf.js";

/** The waves of one string's pitch or level. */
export interface StringWaves {
  readonly name: string;
  readonly waves: readonly Wave[];
  readonly isShown: readonly boolean[];
}

/** In degrees of the wave's own cycle: nearer than this is at once, further than that is not (our policy). */
const AT_ONCE_DEGREES = 30;
const APART_DEGREES = 15;
const NORMAL_975 = 1.959964;

/** How much later each string is highest than each one before it, by the wave that shows best in two strings or more. */
export function phaseDifferences(
  strings: readonly StringWaves[],
  quantity: "pitch" | "level",
): PhaseDifference[] {
  const h = bestShared(strings);
  if (h === null) return [];
  const shown = strings.filter(({ isShown }) => isShown[h]);
  return shown.flatMap((first, i) =>
    shown.slice(i + 1).map((second): PhaseDifference => {
      const turned = second.waves[h].phase - first.waves[h].phase;
      const later = (180 / Math.PI) * Math.atan2(Math.sin(turned), Math.cos(turned));
      const half =
        (180 / Math.PI) * NORMAL_975 * Math.hypot(first.waves[h].phaseError, second.waves[h].phaseError);
      const nearest = Math.abs(later) - half;
      const furthest = Math.abs(later) + half;
      const number = HARMONICS[h];
      return {
        first: first.name,
        second: second.name,
        quantity,
        harmonic: number,
        laterDegrees: later / number,
        interval95Degrees: [(later - half) / number, (later + half) / number],
        verdict: nearest > APART_DEGREES ? "apart" : furthest < AT_ONCE_DEGREES ? "together" : "unclear",
      };
    }),
  );
}

/** Index of the wave that two strings or more show, the surest of them. */
export function bestShared(strings: readonly StringWaves[]): number | null {
  let best: number | null = null;
  let surest = 0;
  for (const h of HARMONICS.keys()) {
    const shown = strings.filter(({ isShown }) => isShown[h]);
    if (shown.length < 2) continue;
    const sureness = shown.reduce((sum, { waves }) => sum + 1 / waves[h].phaseError ** 2, 0);
    if (sureness <= surest) continue;
    surest = sureness;
    best = h;
  }
  return best;
}

/** What the differences speak for: pitch and level each count once. */
export function causeOf(differences: readonly PhaseDifference[], stringCount: number): WheelPassage["cause"] {
  if (stringCount < 2) return "one-string";
  const verdicts = (["pitch", "level"] as const).map((quantity) => {
    const own = differences.filter((one) => one.quantity === quantity);
    if (own.some(({ verdict }) => verdict === "apart")) return "apart";
    return own.length > 0 && own.every(({ verdict }) => verdict === "together") ? "together" : "unclear";
  });
  const isApart = verdicts.includes("apart");
  const isTogether = verdicts.includes("together");
  if (isApart) return isTogether ? "some-of-each" : "one-after-another";
  return isTogether ? "all-at-once" : "unclear";
}
