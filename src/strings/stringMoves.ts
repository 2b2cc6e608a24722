import type { StringTarget } from "../instrument/Instrument.js";
import { cents } from "../units/cents.js";
import { isOneNote } from "../units/isOneNote.js";
import type { MixedStrings, StringInMixture, StringMove } from "./MixedStrings.js";

/** Means over this long, a wheel turn or more, leave out the swing; they come this often. */
const MEAN_SECONDS = 1;
const STEP_SECONDS = 0.25;
/** A pitch that goes this fast, and this far in all, is being changed; strings that settle or warm up are slower (our policy). */
const LEAST_CENTS_PER_SECOND = 2;
const LEAST_CENTS = 8;
/** A pitch between two pieces further apart than this is not known to have gone at an even rate. */
const LARGEST_GAP_SECONDS = 2.5;
/** A hand that turns a peg halts for no longer. */
const LARGEST_HALT_SECONDS = 1.25;
/** What is moving is seen this late, or ends this early. */
const EDGE_SECONDS = 0.3;

interface Point {
  readonly seconds: number;
  readonly cents: number;
}

/** Finds the strings that were moved, by a peg or a capo, while others sounded: where a pitch goes from one height to another. */
export function stringMoves(
  mixtures: readonly MixedStrings[],
  targets: readonly StringTarget[],
): StringMove[] {
  const heard = new Set(mixtures.flatMap(({ strings }) => strings.map(({ targetIndex }) => targetIndex)));
  return [...heard].flatMap((targetIndex) => {
    const { targetHz } = targets[targetIndex];
    // Of two strings of one note nothing tells which is which from one part to the next.
    const isOne = [...heard].every(
      (other) => other === targetIndex || !isOneNote(targets[other].targetHz, targetHz),
    );
    const points = mixtures.flatMap(({ strings }) =>
      strings
        .filter((one) => one.targetIndex === targetIndex && !one.isGuess)
        .flatMap((one) => slowPitch(one, targetHz)),
    );
    return isOne ? movesOf(points).map((move) => ({ targetIndex, ...move })) : [];
  });
}

function slowPitch({ course, reading }: StringInMixture, targetHz: number): Point[] {
  if (course === null) return [];
  const { centSeconds, hopSeconds } = course;
  const length = Math.round(MEAN_SECONDS / hopSeconds);
  const step = Math.round(STEP_SECONDS / hopSeconds);
  const meanCents = cents(reading.frequencyHz, targetHz);
  const points: Point[] = [];
  for (let m = 0; m + length < centSeconds.length; m += step) {
    points.push({
      seconds: reading.startSeconds + (m + length / 2) * hopSeconds,
      cents: meanCents + (centSeconds[m + length] - centSeconds[m]) / (length * hopSeconds),
    });
  }
  return points;
}

function movesOf(points: readonly Point[]): Omit<StringMove, "targetIndex">[] {
  const moving = points.flatMap((a) => {
    const b = points.find(({ seconds }) => seconds - a.seconds > MEAN_SECONDS - STEP_SECONDS / 2);
    if (b === undefined) return [];
    const gone = b.cents - a.cents;
    const seconds = b.seconds - a.seconds;
    const isFast = Math.abs(gone) >= LEAST_CENTS_PER_SECOND * seconds;
    if (!isFast && !(seconds > LARGEST_GAP_SECONDS && Math.abs(gone) >= LEAST_CENTS)) return [];
    // Across a gap nothing tells where in it the pitch went.
    const half = Math.max(0, seconds - MEAN_SECONDS) / 2;
    const middle = (a.seconds + b.seconds) / 2;
    return [{ from: middle - half, to: middle + half, sign: Math.sign(gone) }];
  });
  const joined: { from: number; to: number; sign: number }[] = [];
  for (const one of moving) {
    const last = joined.at(-1);
    if (last !== undefined && last.sign === one.sign && one.from - last.to <= LARGEST_HALT_SECONDS) {
      last.to = Math.max(last.to, one.to);
    } else joined.push({ ...one });
  }
  return joined.flatMap(({ from, to }) => {
    const before = points.filter(({ seconds }) => seconds <= from - MEAN_SECONDS / 2).at(-1) ?? points[0];
    const after = points.find(({ seconds }) => seconds >= to + MEAN_SECONDS / 2) ?? points[points.length - 1];
    const movedCents = after.cents - before.cents;
    if (Math.abs(movedCents) < LEAST_CENTS) return [];
    return [{ startSeconds: from - EDGE_SECONDS, endSeconds: to + EDGE_SECONDS, movedCents }];
  });
}
