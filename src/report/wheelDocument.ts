import type { TakeReading } from "../reading/TakeReading.js";
import type { CommonSwing, Swing, WheelPassage } from "../wheel/WheelReading.js";
import type { WheelDocument } from "../wheel/wheelDocumentSchema.js";
import { findingDocument } from "./findingDocument.js";
import { rounded, roundedFinite, roundedInterval } from "./rounded.js";
import { wheelVerdict } from "./wheelVerdict.js";

/** What goes into the document of one `wheel` call. */
export interface WheelDocumentInput {
  readonly toolVersion: string;
  readonly instrument: string | null;
  readonly settings: WheelDocument["settings"];
  readonly file: string;
  readonly reading: TakeReading;
}

type PassageDocument = WheelDocument["passages"][number];

/** Builds the JSON document of `wheel`: rates, cents and decibels to 0.0001, degrees to 0.1. */
export function wheelDocument(input: WheelDocumentInput): WheelDocument {
  const { wheel } = input.reading;
  const passages = wheel.passages.map(passageOf);
  return {
    schemaVersion: 1,
    tool: "gurdybench",
    toolVersion: input.toolVersion,
    instrument: input.instrument,
    settings: input.settings,
    file: input.file,
    durationSeconds: roundedFinite(input.reading.durationSeconds, 4),
    encoding: input.reading.encoding ?? null,
    turnsPerSecond: rounded(wheel.turnsPerSecond, 4),
    pitchSwingCents: rounded(wheel.pitchSwingCents, 4),
    levelSwingDb: rounded(wheel.levelSwingDb, 4),
    passages,
    findings: input.reading.findings.map(findingDocument),
    verdict: passages.flatMap((passage) => wheelVerdict(passage, passages.length > 1)),
  };
}

function passageOf(passage: WheelPassage): PassageDocument {
  return {
    ...passage,
    startSeconds: roundedFinite(passage.startSeconds, 4),
    endSeconds: roundedFinite(passage.endSeconds, 4),
    turnsPerSecond: rounded(passage.turnsPerSecond, 4),
    turnsInterval95: roundedInterval(passage.turnsInterval95, 4),
    rateSpread: rounded(passage.rateSpread, 4),
    falseAlarmProbability: rounded(passage.falseAlarmProbability, 6),
    candidates: passage.candidates.map((one) => ({
      ...one,
      turnsPerSecond: roundedFinite(one.turnsPerSecond, 4),
      probability: rounded(one.probability, 6),
    })),
    strings: passage.strings.map(({ name, pitch, level }) => ({
      name,
      pitch: swingOf(pitch),
      level: swingOf(level),
    })),
    pitch: commonOf(passage.pitch),
    level: commonOf(passage.level),
    differences: passage.differences.map((one) => ({
      ...one,
      laterDegrees: roundedFinite(one.laterDegrees, 1),
      interval95Degrees: ends(one.interval95Degrees, 1),
    })),
  };
}

function swingOf(swing: Swing): PassageDocument["strings"][number]["pitch"] {
  return {
    swing: rounded(swing.swing, 4),
    interval95: ends(swing.interval95, 4),
    harmonics: swing.harmonics.map((one) => ({
      number: one.number,
      amount: roundedFinite(one.amount, 4),
      interval95: ends(one.interval95, 4),
      highestDegrees: roundedFinite(one.highestDegrees, 1),
      highestInterval95Degrees: ends(one.highestInterval95Degrees, 1),
    })),
    turn: swing.turn.map(({ degrees, mean, interval95 }) => ({
      degrees,
      mean: roundedFinite(mean, 4),
      interval95: ends(interval95, 4),
    })),
    drift: roundedFinite(swing.drift, 4),
    jitter: roundedFinite(swing.jitter, 4),
  };
}

function commonOf({ swing, interval95, togetherShare }: CommonSwing): PassageDocument["pitch"] {
  return {
    swing: rounded(swing, 4),
    interval95: roundedInterval(interval95, 4),
    togetherShare: rounded(togetherShare, 3),
  };
}

function ends([low, high]: readonly [number, number], digits: number): [number, number] {
  return [roundedFinite(low, digits), roundedFinite(high, digits)];
}
