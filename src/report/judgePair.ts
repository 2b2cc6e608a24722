import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { cents } from "../units/cents.js";

type TakeDocument = MeasureDocument["takes"][number];
type PairDocument = TakeDocument["pairs"][number];
type StringDocument = TakeDocument["strings"][number];

/**
 * How a pair stands.
 *
 * - `off`: one of the two should move
 * - `pure`: pure as far as can be told or heard, whether the tuning wants it or not
 * - `wanted`: can't be told from the beats that the tuning wants
 * - `near`: off by so little that it isn't worth a turn
 * - `unsure`: off by little, and how surely is not known
 */
export type PairState = "off" | "pure" | "wanted" | "near" | "unsure";

/** A pair against what the tuning wants of it. */
export interface JudgedPair {
  readonly pair: PairDocument;
  readonly state: PairState;
  /** Frequency of the lowest partial that both share, where the beats are. */
  readonly commonHz: number;
  /** What the two targets are from pure, wide positive. */
  readonly wantedCents: number;
  /** Beats per second that the two would have with that between them. */
  readonly wantedBeatsPerSecond: number;
  /** False where those are so slow that the two are to be pure. */
  readonly isTempered: boolean;
}

/** One beat in 10 s is as slow as anyone waits for. Our policy. */
const slowBeatsPerSecond = 0.1;
/** Counting for 10 s can be wrong by a beat at either end. */
const countedBeatsPerSecond = 0.2;
/** What a patient hand can set a peg to, about half of what a good bowed string wavers. Our policy, no source. */
const finestCents = 0.5;
/** Off by less is not worth a turn where a pair is to stand still, and where it is to beat. Our policy. */
const worthCents = 1;
const worthTemperedCents = 2;
/** A pair whose targets are further from pure is not meant to be in that ratio. */
const meantCents = 40;
/** Off by more than this is worth a turn even where the interval is not known. Our policy. */
const plainCents = 3;

/**
 * Judges a pair by the ratio of its two targets: in equal temperament a fifth is to be 1.955 cents narrow, and beats.
 *
 * @returns null where the tuning does not mean the two to be in this ratio
 */
export function judgePair(
  pair: PairDocument,
  strings: ReadonlyMap<string, StringDocument>,
): JudgedPair | null {
  const [lower, upper] = [strings.get(pair.lower), strings.get(pair.upper)];
  if (!lower || !upper || lower.frequencyHz === null) return null;
  const [p = 1, q = 1] = pair.ratio.split(":").map(Number);
  const wantedCents = cents(upper.targetHz * q, lower.targetHz * p);
  if (Math.abs(wantedCents) > meantCents) return null;
  const commonHz = p * lower.frequencyHz;
  const wantedBeatsPerSecond = beats(wantedCents, commonHz);
  const judged = {
    pair,
    commonHz,
    wantedCents,
    wantedBeatsPerSecond,
    isTempered: wantedBeatsPerSecond >= slowBeatsPerSecond,
  };
  return { ...judged, state: stateOf(judged) };
}

function stateOf({ pair, commonHz, wantedCents, isTempered }: Omit<JudgedPair, "state">): PairState {
  const interval = pair.interval95Cents;
  const holds = (value: number) => interval !== null && interval[0] <= value && interval[1] >= value;
  if (holds(wantedCents)) return isTempered ? "wanted" : "pure";
  // Nobody minds a pure pair, so none is spoilt for the sake of a temperament.
  if (holds(0) || isSmall(pair.centsFromPure, commonHz)) return "pure";
  const offCents = pair.centsFromPure - wantedCents;
  if (isSmall(offCents, commonHz, isTempered)) return "near";
  return interval === null && Math.abs(offCents) < plainCents ? "unsure" : "off";
}

/**
 * Whether so many cents, which make beats at `commonHz`, are not worth a turn of the peg.
 *
 * @param isTempered - off from a beat that has to be counted, rather than from standing still
 */
export function isSmall(offCents: number, commonHz: number, isTempered = false): boolean {
  const limit = isTempered ? countedBeatsPerSecond : slowBeatsPerSecond;
  const worth = isTempered ? worthTemperedCents : worthCents;
  return Math.abs(offCents) < worth || beats(offCents, commonHz) < limit;
}

/** The beats per second at which to stop tuning a pair that is to be pure. */
export function aimBeatsPerSecond(commonHz: number): number {
  return Math.max(slowBeatsPerSecond, beats(finestCents, commonHz));
}

function beats(offCents: number, commonHz: number): number {
  return Math.abs(commonHz * (2 ** (offCents / 1200) - 1));
}
