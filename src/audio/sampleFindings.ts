import { amplitudeToDb } from "../units/decibels.js";
import type { Finding } from "./Finding.js";
import { quietFinding } from "./quietFinding.js";
import type { RecordingSurvey } from "./RecordingSurvey.js";

/** An offset below half a per cent is common and harms nothing (common practice, no source). */
const LEAST_OFFSET = 0.005;
/** Too short for a steady passage at all, and too short for an interval over several turns of the wheel. */
const UNUSABLE_SECONDS = 1;
const SHORT_SECONDS = 4;
/** More missing values than this can't be bridged. */
const UNUSABLE_NON_FINITE_SHARE = 0.01;

/** Findings about the samples themselves: missing values, clipping, offset, level, length. */
export function sampleFindings(survey: RecordingSurvey): Finding[] {
  return [...notFinite(survey), ...clipping(survey), ...offset(survey), ...level(survey), ...length(survey)];
}

function notFinite({ channels, frameCount }: RecordingSurvey): Finding[] {
  const count = channels.reduce((sum, channel) => sum + channel.nonFiniteCount, 0);
  if (count === 0) return [];
  const share = count / (frameCount * channels.length);
  const firstSeconds = least(channels.map((channel) => channel.firstNonFiniteSeconds));
  const severity = share > UNUSABLE_NON_FINITE_SHARE ? "problem" : "warning";
  return [{ code: "not-finite", severity, values: { count, share, firstSeconds } }];
}

function clipping({ channels, frameCount }: RecordingSurvey): Finding[] {
  const count = channels.reduce((sum, channel) => sum + channel.clippedRunCount, 0);
  if (count === 0) return [];
  const clipped = channels.filter((channel) => channel.clippedRunCount > 0);
  const samples = clipped.reduce((sum, channel) => sum + channel.clippedSampleCount, 0);
  const limits = clipped.map((channel) => Math.max(channel.maximum, -channel.minimum));
  return [
    {
      code: "clipping",
      severity: "warning",
      values: {
        count,
        firstSeconds: least(clipped.map((channel) => channel.firstClippedSeconds)),
        share: samples / (frameCount * channels.length),
        limitDb: amplitudeToDb(Math.min(...limits)),
      },
    },
  ];
}

function offset({ channels }: RecordingSurvey): Finding[] {
  const offsets = channels.map((channel) => channel.dcMean);
  const worst = offsets.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0);
  if (Math.abs(worst) <= LEAST_OFFSET) return [];
  const values = { offsetPercent: 100 * worst, channel: offsets.indexOf(worst) + 1 };
  return [{ code: "dc-offset", severity: "info", values }];
}

function level({ channels }: RecordingSurvey): Finding[] {
  const found = quietFinding(Math.max(0, ...channels.map((channel) => channel.peak)));
  return found === null ? [] : [found];
}

function length({ frameCount, sampleRateHz }: RecordingSurvey): Finding[] {
  const durationSeconds = frameCount / sampleRateHz;
  if (durationSeconds >= SHORT_SECONDS) return [];
  const severity = durationSeconds < UNUSABLE_SECONDS ? "problem" : "warning";
  return [{ code: "too-short", severity, values: { durationSeconds } }];
}

function least(values: readonly (number | null)[]): number {
  return Math.min(...values.filter((value) => value !== null));
}
