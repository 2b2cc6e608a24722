import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { isSmall, type JudgedPair, judgePair } from "./judgePair.js";

type TakeDocument = MeasureDocument["takes"][number];
type StringDocument = TakeDocument["strings"][number];

/** One turn of a peg: which string, how far, by which pair to listen. */
export interface PairMove extends JudgedPair {
  readonly moved: string;
  /** How far it goes, up positive. */
  readonly moveCents: number;
  /** The string it is tuned by, where that one has to be moved first. */
  readonly after: string | null;
  /** Cents from pure when its turn comes. */
  readonly centsFromPure: number;
}

/** What to do about the pairs of a take. */
export interface PairPlan {
  /** In the order in which to do them; at most one a string. */
  readonly moves: readonly PairMove[];
  /** Pairs that change as well, with a string that is moved by another pair. */
  readonly follow: readonly JudgedPair[];
  /** Pairs to leave, by their state. */
  readonly stay: readonly JudgedPair[];
}

/** Nearer to its target than this, one of two strings can be what the other is tuned by. Our policy. */
const settledCents = 4;
/** Own errors closer than this are alike. */
const alikeCents = 0.05;

/**
 * Which strings to move so that the pairs come right, in order.
 *
 * Of two strings the one with the larger own error moves, so its own pitch gets better as well; the anchor never moves.
 * Each string is moved once: by the pair with the anchor, with a string that stays, or with one that was moved before,
 * in this order. The amounts reckon with the moves before.
 */
export function pairPlan(take: TakeDocument): PairPlan {
  const strings = new Map(take.strings.map((string) => [string.name, string]));
  const anchor = take.referencePitch?.anchor ?? null;
  const isTwoAlone = anchor === null && take.strings.filter(({ status }) => status === "measured").length < 3;
  const judged = take.pairs.flatMap((pair) => judgePair(pair, strings) ?? []);
  const off = judged
    .filter(({ state }) => state === "off")
    .map((one) => {
      const [lower, upper] = [strings.get(one.pair.lower)!, strings.get(one.pair.upper)!];
      const [mover, partner] = isWorse(lower, upper, anchor) ? [lower, upper] : [upper, lower];
      return { ...one, mover, partner };
    })
    // Of two strings alone that are both off, each goes to its own target first: their mean is no pitch to go by.
    .filter(({ partner }) => !isTwoAlone || Math.abs(partner.deviationCents ?? 0) < settledCents);
  const movers = [...new Set(off.map(({ mover }) => mover))].sort((a, b) => (isWorse(a, b, anchor) ? 1 : -1));
  const rank = (partner: StringDocument) => (partner.name === anchor ? 0 : movers.includes(partner) ? 2 : 1);

  const moves: PairMove[] = [];
  /** By how much each string was moved so far. */
  const shifts = new Map<string, number>();
  const shiftOf = ({ pair }: JudgedPair) => (shifts.get(pair.upper) ?? 0) - (shifts.get(pair.lower) ?? 0);
  for (const mover of movers) {
    const [best] = off
      .filter((one) => one.mover === mover)
      .sort((a, b) => rank(a.partner) - rank(b.partner) || errorOf(a.partner) - errorOf(b.partner));
    const { partner, mover: _, ...one } = best!;
    const centsFromPure = one.pair.centsFromPure + shiftOf(one);
    const offCents = centsFromPure - one.wantedCents;
    if (isSmall(offCents, one.commonHz, one.isTempered)) continue;
    const moveCents = one.pair.upper === mover.name ? -offCents : offCents;
    const after = shifts.has(partner.name) ? partner.name : null;
    shifts.set(mover.name, moveCents);
    moves.push({ ...one, moved: mover.name, moveCents, after, centsFromPure });
  }
  const others = judged.filter(({ pair }) => !moves.some((move) => move.pair === pair));
  const isMoved = ({ pair }: JudgedPair) => shifts.has(pair.lower) || shifts.has(pair.upper);
  const changes = (one: JudgedPair) => one.state === "off" || isMoved(one);
  return { moves, follow: others.filter(changes), stay: others.filter((one) => !changes(one)) };
}

/** Whether `a` is the one to move of two strings. Where own errors are alike, the one further from its target moves. */
function isWorse(a: StringDocument, b: StringDocument, anchor: string | null): boolean {
  if (a.name === anchor || b.name === anchor) return b.name === anchor;
  const difference = errorOf(a) - errorOf(b);
  if (Math.abs(difference) > alikeCents) return difference > 0;
  return Math.abs(a.deviationCents ?? 0) > Math.abs(b.deviationCents ?? 0);
}

function errorOf({ ownErrorCents, deviationCents }: StringDocument): number {
  return Math.abs(ownErrorCents ?? deviationCents ?? 0);
}
