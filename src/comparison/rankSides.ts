import { sampleSpread } from "../statistics/sampleSpread.js";
import { tQuantile } from "../statistics/tQuantile.js";
import type { ComparedSide, RankedSide } from "./Comparison.js";
import type { TakeMeasures } from "./takeMeasures.js";

/**
 * The sides by the low register of their takes, the largest low part first. A side of which some take has none is left out: the
 * others would be a selection.
 */
export function rankSides(
  sides: readonly ComparedSide[],
  perSide: readonly (readonly TakeMeasures[])[],
): RankedSide[] {
  return sides
    .flatMap(({ name }, i): RankedSide[] => {
      const values = perSide[i].flatMap(({ measures }) =>
        measures
          .filter(({ measure, string }) => measure === "lowRegisterDb" && string === null)
          .map(({ value }) => value),
      );
      const { count, mean, standardDeviation } = sampleSpread(values);
      if (mean === null || count < perSide[i].length) return [];
      const half =
        standardDeviation === null || standardDeviation === 0
          ? null
          : (tQuantile(0.975, count - 1) * standardDeviation) / Math.sqrt(count);
      return [
        {
          name,
          takeCount: count,
          lowRegisterDb: mean,
          interval95Db: half === null ? null : [mean - half, mean + half],
        },
      ];
    })
    .sort((a, b) => b.lowRegisterDb - a.lowRegisterDb);
}
