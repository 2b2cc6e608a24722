import type { FineSpan, FineStroke } from "./FineStroke.js";
import { FINE_HOP_SECONDS } from "./fineCourse.js";

/** Where a stroke is silent, begins, and buzzes. */
export interface FineSpans {
  readonly quiet: FineSpan;
  /** The first knocks: later the pitch drops, and with it the string's own partials beat otherwise with the drones'. */
  readonly early: FineSpan;
  readonly inner: FineSpan;
}

/** An attack's weak knocks may come so long before the first loud one. */
const BEFORE_SECONDS = 0.007;
const CLEAR_OF_EARLIEST_SECONDS = 0.003;
const QUIET_FROM_SECONDS = 0.05;
/** A room, and the stroke before, ring on; but so much silence is needed. */
const AFTER_END_SECONDS = 0.012;
const LEAST_QUIET_SECONDS = 0.016;
const LEAST_QUIET_FRAMES = 6;
const EARLY_SECONDS = [0.0015, 0.012] as const;
const LEAST_EARLY_SECONDS = 0.008;
const EARLY_PERIODS = 4;
const INNER_SECONDS = [0.01, 0.05] as const;
const LEAST_INNER_SECONDS = 0.02;
const BEFORE_END_SECONDS = 0.002;

/** Frames of a stroke's fine course that are silent, that hold its first knocks, and that buzz, as far as is known. */
export function fineSpans(stroke: FineStroke, stringHz: number): FineSpans {
  const { course, strokeSeconds, knockSeconds, earliestSeconds, endSeconds, endBeforeSeconds } = stroke;
  const begin = course.firstSeconds - strokeSeconds;
  const frame = (seconds: number) =>
    Math.min(course.power[0].length, Math.max(0, Math.round((seconds - begin) / FINE_HOP_SECONDS)));
  const quietTo = Math.min(knockSeconds - BEFORE_SECONDS, earliestSeconds - CLEAR_OF_EARLIEST_SECONDS);
  const quietFrom = Math.max(
    knockSeconds - QUIET_FROM_SECONDS,
    Math.min(endBeforeSeconds + AFTER_END_SECONDS, quietTo - LEAST_QUIET_SECONDS),
  );
  const quiet = frame(quietFrom);
  const earlyTo = knockSeconds + Math.max(EARLY_SECONDS[1], EARLY_PERIODS / stringHz);
  const span = (from: number, least: number, to: number): FineSpan => [
    frame(knockSeconds + from),
    Math.max(frame(knockSeconds + least), frame(Math.min(to, endSeconds - BEFORE_END_SECONDS))),
  ];
  return {
    quiet: [quiet, Math.max(quiet + LEAST_QUIET_FRAMES, frame(quietTo))],
    early: span(EARLY_SECONDS[0], LEAST_EARLY_SECONDS, earlyTo),
    inner: span(INNER_SECONDS[0], LEAST_INNER_SECONDS, knockSeconds + INNER_SECONDS[1]),
  };
}
