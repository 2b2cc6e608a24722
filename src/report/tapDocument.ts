import type { AnalysisError } from "../errors.js";
import type { TakeReading } from "../reading/TakeReading.js";
import { type BodyComparison, compareBodies, type TapDifference } from "../tap/compareBodies.js";
import type { ModeReading, TapFinding, TapOwnFinding, TapReading, TapValue } from "../tap/TapReading.js";
import { tapAndBow } from "../tap/tapAndBow.js";
import type { TapDocument } from "../tap/tapDocumentSchema.js";
import { cents } from "../units/cents.js";
import { frequencyHzToMidi, midiToFrequencyHz } from "../units/midiFrequency.js";
import { noteNameOfMidi } from "../units/noteNameOfMidi.js";
import { errorSentence } from "./errorSentence.js";
import { findingDocument } from "./findingDocument.js";
import { rounded, roundedFinite, roundedInterval } from "./rounded.js";
import { tapVerdict } from "./tapVerdict.js";
import { tapWordings } from "./tapWordings.js";
import { wordedFinding } from "./wordedFinding.js";

/** A take of taps that was read, and what to call it. */
export interface ReadTaps {
  readonly file: string;
  readonly name: string;
  readonly reading: TapReading;
}

/** What goes into the document of one `tap` call. */
export interface TapDocumentInput {
  readonly toolVersion: string;
  readonly takes: readonly ReadTaps[];
  readonly failed: readonly { readonly file: string; readonly error: AnalysisError }[];
  /** True where the last take is the other body. */
  readonly hasOther: boolean;
  /** A bowed take, to be laid over the first take of taps. */
  readonly bowed: {
    readonly file: string;
    readonly instrument: string | null;
    readonly settings: NonNullable<TapDocument["bowed"]>["settings"];
    readonly reading: TakeReading;
  } | null;
}

type TakeDocument = TapDocument["takes"][number];
type DifferenceDocument = NonNullable<TapDocument["comparison"]>["pairs"][number]["cents"];

/** Builds the JSON document of `tap`: frequencies to 0.001 Hz, Q and decibels to 0.01, times to 0.1 ms. */
export function tapDocument(input: TapDocumentInput): TapDocument {
  const [first] = input.takes;
  const last = input.takes.at(-1);
  const isPair = input.hasOther && input.takes.length > 1;
  const document = {
    schemaVersion: 1 as const,
    tool: "gurdybench" as const,
    toolVersion: input.toolVersion,
    takes: input.takes.map(takeOf),
    failed: input.failed.map(({ file, error }) => ({
      file,
      code: error.code,
      message: errorSentence(error, file),
    })),
    comparison:
      isPair && first !== undefined && last !== undefined
        ? comparisonOf(first, last, compareBodies(first.reading, last.reading))
        : null,
    bowed: input.bowed === null || first === undefined ? null : bowedOf(first, input.bowed),
  };
  return { ...document, inShort: tapVerdict(document) };
}

function takeOf({ file, name, reading }: ReadTaps): TakeDocument {
  return {
    file,
    name,
    sampleRateHz: reading.sampleRateHz,
    channelCount: reading.channelCount,
    encoding: reading.encoding ?? null,
    durationSeconds: roundedFinite(reading.durationSeconds, 4),
    taps: reading.taps.map(({ atSeconds, peakDb, leftOut }) => ({
      atSeconds: roundedFinite(atSeconds, 4),
      peakDb: roundedFinite(peakDb, 2),
      leftOut,
    })),
    tapsUsed: reading.taps.filter(({ leftOut }) => leftOut === null).length,
    modes: reading.modes.map(modeOf),
    leftOut: reading.leftOut.map(({ frequencyHz, q, reason }) => ({
      frequencyHz: roundedFinite(frequencyHz, 2),
      q: rounded(q, 1),
      reason,
    })),
    response: reading.response.map(({ frequencyHz, levelDb, interval95Db }) => ({
      frequencyHz: roundedFinite(frequencyHz, 2),
      levelDb: rounded(levelDb, 2),
      interval95Db: roundedInterval(interval95Db, 2),
    })),
    explainedShare: rounded(reading.explainedShare, 4),
    roomDb: rounded(reading.roomDb, 1),
    peakToNoiseDb: rounded(reading.peakToNoiseDb, 1),
    findings: reading.findings.map(findingOf),
  };
}

