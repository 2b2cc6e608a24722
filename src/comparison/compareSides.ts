import { holmAdjusted } from "../statistics/holmAdjusted.js";
import type {
  ComparedSide,
  Comparison,
  ComparisonFinding,
  ComparisonOptions,
  MeasureComparison,
} from "./Comparison.js";
import { commonSounds, type MissingSound } from "./commonSounds.js";
import { compareMeasure, judged, type PlainComparison, untested } from "./compareMeasure.js";
import { curveDifference } from "./curveDifference.js";
import { curveFindings } from "./curveFindings.js";
import { distinctTakes } from "./distinctTakes.js";
import { fairnessFindings } from "./fairnessFindings.js";
import { partialDifferences } from "./partialDifferences.js";
import { rankSides } from "./rankSides.js";
import { scatterFindings } from "./scatterFindings.js";
import { type TakeMeasures, takeMeasures } from "./takeMeasures.js";
import { takesApart } from "./takesApart.js";

/**
 * Compares two sides or more, each against the first.
 *
 * The take is the sample: windows of one take counted as samples would find differences where there are none. One primary
 * measure, the low register of the take, is tested at 5 % by Welch's t; all others are Holm-adjusted together and share 2 %; the
 * primary ones of several pairs are Holm-adjusted among themselves. The body-curve difference has one simultaneous band. Only what every take of every
 * side has counts.
 *
 * @param sides - two or more, each with at least one take
 */
export function compareSides(sides: readonly ComparedSide[], options: ComparisonOptions): Comparison {
  const { common, missing } = commonSounds(sides);
  const perSide = sides.map(({ takes }) => takes.map((take) => takeMeasures(take, common, options)));
  const pairs = sides.slice(1).map((_, i) => i + 1);
  // Copies of one take know no more of the placing than that take.
  const isSingle = perSide.map((takes) => distinctTakes(takes) < 2);
  const isTested = (b: number) => !isSingle[0] && !isSingle[b];
  const plain = pairs.flatMap((b) => {
    const compared = plainComparisons(sides, perSide, b);
    return isTested(b) ? compared : compared.map(untested);
  });
  const measures = judgedTogether(plain);
  const strings = new Set(common.flat());
  const partials = pairs.flatMap((b) =>
    partialDifferences(sides[0].takes, sides[b].takes)
      .differences.filter(({ string }) => strings.has(string))
      .map(({ string, number, frequencyHz, differenceDb, interval95Db }) => ({
        sideA: sides[0].name,
        sideB: sides[b].name,
        string,
        number,
        frequencyHz,
        differenceDb,
        interval95Db: isTested(b) ? interval95Db : null,
      })),
  );
  const curves = perSide.map((takes) => takes.map(({ bodyCurve }) => bodyCurve));
  return {
    sides: sides.map(({ name, takes }) => ({ name, takeCount: takes.length })),
    sounds: common,
    measures,
    partialDifferences: partials,
    bodyCurveDifference: pairs.flatMap((b) =>
      curveDifference(curves[0], curves[b]).map((point) => ({
        sideA: sides[0].name,
        sideB: sides[b].name,
        ...point,
        interval95Db: isTested(b) ? point.interval95Db : null,
      })),
    ),
    ranking: rankSides(sides, perSide),
    findings: [
      ...missingFindings(missing),
      ...(common.length === 0
        ? [{ code: "no-common-note", severity: "problem", values: {} } as const]
        : [
            ...scatterFindings(sides, perSide),
            ...takesApart(sides, perSide),
            ...curveFindings(sides, perSide),
          ]),
      ...fairnessFindings(sides, common),
    ],
  };
}

/**
 * Every measure that all takes of both sides have. A take lacks one where a partial drowned, or where the body reaches lower than
 * was played: those that have it would be a selection.
 */
function plainComparisons(
  sides: readonly ComparedSide[],
  perSide: readonly (readonly TakeMeasures[])[],
  b: number,
): PlainComparison[] {
  const all = [...perSide[0], ...perSide[b]].flatMap(({ measures }) => measures);
  const kinds = new Map(
    all.map(({ measure, string }) => [JSON.stringify([measure, string]), { measure, string }]),
  );
  return [...kinds.values()].flatMap(({ measure, string }) => {
    const valuesOf = (takes: readonly TakeMeasures[]) =>
      takes.flatMap(({ measures }) =>
        measures.filter((one) => one.measure === measure && one.string === string).map(({ value }) => value),
      );
    const takesA = valuesOf(perSide[0]);
    const takesB = valuesOf(perSide[b]);
    if (takesA.length < perSide[0].length || takesB.length < perSide[b].length) return [];
    const primary = measure === "lowRegisterDb" && string === null;
    return [
      compareMeasure({
        measure,
        string,
        primary,
        sideA: sides[0].name,
        sideB: sides[b].name,
        takesA,
        takesB,
      }),
    ];
  });
}

/** One finding for all that so many takes of a side lack: seven strings one by one would bury the rest. */
function missingFindings(missing: readonly MissingSound[]): ComparisonFinding[] {
  const groups = new Map<string, MissingSound[]>();
  for (const one of missing) {
    const key = JSON.stringify([one.side, one.takeCount]);
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].map((group) => ({
    code: "note-missing",
    severity: "warning",
    values: {
      strings: group.map(({ strings }) => strings.join(" + ")).join(", "),
      side: group[0].side,
      takeCount: group[0].takeCount,
    },
  }));
}

function judgedTogether(plain: readonly PlainComparison[]): MeasureComparison[] {
  const families = [true, false].map((primary) => plain.filter((one) => one.primary === primary));
  const adjusted = new Map(
    families.flatMap((family) => {
      const p = holmAdjusted(family.map(({ welch }) => welch.p));
      const tested = p.filter((value) => value !== null).length;
      return family.map((one, i) => [one, judged(one, p[i], tested)] as const);
    }),
  );
  return plain.map((one) => adjusted.get(one)!);
}
