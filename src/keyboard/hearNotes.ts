import type { TimeSpan } from "../audio/findPauses.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { cents } from "../units/cents.js";
import { assignKeys } from "./assignKeys.js";
import { type CutNotes, cutNotes, type NoteSpan } from "./cutNotes.js";
import { harshNotes } from "./harshNotes.js";
import type { KeyboardOptions, NamedPitch } from "./KeyboardReading.js";
import { type LikelyString, likelyString } from "./likelyString.js";
import { pitchSteps } from "./pitchSteps.js";
import { type NoteReading, readNote } from "./readNote.js";
import { takeOutDrones, type WithoutDrones } from "./takeOutDrones.js";
import { type NoteTrack, trackNotes } from "./trackNotes.js";
import { withoutLow } from "./withoutLow.js";

/** A note of which it is known which key it is. */
export interface KeyNote {
  readonly key: number;
  readonly note: NoteReading;
}

/** The notes of a scale. */
export interface HeardNotes {
  readonly notes: readonly KeyNote[];
  /** Notes that are no key of the string, those above its last key apart. */
  readonly strays: readonly NoteReading[];
  readonly aboveLastKey: readonly NoteReading[];
  /** Notes that were too short to be read. */
  readonly short: readonly NoteSpan[];
  /** Another string that the notes fit better than the one named; null where there is none. */
  readonly likely: LikelyString | null;
  readonly drones: readonly NamedPitch[];
}

/** A note that moves about by more (standard deviation) is a slide, or two notes in one. */
const LARGEST_WANDER_CENTS = 15;
/** A drone is one where it is heard in this share of the take. */
const LEAST_DRONE_SHARE = 0.3;
/** Notes are looked for this far above the last key, so that one the file doesn't know can be told. */
const ABOVE_LAST_CENTS = 1250;
/** A short stretch beside a note of this pitch is a part of it that was lost and found again. */
const SAME_CENTS = 40;
const BESIDE_SECONDS = 0.35;

/**
 * Finds the notes of a scale and the key of each, in the channel that shows most of them.
 *
 * @param channels - with {@link FIT_MARGIN_SECONDS} of sound or more beyond the span, where there is any
 */
export function hearNotes(
  channels: readonly AnalysisSegment[],
  span: TimeSpan,
  options: KeyboardOptions,
): HeardNotes {
  const { openTargetHz, ladderCents, drones = [], otherStrings = [] } = options;
  const topCents = ladderCents[ladderCents.length - 1] ?? 0;
  const dronesHz = drones.map(({ frequencyHz }) => frequencyHz);
  const heard = channels.map((channel) => {
    const without = takeOutDrones(channel, span, dronesHz);
    return { without, ...listenFor(without, span, openTargetHz, topCents + ABOVE_LAST_CENTS) };
  });
  const best = heard.reduce((a, b) => (voicedShare(b.track) > voicedShare(a.track) ? b : a));
  const harsh = harshNotes(
    best.segment,
    best.without.takenOut,
    best.track,
    best.cut.notes,
    openTargetHz,
    topCents,
  );
  const spans = [...best.cut.notes, ...harsh].sort((a, b) => a.startSeconds - b.startSeconds);
  const readings = spans.map((note) => ({ note, read: readNote(best.segment, note, openTargetHz) }));
  const all = readings.flatMap(({ read }) => read ?? []);
  const steady = all.filter((note) => wanderCents(note) <= LARGEST_WANDER_CENTS);
  const over = ({ frequencyHz }: NoteReading) => cents(frequencyHz, openTargetHz);
  const { keys: placed } = assignKeys(steady.map(over), ladderCents);
  const keys = placed.map((key) => (key !== null && key >= ladderCents.length ? null : key));
  const isAbove = (note: NoteReading) => (placed[steady.indexOf(note)] ?? 0) >= ladderCents.length;
  const foreign = all.filter((note) => (keys[steady.indexOf(note)] ?? null) === null);
  const unread = readings.flatMap(({ note, read }) => (read === null ? [note] : []));
  const listen = (openHz: number) =>
    listenFor(best.without, span, openHz, topCents + ABOVE_LAST_CENTS).cut.notes;
  return {
    notes: steady.flatMap((note, i) => {
      const key = keys[i];
      return key === null ? [] : [{ key, note }];
    }),
    strays: foreign.filter((note) => !isAbove(note)),
    aboveLastKey: foreign.filter(isAbove),
    short: [...unread, ...best.cut.short].filter((one) => !isPartOf(one, spans)),
    likely: likelyString(listen, keys, voicedShare(best.track), ladderCents, openTargetHz, otherStrings),
    drones: best.without.drones
      .filter(({ share }) => share >= LEAST_DRONE_SHARE)
      .map(({ index, frequencyHz }) => ({ name: drones[index].name, frequencyHz })),
  };
}

interface Listened {
  readonly segment: AnalysisSegment;
  readonly track: NoteTrack;
  readonly cut: CutNotes;
}

/** Tracks and cuts the notes that a string with its open pitch may have. */
function listenFor(
  { segment: whole, takenOut }: WithoutDrones,
  span: TimeSpan,
  openHz: number,
  topCents: number,
): Listened {
  const segment = { ...whole, samples: withoutLow(whole.samples, whole.sampleRateHz, openHz) };
  const track = trackNotes(segment, takenOut, span, openHz, topCents);
  return { segment, track, cut: cutNotes(track) };
}

function voicedShare({ centsOverOpen }: NoteTrack): number {
  return (
    centsOverOpen.reduce((count, value) => count + (Number.isNaN(value) ? 0 : 1), 0) / centsOverOpen.length
  );
}

function isPartOf(short: NoteSpan, notes: readonly NoteSpan[]): boolean {
  return notes.some(
    (note) =>
      note !== short &&
      Math.abs(note.centsOverOpen - short.centsOverOpen) < SAME_CENTS &&
      short.startSeconds - note.endSeconds < BESIDE_SECONDS &&
      note.startSeconds - short.endSeconds < BESIDE_SECONDS,
  );
}

function wanderCents(note: NoteReading): number {
  const steps = pitchSteps(note, 0, note.frequencyHz);
  return Math.sqrt(steps.reduce((sum, { cents: value }) => sum + value * value, 0) / steps.length);
}
