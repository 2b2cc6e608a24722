import type { Comparison, MeasureComparison } from "../comparison/Comparison.js";
import type { CompareDocument } from "../comparison/compareDocumentSchema.js";
import type { AnalysisError } from "../errors.js";
import { comparisonFindingDocument } from "./comparisonFindingDocument.js";
import { comparisonVerdict } from "./comparisonVerdict.js";
import { errorSentence } from "./errorSentence.js";
import { rounded, roundedFinite, roundedInterval } from "./rounded.js";

/** What goes into the document of one `compare` call. */
export interface CompareDocumentInput {
  readonly toolVersion: string;
  readonly instrument: string | null;
  readonly settings: CompareDocument["settings"];
  readonly comparison: Comparison;
  /** Files of each side's takes that were used, in the order of the sides. */
  readonly files: readonly (readonly string[])[];
  /** Takes that could not be read, or held no string. */
  readonly failed?: readonly { readonly file: string; readonly error: AnalysisError | null }[];
}

/** Builds the JSON document of `compare`: levels to 0.01 dB, frequencies to 0.01 Hz, p values to 0.00001. */
export function compareDocument(input: CompareDocumentInput): CompareDocument {
  const { comparison } = input;
  return {
    schemaVersion: 1,
    tool: "gurdybench",
    toolVersion: input.toolVersion,
    instrument: input.instrument,
    settings: { ...input.settings, lowEdgeHz: roundedFinite(input.settings.lowEdgeHz, 2) },
    sides: comparison.sides.map((side, i) => ({ ...side, files: [...(input.files[i] ?? [])] })),
    failed: (input.failed ?? []).map(({ file, error }) => ({
      file,
      code: error?.code ?? "no-string",
      message:
        error === null
          ? "No string could be measured; measure it by itself to see why."
          : errorSentence(error, file),
    })),
    sounds: comparison.sounds.map((names) => [...names]),
    measures: comparison.measures.map(measureOf),
    partialDifferences: comparison.partialDifferences.map((one) => ({
      ...one,
      frequencyHz: roundedFinite(one.frequencyHz, 2),
      differenceDb: roundedFinite(one.differenceDb, 2),
      interval95Db: roundedInterval(one.interval95Db, 2),
    })),
    bodyCurveDifference: comparison.bodyCurveDifference.map((one) => ({
      ...one,
      frequencyHz: roundedFinite(one.frequencyHz, 2),
      differenceDb: roundedFinite(one.differenceDb, 2),
      interval95Db: roundedInterval(one.interval95Db, 2),
    })),
    ranking: comparison.ranking.map((one) => ({
      ...one,
      lowRegisterDb: roundedFinite(one.lowRegisterDb, 2),
      interval95Db: roundedInterval(one.interval95Db, 2),
    })),
    findings: comparison.findings.map(comparisonFindingDocument),
    verdict: comparisonVerdict(comparison, input.settings.equalGain),
  };
}

function measureOf(one: MeasureComparison): CompareDocument["measures"][number] {
  return {
    measure: one.measure,
    string: one.string,
    unit: one.unit,
    primary: one.primary,
    sideA: one.sideA,
    sideB: one.sideB,
    a: roundedFinite(one.a, 2),
    b: roundedFinite(one.b, 2),
    sdA: rounded(one.sdA, 3),
    sdB: rounded(one.sdB, 3),
    takesA: one.takesA.map((value) => roundedFinite(value, 2)),
    takesB: one.takesB.map((value) => roundedFinite(value, 2)),
    difference: roundedFinite(one.difference, 2),
    interval95: roundedInterval(one.interval95, 2),
    pAdjusted: rounded(one.pAdjusted, 5),
    smallestDetectable: rounded(one.smallestDetectable, 2),
    takesForOneDb: one.takesForOneDb,
    verdict: one.verdict,
  };
}
