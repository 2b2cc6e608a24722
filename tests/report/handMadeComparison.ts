import type { Comparison, MeasureComparison } from "../../src/comparison/Comparison.js";
import type { CompareDocument } from "../../src/comparison/compareDocumentSchema.js";
import { compareDocument } from "../../src/report/compareDocument.js";

/** A measure made by hand; what is not given is the low register, 2 dB larger on side a, shown. */
export function handMadeMeasure(given: Partial<MeasureComparison> = {}): MeasureComparison {
  return {
    measure: "lowRegisterDb",
    string: null,
    unit: "dB",
    primary: true,
    sideA: "Pear",
    sideB: "Maple",
    a: -4,
    b: -6,
    sdA: 0.3,
    sdB: 0.4,
    takesA: [-4.31, -3.69, -4],
    takesB: [-6.41, -5.59, -6],
    difference: 2,
    interval95: [1.2, 2.8],
    pAdjusted: 0.003,
    smallestDetectable: 1.3,
    takesForOneDb: 5,
    verdict: "a-higher",
    ...given,
  };
}

/** A comparison made by hand: two sides and their low register. */
export function handMadeComparison(given: Partial<Comparison> = {}): Comparison {
  return {
    sides: [
      { name: "Pear", takeCount: 3 },
      { name: "Maple", takeCount: 3 },
    ],
    sounds: [["C2"], ["C2", "G2"]],
    measures: [handMadeMeasure()],
    partialDifferences: [
      {
        sideA: "Pear",
        sideB: "Maple",
        string: "C2",
        number: 1,
        frequencyHz: 65.406,
        differenceDb: 3.146,
        interval95Db: [1, 5],
      },
      {
        sideA: "Pear",
        sideB: "Maple",
        string: "C2",
        number: 2,
        frequencyHz: 130.81,
        differenceDb: -3.1,
        interval95Db: null,
      },
    ],
    bodyCurveDifference: [
      { sideA: "Pear", sideB: "Maple", frequencyHz: 63.0957, differenceDb: 2.5, interval95Db: [0.5, 4.5] },
      { sideA: "Pear", sideB: "Maple", frequencyHz: 79.4328, differenceDb: 0.5, interval95Db: null },
    ],
    ranking: [
      { name: "Pear", takeCount: 3, lowRegisterDb: -4, interval95Db: [-4.8, -3.2] },
      { name: "Maple", takeCount: 3, lowRegisterDb: -6, interval95Db: null },
    ],
    findings: [],
    ...given,
  };
}

/** The document of a hand-made comparison. */
export function handMadeCompareDocument(
  comparison = handMadeComparison(),
  equalGain = false,
): CompareDocument {
  return compareDocument({
    toolVersion: "0.0.0-test",
    instrument: "Long, low",
    settings: {
      a4Hz: 440,
      tonic: null,
      temperament: null,
      tuning: "alto",
      capo: {},
      order: null,
      sounding: null,
      lowEdgeHz: 177.827941,
      equalGain,
      microphone: null,
    },
    comparison,
    files: comparison.sides.map(({ name, takeCount }) =>
      Array.from({ length: takeCount }, (_, i) => `${name}-${i + 1}.wav`),
    ),
  });
}
