import { amplitudeToDb } from "../units/decibels.js";
import type { Finding } from "./Finding.js";
import type { RecordingSurvey } from "./RecordingSurvey.js";

/** So far below the loudest channel a channel carries the noise of an open input at most (common practice). */
const SILENT_BELOW_LOUDEST_DB = 50;
/** Twice the amplitude: more than two microphones at one instrument differ by (common practice, no source). */
const LARGEST_DIFFERENCE_DB = 6;
/** Clearly opposite: one channel's polarity is turned over. Spaced microphones stay well above (common practice). */
const POLARITY_CORRELATION = -0.6;

/** Findings about channels that don't agree. Channels are counted from 1. Nothing for a single channel or silence. */
export function channelFindings(survey: RecordingSurvey): Finding[] {
  const levels = survey.channels.map(({ rms }) => (rms > 0 ? amplitudeToDb(rms) : Number.NEGATIVE_INFINITY));
  const loudest = Math.max(...levels);
  if (levels.length < 2 || loudest === Number.NEGATIVE_INFINITY) return [];
  const isLive = levels.map((level) => level > loudest - SILENT_BELOW_LOUDEST_DB);
  const live = levels.filter((_, c) => isLive[c]);
  const findings: Finding[] = [];
  if (live.length < levels.length) {
    const silent = levels.map((_, c) => c + 1).filter((c) => !isLive[c - 1]);
    const values = { channels: silent.join(", "), silentCount: silent.length, channelCount: levels.length };
    findings.push({ code: "channel-silent", severity: "warning", values });
  }
  const differenceDb = loudest - Math.min(...live);
  if (differenceDb > LARGEST_DIFFERENCE_DB) {
    const values = {
      differenceDb,
      louderChannel: levels.indexOf(loudest) + 1,
      quieterChannel: levels.indexOf(loudest - differenceDb) + 1,
    };
    findings.push({ code: "channel-difference", severity: "info", values });
  }
  const correlation = survey.leftRightCorrelation;
  if (isLive[0] && isLive[1] && correlation !== null && correlation < POLARITY_CORRELATION) {
    findings.push({ code: "channel-polarity", severity: "warning", values: { correlation } });
  }
  return findings;
}
