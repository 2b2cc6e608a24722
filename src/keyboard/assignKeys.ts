/** Which key each note of a scale is. */
export interface KeyAssignment {
  /** One a note, beyond the ladder too, by semitones; null for what is no key of this string. */
  readonly keys: readonly (number | null)[];
  /** Where the whole ladder stands against its target, in cents, as the notes fit it best. */
  readonly offsetCents: number;
}

/** Anything up to about this far from the ladder is a key that is off; beyond, it soon becomes dear. */
const KEY_CENTS = 45;
/** The open string is what the ladder stands on, and strays from itself by this (standard deviation). */
const OPEN_CENTS = 5;
/** A key played twice has one pitch within this (standard deviation). */
const REPEAT_CENTS = 6;
const REPEAT_COST = 0.7;
/** Strings stand within this of their target, as a rule. */
const OFFSET_CENTS = 30;
const LARGEST_OFFSET_CENTS = 70;
const OFFSET_STEP_CENTS = 5;
/** An instrument may have a few keys more than its file says; that is dearer than one the file knows. */
const MORE_KEYS = 12;
const MORE_KEYS_COST = 3;
/** What is dearer than this is no note of the string. */
const FOREIGN_COST = 12;
const TURN_COST = 3;
/** A scale begins or ends on the open string, as a rule. */
const NO_OPEN_COST = 1;

/**
 * Finds which key each note of a scale is: of all ways to give the notes keys, the one that costs least.
 *
 * A note costs by how far it is from its key's place on the ladder: little up to half a semitone, for keys are off by any of
 * that, and much beyond. Going on to the next key costs nothing; repeating one, leaving some out or turning round costs a
 * little, and a repeated one that is not the same pitch a lot; where the ladder as a whole stands is found along with it (dynamic
 * programming over the notes for each place). Rounding each note by itself goes wrong where the string is out of tune
 * besides and a key is off the same way.
 *
 * @param noteCents - of each note over the open string's target, in the order played
 * @param ladderCents - of each key over the open string, from key 0
 */
export function assignKeys(noteCents: readonly number[], ladderCents: readonly number[]): KeyAssignment {
  let best: KeyAssignment = { keys: noteCents.map(() => null), offsetCents: 0 };
  let least = Number.POSITIVE_INFINITY;
  const last = ladderCents.length - 1;
  const ladder = [
    ...ladderCents,
    ...Array.from({ length: MORE_KEYS }, (_, i) => (ladderCents[last] ?? 0) + 100 * (i + 1)),
  ];
  for (let offset = -LARGEST_OFFSET_CENTS; offset <= LARGEST_OFFSET_CENTS; offset += OFFSET_STEP_CENTS) {
    const { cost, keys } = cheapest(noteCents, ladder, last, offset);
    const total = cost + (offset / OFFSET_CENTS) ** 2 + (keys.includes(0) ? 0 : NO_OPEN_COST);
    if (total >= least) continue;
    least = total;
    best = { keys, offsetCents: offset };
  }
  return best;
}

function cheapest(notes: readonly number[], ladder: readonly number[], last: number, offset: number) {
  const count = ladder.length;
  // State: key and direction (rising 0, falling 1) as key + direction * count.
  let costs = new Float64Array(2 * count);
  const from: Int32Array[] = [];
  const foreign: Uint8Array[] = [];
  for (const [i, note] of notes.entries()) {
    const next = new Float64Array(2 * count);
    const came = new Int32Array(2 * count);
    const isForeign = new Uint8Array(2 * count);
    const moved = i === 0 ? 0 : (note - notes[i - 1]) / REPEAT_CENTS;
    const again = REPEAT_COST + Math.min(FOREIGN_COST, moved * moved);
    for (let state = 0; state < 2 * count; state++) {
      const key = state % count;
      const direction = state < count ? 1 : -1;
      const away = note - offset - ladder[key];
      const placed =
        (key === 0 ? (away / OPEN_CENTS) ** 2 : (away / KEY_CENTS) ** 4) + (key > last ? MORE_KEYS_COST : 0);
      let least = i === 0 ? 0 : Number.POSITIVE_INFINITY;
      came[state] = state;
      for (let before = 0; i > 0 && before < 2 * count; before++) {
        const step = direction * (key - (before % count));
        if (step < 0) continue;
        const turned = before < count === state < count ? 0 : TURN_COST;
        const total = costs[before] + turned + (step === 0 ? again : stepCost(step));
        if (total < least) {
          least = total;
          came[state] = before;
        }
      }
      next[state] = least + placed;
      // A note that is none of the string's leaves the hand where it was.
      const stay = (i === 0 ? 0 : costs[state]) + FOREIGN_COST;
      if (stay < next[state]) {
        next[state] = stay;
        came[state] = state;
        isForeign[state] = 1;
      }
    }
    costs = next;
    from.push(came);
    foreign.push(isForeign);
  }
  let state = costs.reduce((best, cost, s) => (cost < costs[best] ? s : best), 0);
  const cost = costs[state] ?? 0;
  const keys: (number | null)[] = new Array(notes.length).fill(null);
  for (let i = notes.length - 1; i >= 0; i--) {
    keys[i] = foreign[i][state] === 1 ? null : state % count;
    state = from[i][state];
  }
  return { cost, keys };
}

function stepCost(step: number): number {
  if (step === 1) return 0;
  return step <= 3 ? 0.7 * step : 2.1 + 0.5 * (step - 3);
}
