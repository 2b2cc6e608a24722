import type { AnalysisError } from "../errors.js";
import { type JoinedTakes, joinTakes } from "../reading/joinTakes.js";
import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import type { TakeReading } from "../reading/TakeReading.js";
import type { PairReading } from "../strings/StringReading.js";
import { bodyCurveFields } from "./bodyCurveFields.js";
import { errorSentence } from "./errorSentence.js";
import { findingDocument } from "./findingDocument.js";
import { rounded, roundedBands, roundedFinite, roundedInterval } from "./rounded.js";
import { stringDocument } from "./stringDocument.js";

type TakeDocument = MeasureDocument["takes"][number];

/** What goes into the document of one `measure` call. */
export interface MeasureDocumentInput {
  readonly toolVersion: string;
  /** Name of the instrument or tuning; null where each passage was read against the nearest note. */
  readonly instrument: string | null;
  readonly settings: MeasureDocument["settings"];
  readonly takes: readonly { readonly file: string; readonly reading: TakeReading }[];
  /** Takes that could not be read. */
  readonly failed?: readonly { readonly file: string; readonly error: AnalysisError }[];
}

/**
 * Builds the JSON document of `measure`, with its sentences and the summary over all takes.
 *
 * Frequencies are rounded to 0.00001 Hz, times to 0.0001 s, cents to 0.001, levels to 0.01 dB; what is not a
 * finite number becomes null.
 */
export function measureDocument(input: MeasureDocumentInput): MeasureDocument {
  return {
    schemaVersion: 1,
    tool: "gurdybench",
    toolVersion: input.toolVersion,
    instrument: input.instrument,
    settings: input.settings,
    takes: input.takes.map(({ file, reading }) => takeDocument(file, reading)),
    failed: (input.failed ?? []).map(({ file, error }) => ({
      file,
      code: error.code,
      message: errorSentence(error, file),
    })),
    summary: summaryDocument(joinTakes(input.takes.map((take) => take.reading))),
  };
}

function takeDocument(file: string, take: TakeReading): TakeDocument {
  const { referencePitch, lowRegister } = take;
  return {
    file,
    sampleRateHz: take.sampleRateHz,
    channelCount: take.channelCount,
    encoding: take.encoding ?? null,
    durationSeconds: roundedFinite(take.durationSeconds, 4),
    passages: take.passages.map((passage) => ({
      startSeconds: roundedFinite(passage.startSeconds, 4),
      endSeconds: roundedFinite(passage.endSeconds, 4),
      strings: [...passage.strings],
    })),
    strings: take.strings.map(stringDocument),
    pairs: take.pairs.map(pairDocument),
    referencePitch: referencePitch && {
      a4Hz: roundedFinite(referencePitch.a4Hz, 5),
      offsetCents: roundedFinite(referencePitch.offsetCents, 3),
      interval95Cents: roundedInterval(referencePitch.interval95Cents, 3),
      anchor: referencePitch.anchor,
    },
    wheel:
      take.wheel.turnsPerSecond === null
        ? null
        : {
            turnsPerSecond: rounded(take.wheel.turnsPerSecond, 4),
            pitchSwingCents: rounded(take.wheel.pitchSwingCents, 3),
            levelSwingDb: rounded(take.wheel.levelSwingDb, 3),
          },
    lowRegister: lowRegister && {
      lowRegisterDb: rounded(lowRegister.lowRegisterDb, 2),
      octaveBandsDb: roundedBands(lowRegister.octaveBandsDb),
      thirdOctaveDb: lowRegister.thirdOctaveDb.map((band) => ({
        midbandHz: roundedFinite(band.midbandHz, 2),
        levelDb: rounded(band.levelDb, 2),
      })),
      centroidHz: rounded(lowRegister.centroidHz, 2),
      ...bodyCurveFields(take.body?.curve),
      lowStrings: (take.body?.strings ?? []).map(({ name, lowLevelDb, restLevelDb, reach, fundamental }) => ({
        string: name,
        lowLevelDb: rounded(lowLevelDb, 2),
        restLevelDb: rounded(restLevelDb, 2),
        fundamentalBelowEvenDb: rounded(fundamental?.belowEvenDb ?? null, 2),
        fundamentalInterval95Db: roundedInterval(fundamental?.interval95Db ?? null, 2),
        carriers: [...reach.carriers],
        partials: reach.partials.map(({ number, frequencyHz, belowEvenDb, interval95Db }) => ({
          number,
          frequencyHz: roundedFinite(frequencyHz, 5),
          belowEvenDb: rounded(belowEvenDb, 2),
          interval95Db: roundedInterval(interval95Db, 2),
        })),
      })),
    },
    findings: take.findings.map(findingDocument),
  };
}

function pairDocument(pair: PairReading): TakeDocument["pairs"][number] {
  return {
    lower: pair.lower,
    upper: pair.upper,
    ratio: pair.ratio,
    basis: pair.basis,
    centsFromPure: roundedFinite(pair.centsFromPure, 3),
    interval95Cents: roundedInterval(pair.interval95Cents, 3),
    beatsPerSecond: roundedFinite(pair.beatsPerSecond, 4),
  };
}

function summaryDocument(joined: JoinedTakes): MeasureDocument["summary"] {
  const { lowRegisterDb } = joined;
  return {
    strings: joined.strings.map((string) => ({
      name: string.name,
      role: string.role,
      targetHz: roundedFinite(string.targetHz, 5),
      takeCount: string.deviationCents.takeCount,
      deviationCents: rounded(string.deviationCents.mean, 3),
      interval95Cents: roundedInterval(string.interval95Cents, 3),
      intervalBasis: string.intervalBasis,
      spreadCents: rounded(string.deviationCents.spread, 3),
      betweenTakesCents: rounded(string.pitchComponents?.between ?? null, 3),
      withinTakesCents: rounded(string.pitchComponents?.within ?? null, 3),
      ownErrorTakeCount: string.ownErrorCents.takeCount,
      ownErrorCents: rounded(string.ownErrorCents.mean, 3),
      ownErrorInterval95Cents: roundedInterval(string.ownErrorInterval95Cents, 3),
      ownErrorSpreadCents: rounded(string.ownErrorCents.spread, 3),
      lowRegisterDb: rounded(string.lowRegisterDb.mean, 2),
      lowRegisterSpreadDb: rounded(string.lowRegisterDb.spread, 2),
      lowRegisterInterval95Db: roundedInterval(string.lowRegisterDb.interval95, 2),
    })),
    lowRegister: {
      takeCount: lowRegisterDb.takeCount,
      lowRegisterDb: rounded(lowRegisterDb.mean, 2),
      spreadDb: rounded(lowRegisterDb.spread, 2),
      interval95Db: roundedInterval(lowRegisterDb.interval95, 2),
      ...bodyCurveFields(joined.body?.curve),
    },
  };
}
