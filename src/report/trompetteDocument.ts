import type {
  PitchReading,
  Spread,
  StrokeMean,
  TrompetteFinding,
  TrompetteOwnFinding,
  TrompetteReading,
} from "../trompette/TrompetteReading.js";
import type { TrompetteDocument } from "../trompette/trompetteDocumentSchema.js";
import { findingDocument } from "./findingDocument.js";
import { rounded, roundedFinite, roundedInterval } from "./rounded.js";
import { trompetteVerdict } from "./trompetteVerdict.js";
import { trompetteWordings } from "./trompetteWordings.js";
import { wordedFinding } from "./wordedFinding.js";

/** What goes into the document of one `trompette` call. */
export interface TrompetteDocumentInput {
  readonly toolVersion: string;
  readonly instrument: string | null;
  readonly settings: TrompetteDocument["settings"];
  readonly file: string;
  readonly reading: TrompetteReading;
}

/** Builds the JSON document of `trompette`: times to 0.1 ms, frequencies to 0.001 Hz, cents and decibels to 0.01. */
export function trompetteDocument(input: TrompetteDocumentInput): TrompetteDocument {
  const { reading } = input;
  const document = {
    schemaVersion: 1 as const,
    tool: "gurdybench" as const,
    toolVersion: input.toolVersion,
    instrument: input.instrument,
    settings: input.settings,
    file: input.file,
    durationSeconds: roundedFinite(reading.durationSeconds, 4),
    sampleRateHz: reading.sampleRateHz,
    channelCount: reading.channelCount,
    encoding: reading.encoding ?? null,
    string: reading.string,
    targetHz: rounded(reading.targetHz, 3),
    sounding: [...reading.sounding],
    state: reading.state,
    doubt: reading.doubt,
    possibleSeconds: reading.possibleSeconds.map((one) => roundedFinite(one, 4)),
    bandHz: roundedInterval(reading.band, 1),
    soundingSeconds: roundedFinite(reading.soundingSeconds, 3),
    silentSeconds: roundedFinite(reading.silentSeconds, 3),
    strokes: reading.strokes.map((one) => ({
      onsetSeconds: roundedFinite(one.onsetSeconds, 4),
      // Rounded up: what is stated must hold.
      withinSeconds: roundedFinite(Math.ceil(1e4 * one.withinSeconds - 1e-6) / 1e4, 4),
      rough: one.isRough,
      strokeSeconds: roundedFinite(one.strokeSeconds, 4),
      strokeWithinSeconds: roundedFinite(Math.ceil(1e4 * one.strokeWithinSeconds - 1e-6) / 1e4, 4),
      durationSeconds: roundedFinite(one.durationSeconds, 4),
      strengthDb: rounded(one.strengthDb, 2),
      weak: one.isWeak,
    })),
    strengthAgainst: reading.strengthAgainst,
    strengthDb: meanOf(reading.strengthDb, 2),
    strengthSpreadDb: spreadOf(reading.strengthSpreadDb, 2),
    meanDurationSeconds: meanOf(reading.durationMeanSeconds, 4),
    strokesPerSecond: rounded(reading.strokesPerSecond, 4),
    timingSpreadSeconds: spreadOf(reading.timingSpreadSeconds, 5),
    missedSeconds: reading.missedSeconds.map((one) => roundedFinite(one, 3)),
    turnsPerSecond: rounded(reading.turnsPerSecond, 4),
    turnsInterval95: roundedInterval(reading.turnsInterval95, 4),
    turnsBasis: reading.turnsBasis,
    turnRefusal: reading.turnRefusal,
    strokesPerTurn: rounded(reading.strokesPerTurn, 3),
    silentPitch: pitchOf(reading.silentPitch),
    buzzingPitch: pitchOf(reading.buzzingPitch),
    differenceCents: meanOf(reading.differenceCents, 2),
    pitchRefusal: reading.pitchRefusal,
    otherSounds: reading.otherSounds.map(({ seconds, reason }) => ({
      seconds: roundedFinite(seconds, 3),
      reason,
    })),
    upperShareDb: rounded(reading.upperShareDb, 2),
    findings: reading.findings.map(findingOf),
  };
  return { ...document, inShort: trompetteVerdict(document) };
}

function meanOf(value: StrokeMean | null, digits: number): TrompetteDocument["strengthDb"] {
  if (value === null) return null;
  return { mean: roundedFinite(value.mean, digits), interval95: roundedInterval(value.interval95, digits) };
}

function spreadOf(value: Spread | null, digits: number): TrompetteDocument["strengthSpreadDb"] {
  const interval95 = roundedInterval(value?.interval95 ?? null, digits);
  if (value === null || interval95 === null) return null;
  return { standardDeviation: roundedFinite(value.standardDeviation, digits), interval95 };
}

function pitchOf(pitch: PitchReading | null): TrompetteDocument["silentPitch"] {
  if (pitch === null) return null;
  return {
    frequencyHz: roundedFinite(pitch.frequencyHz, 3),
    deviationCents: rounded(pitch.deviationCents, 2),
    interval95Cents: roundedInterval(pitch.interval95Cents, 2),
  };
}

function findingOf(finding: TrompetteFinding): TrompetteDocument["findings"][number] {
  const isOwn = (one: TrompetteFinding): one is TrompetteOwnFinding => one.code in trompetteWordings;
  return isOwn(finding) ? wordedFinding(finding, trompetteWordings) : findingDocument(finding);
}
