import type {
  InstrumentHistory,
  PitchChange,
  PitchTrends,
  StringHistory,
  TrendReading,
  WorkDifference,
} from "../history/HistoryReading.js";
import type { HistoryDocument } from "../history/historyDocumentSchema.js";
import type { LogReading } from "../history/readLog.js";
import { historyVerdict } from "./historyVerdict.js";
import { logProblemSentence } from "./logProblemSentence.js";
import { rounded, roundedFinite, roundedInterval } from "./rounded.js";

/** What goes into the document of one `history` call. */
export interface HistoryDocumentInput {
  readonly toolVersion: string;
  readonly log: string;
  readonly settings: HistoryDocument["settings"];
  readonly reading: Pick<LogReading, "problems" | "repeats">;
  readonly instruments: readonly InstrumentHistory[];
}

type InstrumentDocument = HistoryDocument["instruments"][number];

/**
 * Builds the JSON document of `history`. Only the strings asked for are in it; all of them count in what is common.
 *
 * Cents and decibels to 0.001, slopes to 0.0001 cents, days to 0.00001, frequencies to 0.00001 Hz.
 */
export function historyDocument(input: HistoryDocumentInput): HistoryDocument {
  const { strings } = input.settings;
  const isAsked = ({ name }: { readonly name: string }) => strings === null || strings.includes(name);
  return {
    schemaVersion: 1,
    tool: "gurdybench",
    toolVersion: input.toolVersion,
    log: input.log,
    settings: input.settings,
    problems: input.reading.problems.map(({ line, reason, field }) => ({
      line,
      reason,
      message: logProblemSentence(reason, field),
    })),
    repeats: input.reading.repeats.map((one) => ({ ...one })),
    instruments: input.instruments
      .filter((one) => strings === null || one.strings.some(isAsked))
      .map((one) => instrumentOf(one, isAsked)),
  };
}

function instrumentOf(
  history: InstrumentHistory,
  isAsked: (string: { readonly name: string }) => boolean,
): InstrumentDocument {
  const document = {
    name: history.name,
    takes: history.takes.map((take, i) => ({
      file: take.file,
      takenAt: take.moment.text,
      takenAtBasis: take.takenAtBasis,
      temperatureC: take.temperatureC,
      humidityPercent: take.humidityPercent,
      work: take.work,
      settings: take.settings,
      lowRegisterDb: take.lowRegisterDb,
      findings: take.findings,
      commonCents: rounded(history.commonCents[i] ?? null, 3),
    })),
    strings: history.strings.filter(isAsked).map(stringOf),
    common: trendsOf(history.common),
    works: history.works.map(({ work, take, days, common, strings, lowRegisterDb }) => ({
      work,
      take,
      days: rounded(days, 5),
      common: differenceOf(common),
      strings: strings
        .filter(isAsked)
        .map(({ name, own, ...one }) => ({ name, ...differenceOf(one), own: differenceOf(own) })),
      lowRegisterDb: differenceOf(lowRegisterDb),
    })),
    doubtfulDays: [...history.doubtfulDays],
  };
  return { ...document, inShort: historyVerdict(document) };
}

function stringOf(string: StringHistory): InstrumentDocument["strings"][number] {
  return {
    name: string.name,
    role: string.role,
    targetHz: string.targetHz,
    takes: string.moments.map((moment) => ({
      take: moment.take,
      targetHz: moment.targetHz,
      frequencyHz: moment.frequencyHz,
      deviationCents: roundedFinite(moment.deviationCents, 3),
      interval95Cents: roundedInterval(moment.interval95Cents, 3),
      levelDb: rounded(moment.levelDb, 2),
      cents: roundedFinite(moment.cents, 3),
      change: moment.change && changeOf(moment.change),
      changeLacking: moment.changeLacking,
    })),
    latest: string.latest && { take: string.latest.take, change: changeOf(string.latest.change) },
    ...trendsOf(string),
    ownPerDay: trendOf(string.ownPerDay),
  };
}

function changeOf(change: PitchChange) {
  return {
    fromTake: change.fromTake,
    days: roundedFinite(change.days, 5),
    cents: roundedFinite(change.cents, 3),
    interval95Cents: roundedInterval(change.interval95Cents, 3),
    othersCents: rounded(change.othersCents, 3),
    othersInterval95Cents: roundedInterval(change.othersInterval95Cents, 3),
    ownCents: rounded(change.ownCents, 3),
    ownInterval95Cents: roundedInterval(change.ownInterval95Cents, 3),
    verdict: change.verdict,
  };
}

function trendsOf({ perDay, perDegree, perPercent }: PitchTrends) {
  return {
    perDay: trendOf(perDay),
    perDegreeC: trendOf(perDegree),
    perPercentHumidity: trendOf(perPercent),
  };
}

function trendOf({ trend, takeCount, lacking }: TrendReading) {
  return {
    slope: rounded(trend?.slope ?? null, 4),
    interval95: roundedInterval(trend?.interval95 ?? null, 4),
    takeCount,
    lacking,
  };
}

function differenceOf(one: WorkDifference) {
  const { difference, interval95, basis, beforeCount, afterCount, lacking } = one;
  return {
    difference: rounded(difference, 3),
    interval95: roundedInterval(interval95, 3),
    basis,
    beforeCount,
    afterCount,
    lacking,
  };
}
