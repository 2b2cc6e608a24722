import type { TimeSpan } from "../audio/findPauses.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { cents } from "../units/cents.js";
import { assignKeys } from "./assignKeys.js";
import { cutNotes } from "./cutNotes.js";
import type { KeyboardOptions, NamedPitch } from "./KeyboardReading.js";
import { pitchSteps } from "./pitchSteps.js";
import { type NoteReading, readNote } from "./readNote.js";
import { takeOutDrones } from "./takeOutDrones.js";
import { trackNotes } from "./trackNotes.js";

/** A note of which it is known which key it is. */
export interface KeyNote {
  readonly key: number;
  readonly note: NoteReading;
}

/** The notes of a scale. */
export interface HeardNotes {
  readonly notes: readonly KeyNote[];
  /** Notes that are no key of the string. */
  readonly strays: readonly NoteReading[];
  readonly drones: readonly NamedPitch[];
}

/** A note that moves about by more (standard deviation) is a slide, or two notes in one. */
const LARGEST_WANDER_CENTS = 15;
/** A drone is one where it is heard in this share of the take. */
const LEAST_DRONE_SHARE = 0.3;

/**
 * Finds the notes of a scale and the key of each, in the channel that shows most of them.
 *
 * @param channels - with {@link FIT_MARGIN_SECONDS} of sound or more beyond the span, where there is any
 */
export function hearNotes(
  channels: readonly AnalysisSegment[],
  span: TimeSpan,
  { openTargetHz, ladderCents, drones = [] }: KeyboardOptions,
): HeardNotes {
  const topCents = ladderCents[ladderCents.length - 1] ?? 0;
  const dronesHz = drones.map(({ frequencyHz }) => frequencyHz);
  const heard = channels.map((channel) => {
    const without = takeOutDrones(channel, span, dronesHz, openTargetHz);
    const track = trackNotes(without.segment, without.takenOut, span, openTargetHz, topCents);
    const voiced = track.centsOverOpen.reduce((count, value) => count + (Number.isNaN(value) ? 0 : 1), 0);
    return { without, track, voiced };
  });
  const best = heard.reduce((a, b) => (b.voiced > a.voiced ? b : a));
  const all = cutNotes(best.track).flatMap(
    (note) => readNote(best.without.segment, note, openTargetHz) ?? [],
  );
  const read = all.filter((note) => wanderCents(note) <= LARGEST_WANDER_CENTS);
  const { keys } = assignKeys(
    read.map(({ frequencyHz }) => cents(frequencyHz, openTargetHz)),
    ladderCents,
  );
  return {
    notes: read.flatMap((note, i) => {
      const key = keys[i];
      return key === null ? [] : [{ key, note }];
    }),
    strays: all.filter((note) => (keys[read.indexOf(note)] ?? null) === null),
    drones: best.without.drones
      .filter(({ share }) => share >= LEAST_DRONE_SHARE)
      .map(({ index, frequencyHz }) => ({ name: drones[index].name, frequencyHz })),
  };
}

function wanderCents(note: NoteReading): number {
  const steps = pitchSteps(note, 0, note.frequencyHz);
  return Math.sqrt(steps.reduce((sum, { cents: value }) => sum + value * value, 0) / steps.length);
}
