import { closeIn, setOut } from "./closeIn.js";
import { followUnison } from "./followUnison.js";
import { type JointState, type JointString, moveString } from "./JointState.js";
import { locateString } from "./locateString.js";
import { PartialFit } from "./PartialFit.js";

/** Strings with one target that leave more than this share of their partials' power may not have been found yet. */
const WELL_EXPLAINED = 0.003;
/** Then the last is tried this far on both sides of the first, in steps of this share of a cycle over the passage ... */
const REACH_CENTS = 12;
const LINE_STEP_CYCLES = 0.2;
/** ... by the partials below this, and so many of the places are followed for a few steps, and of these the best to the end. */
const LINE_TOP_HZ = 800;
const MOST_LINES = 10;
const FEW_STEPS = 3;
const WORTH_MORE = 2;

/**
 * Looks for a string, or for several with one target, from their starts, and follows them.
 *
 * Several are looked for one after the other, then followed together; once without following any before all are found
 * (the beats of two about as strong would lead it astray), once following each at once (a weak one shows only when the
 * strong one is followed), and at last from a row of starts. What explains most stands.
 *
 * @param spanCents - how far from its start a string is looked for, those of `state` not located yet included
 * @param oneIsStrong - one of several explains nearly all by itself: then the weak one shows once the strong one is followed,
 * and no other start is tried
 * @returns of several, the share of the power at their partials that they leave unexplained (0 for one); null where one
 * could not be followed
 */
export function findEqual(
  state: JointState,
  strings: readonly JointString[],
  startsHz: readonly number[],
  spanCents: number,
  oneIsStrong = false,
): number | null {
  for (const string of strings) string.equals = strings.filter((one) => one !== string);
  findInTurn(state, strings, startsHz, spanCents, oneIsStrong);
  if (strings.length === 1) return strings[0].followed ? 0 : null;
  let left = followUnison(state, strings);
  if (oneIsStrong) return left;
  let best = keep(strings);
  const better = (found: number | null) => {
    if (found === null || (left !== null && found >= left)) return;
    left = found;
    best = keep(strings);
  };
  if (left === null || left > WELL_EXPLAINED) {
    findInTurn(state, strings, startsHz, spanCents, true);
    better(followUnison(state, strings));
  }
  if (left === null || left > WELL_EXPLAINED) {
    putBack(strings, best);
    for (const start of promisingStarts(state, strings)) {
      putBack(strings, start);
      better(followUnison(state, strings));
    }
  }
  putBack(strings, best);
  return left;
}

function findInTurn(
  state: JointState,
  strings: readonly JointString[],
  startsHz: readonly number[],
  spanCents: number,
  followAtOnce: boolean,
): void {
  for (const [i, string] of strings.entries()) setOut(state, string, startsHz[i]);
  for (const [i, string] of strings.entries()) {
    const later = followAtOnce ? strings.slice(i + 1) : [];
    const known = { ...state, strings: state.strings.filter((one) => !later.includes(one)) };
    locateString(known, string, spanCents, spanCents);
    closeIn(known, string, spanCents);
  }
}

/**
 * Starts of the last string that look best, the others where they are: first by what two constant lines explain of the
 * lowest partials, where the swing of the wheel tears least, then by what a few steps from there leave.
 */
function promisingStarts(state: JointState, strings: readonly JointString[]): Kept[] {
  const last = strings[strings.length - 1];
  const flat = () => new Float64Array(state.grid.count);
  for (const string of strings) {
    string.gain = flat().fill(1);
    moveString(state, string, string.baseHz, flat());
  }
  const before = keep(strings);
  const tried = lineStarts(state, strings).map((startHz) => {
    putBack(strings, before);
    moveString(state, last, startHz, flat());
    const left = followUnison(state, strings, FEW_STEPS) ?? Number.POSITIVE_INFINITY;
    return { left, kept: keep(strings) };
  });
  return tried
    .sort((a, b) => a.left - b.left)
    .slice(0, WORTH_MORE)
    .map(({ kept }) => kept);
}

/** Frequencies of the last string at which constant lines explain most, the best first. */
function lineStarts(state: JointState, strings: readonly JointString[]): number[] {
  const [first] = strings;
  const { baseHz } = first;
  const others = strings.slice(0, -1);
  const seconds = (state.grid.count - 1) * state.grid.hopSeconds;
  const stepHz = LINE_STEP_CYCLES / seconds;
  const steps = Math.ceil((baseHz * (2 ** (REACH_CENTS / 1200) - 1)) / stepHz);
  const numbers = Array.from({ length: Math.max(2, Math.floor(LINE_TOP_HZ / baseHz)) }, (_, n) => n + 1);
  const scores = Array.from({ length: 2 * steps + 1 }, (_, i) => {
    const apartHz = (i - steps) * stepHz;
    if (Math.abs(apartHz) < stepHz) return Number.NEGATIVE_INFINITY;
    const candidate = { ...first };
    moveString(state, candidate, baseHz + apartHz, new Float64Array(state.grid.count));
    return numbers.reduce((sum, number) => {
      if (number > first.partialCount) return sum;
      const fit = new PartialFit(state, first, number, strings.length);
      for (const string of [...others, candidate]) fit.addNeighbour({ string, number });
      fit.takeOut(fit.solve());
      return sum - Math.log(Math.max(fit.restPower(), 1e-300));
    }, 0);
  });
  return scores
    .map((score, i) => ({ score, startHz: baseHz + (i - steps) * stepHz }))
    .filter(({ score }, i) => score > (scores[i - 1] ?? -Infinity) && score >= (scores[i + 1] ?? -Infinity))
    .sort((a, b) => b.score - a.score)
    .slice(0, MOST_LINES)
    .map(({ startHz }) => startHz);
}

/** Where strings stand. */
type Kept = readonly JointString[];

function keep(strings: readonly JointString[]): Kept {
  return strings.map((string) => ({ ...string }));
}

function putBack(strings: readonly JointString[], kept: Kept): void {
  for (const [i, string] of strings.entries()) Object.assign(string, kept[i]);
}
