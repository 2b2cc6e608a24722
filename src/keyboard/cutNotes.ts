import type { NoteTrack } from "./trackNotes.js";

/** A stretch in which the string stands on one key. */
export interface NoteSpan {
  readonly startSeconds: number;
  readonly endSeconds: number;
  /** Mean over its frames. */
  readonly centsOverOpen: number;
}

/** The notes of a track. */
export interface CutNotes {
  readonly notes: readonly NoteSpan[];
  /** Stretches too short for a note to be read, but longer than a change of key: grace notes, slips, fast playing. */
  readonly short: readonly NoteSpan[];
}

/** A shorter stretch is a slip or a grace note. */
const LEAST_FRAMES = 16;
const LEAST_SHORT_FRAMES = 7;
/** A key is held for longer; shorter pieces side by side that differ by less than this are of one unsteady note. */
const LEAST_HELD_FRAMES = 25;
const PIECES_CENTS = 40;
/**
 * What a cut must save, in squared cents times frames: two keys 20 cents apart, 0.3 s each, save 6,000 by it; half a turn of a
 * wheel that swings by 3 cents saves 150.
 */
const CUT_COST = 900;
/** No stretch that costs this much is one note, however long. */
const LARGEST_COST = 100 * CUT_COST;
/** A pause this long parts two notes of one key ... */
const SILENT_FRAMES = 8;
/** ... while a sound whose pitch is lost for less than this, as where the dog of a trompette barks, may go on behind it. */
const LOST_FRAMES = 30;

/**
 * Cuts a track into notes: of all ways to cut it, the one with the least squares about the notes' means plus a price a cut
 * (optimal partitioning, Jackson et al. 2005). Legato keys need no pause; a pause is a cut anyway.
 */
export function cutNotes(track: NoteTrack): CutNotes {
  const { centsOverOpen, isSilent, firstSeconds, hopSeconds } = track;
  const notes: NoteSpan[] = [];
  const short: NoteSpan[] = [];
  let start = -1;
  let last = -1;
  let silent = 0;
  const close = () => {
    if (start >= 0) {
      for (const { from, to, values } of joined(cuts(centsOverOpen.subarray(start, last + 1)))) {
        if (values.length < LEAST_SHORT_FRAMES) continue;
        (values.length < LEAST_FRAMES ? short : notes).push({
          startSeconds: firstSeconds + (start + from) * hopSeconds,
          endSeconds: firstSeconds + (start + to) * hopSeconds,
          centsOverOpen: middleMean(values),
        });
      }
    }
    start = -1;
  };
  for (let m = 0; m < centsOverOpen.length; m++) {
    silent += isSilent[m];
    if (Number.isNaN(centsOverOpen[m])) continue;
    if (start >= 0 && (silent > SILENT_FRAMES || m - last > LOST_FRAMES)) close();
    if (start < 0) start = m;
    last = m;
    silent = 0;
  }
  close();
  return { notes, short };
}

/**
 * Puts together what was cut out of one note that moves about: stretches side by side, each too short for a key to be held,
 * that are nearly of one pitch.
 */
function joined(parts: readonly Part[]): Part[] {
  const whole: Part[] = [];
  for (const part of parts) {
    const before = whole[whole.length - 1];
    const isPiece = (one: Part | undefined) =>
      one !== undefined && one.values.length >= LEAST_SHORT_FRAMES && one.isPiece;
    const isNear = () => Math.abs(middleMean(before.values) - middleMean(part.values)) < PIECES_CENTS;
    if (isPiece(before) && isPiece(part) && isNear()) {
      const values = Float64Array.from([...before.values, ...part.values]);
      whole[whole.length - 1] = { from: before.from, to: part.to, values, isPiece: true };
    } else whole.push(part);
  }
  return whole;
}

/** Mean of the inner half, by size: what a slow change of key leaves at the ends has no say. */
function middleMean(values: Float64Array): number {
  const sorted = values.slice().sort();
  const from = Math.floor(sorted.length / 4);
  const inner = sorted.subarray(from, Math.max(from + 1, sorted.length - from));
  return inner.reduce((sum, value) => sum + value, 0) / inner.length;
}

/** A part between two cuts: from its first frame with a pitch to behind its last, and the pitches in between. */
interface Part {
  readonly from: number;
  readonly to: number;
  readonly values: Float64Array;
  /** Too short for a key that is held. */
  readonly isPiece: boolean;
}

/** Frames without a pitch count for nothing. */
function cuts(track: Float64Array): Part[] {
  const frames = Int32Array.from(track.keys()).filter((m) => !Number.isNaN(track[m]));
  const values = Float64Array.from(frames, (m) => track[m]);
  const count = values.length;
  const best = new Float64Array(count + 1).fill(Number.POSITIVE_INFINITY);
  const previous = new Int32Array(count + 1);
  best[0] = -CUT_COST;
  for (let end = 1; end <= count; end++) {
    let sum = 0;
    let squares = 0;
    for (let start = end - 1; start >= 0; start--) {
      const away = values[start] - values[end - 1];
      sum += away;
      squares += away * away;
      const cost = squares - (sum * sum) / (end - start);
      // One note more is dearer than any cut within it: so is every longer one.
      if (cost > LARGEST_COST) break;
      const total = best[start] + CUT_COST + cost;
      if (total < best[end]) {
        best[end] = total;
        previous[end] = start;
      }
    }
  }
  const found: Part[] = [];
  for (let end = count; end > 0; end = previous[end]) {
    const first = previous[end];
    found.push({
      from: frames[first],
      to: frames[end - 1] + 1,
      values: values.subarray(first, end),
      isPiece: end - first < LEAST_HELD_FRAMES,
    });
  }
  return found.reverse();
}