function modeOf(mode: ModeReading): TakeDocument["modes"][number] {
  const { frequencyHz, q, t60Seconds, strengthDb } = mode;
  const midi = Math.round(frequencyHzToMidi(frequencyHz.value, 440));
  return {
    frequencyHz: roundedFinite(frequencyHz.value, 3),
    frequencyInterval95Hz: ends(frequencyHz.interval95, 3),
    frequencySpreadHz: rounded(frequencyHz.spread, 3),
    note: noteNameOfMidi(midi),
    cents: roundedFinite(cents(frequencyHz.value, midiToFrequencyHz(midi, 440)), 1),
    q: roundedFinite(q.value, 2),
    qInterval95: ends(q.interval95, 2),
    qSpread: rounded(q.spread, 2),
    bandwidthHz: roundedFinite(mode.bandwidthHz, 3),
    decaySeconds: roundedFinite(mode.decaySeconds, 5),
    t60: valueFields(t60Seconds, 4),
    strengthDb: roundedFinite(strengthDb.value, 2),
    strengthInterval95Db: roundedInterval(strengthDb.interval95, 2),
    strengthSpreadDb: rounded(strengthDb.spread, 2),
    tapsFound: mode.tapsFound,
    overlapping: mode.isOverlapping,
    byTap: mode.byTap.map((tap) =>
      tap === null
        ? null
        : {
            frequencyHz: roundedFinite(tap.frequencyHz, 3),
            q: roundedFinite(tap.q, 2),
            strengthDb: roundedFinite(tap.strengthDb, 2),
          },
    ),
  };
}

function valueFields({ value, interval95, spread }: TapValue, digits: number) {
  return {
    value: roundedFinite(value, digits),
    interval95: ends(interval95, digits),
    spread: rounded(spread, digits),
  };
}

function ends([low, high]: readonly [number, number], digits: number): [number, number] {
  return [roundedFinite(low, digits), roundedFinite(high, digits)];
}

function findingOf(finding: TapFinding): TakeDocument["findings"][number] {
  const isOfTaps = (one: TapFinding): one is TapOwnFinding => one.code in tapWordings;
  return isOfTaps(finding) ? wordedFinding(finding, tapWordings) : findingDocument(finding);
}

function comparisonOf(
  a: ReadTaps,
  b: ReadTaps,
  { pairs, onlyA, onlyB }: BodyComparison,
): TapDocument["comparison"] {
  const hz = (reading: TapReading, place: number) =>
    roundedFinite(reading.modes[place]!.frequencyHz.value, 3);
  return {
    a: a.name,
    b: b.name,
    pairs: pairs.map((pair) => ({
      frequencyHzA: hz(a.reading, pair.a),
      frequencyHzB: hz(b.reading, pair.b),
      frequencyPercent: roundedFinite(100 * (2 ** (pair.cents.difference / 1200) - 1), 3),
      cents: differenceOf(pair.cents),
      qPercent: differenceOf(pair.qPercent),
      strengthDb: differenceOf(pair.strengthDb),
    })),
    onlyA: onlyA.map((place) => hz(a.reading, place)),
    onlyB: onlyB.map((place) => hz(b.reading, place)),
  };
}

function differenceOf({ difference, interval95, pAdjusted, isShown }: TapDifference): DifferenceDocument {
  return {
    difference: roundedFinite(difference, 2),
    interval95: roundedInterval(interval95, 2),
    pAdjusted: rounded(pAdjusted, 6),
    shown: isShown,
  };
}

function bowedOf({ reading }: ReadTaps, bowed: NonNullable<TapDocumentInput["bowed"]>): TapDocument["bowed"] {
  const curve = bowed.reading.body?.curve ?? null;
  const { bands, lacking } = tapAndBow(reading, curve);
  return {
    file: bowed.file,
    instrument: bowed.instrument,
    settings: bowed.settings,
    bands: bands.map((band) => ({
      frequencyHz: roundedFinite(band.frequencyHz, 2),
      tappedDb: rounded(band.tappedDb, 2),
      tappedInterval95Db: roundedInterval(band.tappedInterval95Db, 2),
      bowedDb: rounded(band.bowedDb, 2),
      bowedInterval95Db: roundedInterval(band.bowedInterval95Db, 2),
      peak: band.peak,
      modesHz: band.modesHz.map((value) => roundedFinite(value, 2)),
    })),
    lacking: lacking === "no-body-curve" && curve?.status === "refused" ? curve.reason : lacking,
    findings: bowed.reading.findings.filter(({ severity }) => severity !== "info").map(findingDocument),
  };
}
