import { bestShared, type StringWaves } from "./phaseDifferences.js";
import type { CommonSwing, Swing } from "./WheelReading.js";

const NORMAL_975 = 1.959964;

/** The swing of all strings that show one, as their root mean square, and how much of it they do at one moment. */
export function commonSwing(swings: readonly Swing[], strings: readonly StringWaves[]): CommonSwing {
  const shown = swings.flatMap(({ swing, interval95 }) => (swing === null ? [] : [{ swing, interval95 }]));
  if (shown.length === 0) return { swing: null, interval95: null, togetherShare: null };
  const rms = Math.sqrt(shown.reduce((sum, { swing }) => sum + swing ** 2, 0) / shown.length);
  const variance = shown.reduce((sum, { swing, interval95 }) => {
    const error = (interval95[1] - swing) / NORMAL_975;
    return sum + (swing * error) ** 2;
  }, 0);
  const half = (NORMAL_975 * Math.sqrt(variance)) / (shown.length * Math.max(rms, 1e-12));
  return {
    swing: rms,
    interval95: [Math.max(0, rms - half), rms + half],
    togetherShare: togetherShare(strings),
  };
}

function togetherShare(strings: readonly StringWaves[]): number | null {
  const h = bestShared(strings);
  if (h === null) return null;
  const shown = strings.filter(({ isShown }) => isShown[h]).map(({ waves }) => waves[h]);
  const sum = (of: (wave: StringWaves["waves"][number]) => number) =>
    shown.reduce((total, wave) => total + of(wave), 0);
  return (
    Math.hypot(
      sum(({ cosine }) => cosine),
      sum(({ sine }) => sine),
    ) / sum(({ cosine, sine }) => Math.hypot(cosine, sine))
  );
}
