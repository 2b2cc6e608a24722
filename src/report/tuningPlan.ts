import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { isSmall, type JudgedPair, judgePair } from "./judgePair.js";
import { type StringError, stringErrors } from "./stringErrors.js";

type TakeDocument = MeasureDocument["takes"][number];

/** The pair that a string is tuned by. */
export interface GuidePair extends JudgedPair {
  /** The other string of it, where that one has to be tuned first. */
  readonly after: string | null;
  /** Cents from pure when its turn comes. */
  readonly centsFromPure: number;
}

/** One string to move. */
export interface TuningStep {
  readonly name: string;
  /** How far it goes, up positive. */
  readonly moveCents: number;
  /** So far off that it goes first, and all is measured again after it. */
  readonly isFar: boolean;
  /** Few hear it: nobody has to. */
  readonly isPerhaps: boolean;
  /** Null where there is no string to tune it by: by its own pitch. */
  readonly by: GuidePair | null;
}

/** What to do about a take: one list for the whole sheet. */
export interface TuningPlan {
  /** In the order in which to do them, one a string. */
  readonly steps: readonly TuningStep[];
  /** Pairs of which a string is moved by something else, or that are off and come right with the rest. */
  readonly follow: readonly JudgedPair[];
  /** Pairs to leave, by their state. */
  readonly stay: readonly JudgedPair[];
  /** Pairs with a string so far off that their figures mean nothing yet. */
  readonly waiting: readonly JudgedPair[];
}

/** Drones are set first, the trompette to them, melody strings to both (common practice, no source). */
const roleOrder = ["drone", "trompette", "melody", "sympathetic"];
/** Nearer than this to where it is to be, a string can be what another is tuned by. Our policy. */
const settledCents = 4;
/** Errors closer than this are alike. */
const alikeCents = 0.05;

/**
 * Which strings to move, in which order and how far: each once, towards the one zero point of `stringErrors`.
 *
 * Strings far off go first. Then drones, trompette, melody strings, of each the least errors first. A string moves where a
 * pair is off and it is the one with the larger error of the two, or where its own pitch would be heard to be off. It is
 * tuned by its pair with the anchor, with a string that stays, or with one tuned before, in this order, and only by one
 * that stands where it should; else by its own pitch. The amounts reckon with the steps before.
 */
export function tuningPlan(take: TakeDocument): TuningPlan {
  const anchor = take.referencePitch?.anchor ?? null;
  const errors = stringErrors(take);
  const errorOf = new Map(errors.map((one) => [one.string.name, one]));
  const strings = new Map(take.strings.map((string) => [string.name, string]));
  const isFar = (name: string) => errorOf.get(name)?.isFar ?? false;
  const all = take.pairs.flatMap((pair) => judgePair(pair, strings) ?? []);
  const waiting = all.filter(({ pair }) => isFar(pair.lower) || isFar(pair.upper));
  const judged = all.filter((one) => !waiting.includes(one));
  const movers = new Set(
    judged.filter(({ state }) => state === "off").map(({ pair }) => moverOf(pair, errorOf, anchor)),
  );
  const mayMove = ({ string, verdict }: StringError) =>
    string.name !== anchor && (movers.has(string.name) || verdict !== "good");
  const near = errors.filter((one) => !one.isFar);
  const wanting = near.filter(mayMove).sort(inOrderOfWork);

  const far = errors.filter((one) => one.isFar).sort((a, b) => size(b) - size(a));
  const steps: TuningStep[] = far.map(ownStep);
  /** Where each string stands once its turn is over, in cents from zero; not there for those whose turn is to come. */
  const settled = new Map(
    near.filter((one) => !wanting.includes(one)).map(({ string, errorCents }) => [string.name, errorCents]),
  );
  const moved = new Map<string, number>();
  for (const one of wanting) {
    const { name } = one.string;
    const guide = guideOf(one, judged, settled, moved, anchor);
    const step = guide === null ? ownOrNone(one) : pairStep(one, guide);
    settled.set(name, one.errorCents + (step?.moveCents ?? 0));
    if (step === null) continue;
    moved.set(name, step.moveCents);
    steps.push(step);
  }
  const others = judged.filter(({ pair }) => !steps.some(({ by }) => by?.pair === pair));
  const changes = ({ pair, state }: JudgedPair) =>
    state === "off" || moved.has(pair.lower) || moved.has(pair.upper);
  return {
    steps,
    follow: others.filter(changes),
    stay: others.filter((one) => !changes(one)),
    waiting,
  };
}

function size({ errorCents }: StringError): number {
  return Math.abs(errorCents);
}

function inOrderOfWork(a: StringError, b: StringError): number {
  const rank = ({ string }: StringError) => roleOrder.indexOf(string.role ?? "drone");
  return rank(a) - rank(b) || size(a) - size(b);
}

/** Of two strings the one with the larger error; where they are alike, the one further from its target. Never the anchor. */
function moverOf(
  { lower, upper }: JudgedPair["pair"],
  errorOf: ReadonlyMap<string, StringError>,
  anchor: string | null,
): string {
  if (lower === anchor || upper === anchor) return lower === anchor ? upper : lower;
  const [a, b] = [errorOf.get(lower), errorOf.get(upper)];
  if (!a || !b) return upper;
  if (Math.abs(size(a) - size(b)) > alikeCents) return size(a) > size(b) ? lower : upper;
  const away = ({ string }: StringError) => Math.abs(string.deviationCents ?? 0);
  return away(a) > away(b) ? lower : upper;
}

/** The pair to tune a string by, as it stands when its turn comes; null where there is none to go by. */
function guideOf(
  one: StringError,
  judged: readonly JudgedPair[],
  settled: ReadonlyMap<string, number>,
  moved: ReadonlyMap<string, number>,
  anchor: string | null,
): GuidePair | null {
  const { name } = one.string;
  const rank = (other: string) => (other === anchor ? 0 : moved.has(other) ? 2 : 1);
  const usable = judged.flatMap((pair) => {
    const { lower, upper } = pair.pair;
    if (lower !== name && upper !== name) return [];
    const other = lower === name ? upper : lower;
    const stands = settled.get(other);
    if (stands === undefined || Math.abs(stands) > Math.min(settledCents, size(one))) return [];
    return [{ pair, other, stands, rank: rank(other) }];
  });
  const [best] = usable.sort((a, b) => a.rank - b.rank || Math.abs(a.stands) - Math.abs(b.stands));
  if (best === undefined) return null;
  const shift = (best.pair.pair.lower === best.other ? -1 : 1) * (moved.get(best.other) ?? 0);
  return {
    ...best.pair,
    after: moved.has(best.other) ? best.other : null,
    centsFromPure: best.pair.pair.centsFromPure + shift,
  };
}

/** Null where the pair is right as it is, and nobody hears the string's own error. */
function pairStep(one: StringError, by: GuidePair): TuningStep | null {
  const offCents = by.centsFromPure - by.wantedCents;
  if (isSmall(offCents, by.commonHz, by.isTempered)) return one.verdict === "bad" ? ownStep(one) : null;
  const moveCents = by.pair.upper === one.string.name ? -offCents : offCents;
  return { name: one.string.name, moveCents, isFar: false, isPerhaps: false, by };
}

function ownOrNone(one: StringError): TuningStep | null {
  return one.verdict === "good" ? null : ownStep(one);
}

function ownStep({ string, errorCents, isFar, verdict }: StringError): TuningStep {
  return {
    name: string.name,
    moveCents: -errorCents,
    isFar,
    isPerhaps: !isFar && verdict === "doubtful",
    by: null,
  };
}
