import type { TimeSpan } from "../audio/findPauses.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { cents, shiftByCents } from "../units/cents.js";
import type { FoundStroke } from "./findStrokes.js";
import { pitchDrop } from "./pitchDrop.js";
import { soundingAlong } from "./soundingAlong.js";
import { type StringCourse, stringCourse } from "./stringCourse.js";
import type { PitchReading, PitchRefusal, StrokeMean, TrompetteOptions } from "./TrompetteReading.js";
import { type TurnRate, turnRate } from "./turnRate.js";

/** Pitch of the string with and without buzz, and what follows from its course. */
export interface Pitches {
  /** Names of the other strings that sound. */
  readonly sounding: readonly string[];
  readonly silentPitch: PitchReading | null;
  readonly buzzingPitch: PitchReading | null;
  readonly differenceCents: StrokeMean | null;
  readonly refusal: PitchRefusal | null;
  readonly turns: TurnRate;
}

/** The bow takes hold, and lets go. */
const START_SECONDS = 0.25;
const END_SECONDS = 0.15;
const LEAST_SECONDS = 0.3;
/** What moves about more than this is not one string at one pitch. */
const LEAST_SURE_CENTS = 15;

/** Reads pitches and turn rate of the string from all stretches in which it sounds. */
export function readPitches(
  segment: AnalysisSegment,
  stretches: readonly TimeSpan[],
  silent: readonly TimeSpan[],
  strokes: readonly FoundStroke[],
  nearHz: number,
  options: TrompetteOptions,
): Pitches {
  const { string, others = [] } = options;
  const longest = [...stretches].sort((a, b) => length(b) - length(a))[0];
  const quiet = silent[0];
  const along =
    string === null || others.length === 0
      ? null
      : ((quiet && soundingAlong(segment, quiet, string, others)) ??
        soundingAlong(segment, longest, string, others));
  const stringHz = along?.stringHz ?? nearHz;
  const othersHz = (along?.others ?? []).map(({ frequencyHz }) => frequencyHz);
  const follow = ({ startSeconds, endSeconds }: TimeSpan) =>
    stringCourse(segment, startSeconds, endSeconds, stringHz, othersHz);
  const whole = stretches
    .map(({ startSeconds, endSeconds }) => ({
      startSeconds: startSeconds + START_SECONDS,
      endSeconds: endSeconds - END_SECONDS,
    }))
    .filter((one) => length(one) >= LEAST_SECONDS)
    .map(follow);
  const courses = whole.filter((one): one is StringCourse => typeof one !== "string");
  const refused = whole.find((one): one is PitchRefusal => typeof one === "string");
  const turns = turnRate(
    (span) => {
      const course = follow(span);
      return typeof course === "string" ? null : course;
    },
    silent,
    options.turnsPerSecond ?? null,
  );
  const sounding = (along?.others ?? []).map(({ name }) => name);
  if (courses.length === 0) {
    const nothing = { silentPitch: null, buzzingPitch: null, differenceCents: null };
    return { sounding, ...nothing, refusal: refused ?? "too-short", turns };
  }
  const drop = pitchDrop(courses, strokes, stringHz);
  if (drop.silent?.interval95 && drop.silent.interval95[1] - drop.silent.mean > LEAST_SURE_CENTS) {
    const nothing = { silentPitch: null, buzzingPitch: null, differenceCents: null };
    return { sounding, ...nothing, refusal: "not-followed", turns };
  }
  const targetHz = string?.frequencyHz ?? null;
  const silentPitch = drop.silent && pitchOf(drop.silent, stringHz, targetHz);
  const both = drop.silent && drop.difference && sumOf(drop.silent, drop.difference);
  return {
    sounding,
    silentPitch,
    buzzingPitch: both && pitchOf(both, stringHz, targetHz),
    differenceCents: drop.difference,
    refusal: null,
    turns,
  };
}

function length({ startSeconds, endSeconds }: TimeSpan): number {
  return endSeconds - startSeconds;
}

function pitchOf(
  { mean, interval95 }: StrokeMean,
  referenceHz: number,
  targetHz: number | null,
): PitchReading {
  const frequencyHz = shiftByCents(referenceHz, mean);
  return {
    frequencyHz,
    deviationCents: targetHz === null ? null : cents(frequencyHz, targetHz),
    interval95Cents: interval95 && [interval95[0] - mean, interval95[1] - mean],
  };
}

/** Sum of two independent means. */
function sumOf(a: StrokeMean, b: StrokeMean): StrokeMean {
  const mean = a.mean + b.mean;
  if (a.interval95 === null || b.interval95 === null) return { mean, interval95: null };
  const half = Math.hypot(a.interval95[1] - a.mean, b.interval95[1] - b.mean);
  return { mean, interval95: [mean - half, mean + half] };
}
