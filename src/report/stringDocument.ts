import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import type { PassageReading, StringReading } from "../strings/StringReading.js";
import { findingDocument } from "./findingDocument.js";
import { rounded, roundedBands, roundedFinite, roundedInterval } from "./rounded.js";

type StringDocument = MeasureDocument["takes"][number]["strings"][number];

/** One string's part of the document. */
export function stringDocument(string: StringReading): StringDocument {
  const { tristimulus } = string;
  return {
    name: string.name,
    role: string.role,
    targetHz: roundedFinite(string.targetHz, 5),
    status: string.status,
    frequencyHz: rounded(string.frequencyHz, 5),
    deviationCents: rounded(string.deviationCents, 3),
    interval95Cents: roundedInterval(string.interval95Cents, 3),
    ownErrorCents: rounded(string.ownErrorCents, 3),
    ownErrorInterval95Cents: roundedInterval(string.ownErrorInterval95Cents, 3),
    unsteadinessCents: rounded(string.unsteadinessCents, 3),
    levelDb: rounded(string.levelDb, 2),
    harmonicToNoiseDb: rounded(string.harmonicToNoiseDb, 2),
    partials: string.partials.map((partial) => ({
      number: partial.number,
      frequencyHz: roundedFinite(partial.frequencyHz, 5),
      levelDb: rounded(partial.levelDb, 2),
      fullScaleDb: rounded(partial.fullScaleDb, 2),
      signalToNoiseDb: rounded(partial.signalToNoiseDb, 2),
      shared: partial.shared,
    })),
    lowRegisterDb: rounded(string.lowRegisterDb, 2),
    octaveBandsDb: string.octaveBandsDb && roundedBands(string.octaveBandsDb),
    centroidHz: rounded(string.centroidHz, 2),
    frameCentroidHz: rounded(string.frameCentroidHz, 2),
    tristimulus: tristimulus?.every(Number.isFinite)
      ? [roundedFinite(tristimulus[0], 4), roundedFinite(tristimulus[1], 4), roundedFinite(tristimulus[2], 4)]
      : null,
    oddToEvenDb: rounded(string.oddToEvenDb, 2),
    perPassage: string.perPassage.map(passageDocument),
    findings: string.findings.map(findingDocument),
  };
}

function passageDocument(passage: PassageReading): StringDocument["perPassage"][number] {
  return {
    startSeconds: roundedFinite(passage.startSeconds, 4),
    endSeconds: roundedFinite(passage.endSeconds, 4),
    frequencyHz: roundedFinite(passage.frequencyHz, 5),
    deviationCents: roundedFinite(passage.deviationCents, 3),
    interval95Cents: roundedInterval(passage.interval95Cents, 3),
    unsteadinessCents: rounded(passage.unsteadinessCents, 3),
    swingCents: rounded(passage.swingCents, 3),
    swingRateHz: rounded(passage.swingRateHz, 4),
    levelDb: rounded(passage.levelDb, 2),
    harmonicToNoiseDb: rounded(passage.harmonicToNoiseDb, 2),
  };
}
