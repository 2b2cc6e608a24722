import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { aimBeatsPerSecond, type JudgedPair, type PairState } from "./judgePair.js";
import { type PairMove, pairPlan } from "./pairPlan.js";
import { printable } from "./printable.js";
import { farOffCents, raiseWithCare } from "./raiseWithCare.js";
import { wholeOffset } from "./wholeOffset.js";

type TakeDocument = MeasureDocument["takes"][number];

/** Faster beats can't be counted one by one. */
const countableBeatsPerSecond = 4;

/** What to do about the pairs: a sentence for each string to move, in order, then what to leave as it is. */
export function pairSentences(
  take: TakeDocument,
  { instrument, settings }: Pick<MeasureDocument, "instrument" | "settings">,
): string[] {
  const { moves, follow, stay } = pairPlan(take);
  const wants = instrument === null ? "equal temperament wants" : "this tuning wants";
  const whole = wholeOffset(take);
  const leave = [
    { words: "Pure, as far as can be told or heard", pairs: listed(stay, "pure") },
    { words: `Beat as fast as ${wants}, as far as can be told`, pairs: listed(stay, "wanted") },
    { words: "Near enough", pairs: listed(stay, "near") },
    { words: "Off a little, but held for too short a time to be sure", pairs: listed(stay, "unsure") },
  ].filter(({ pairs }) => pairs !== "");
  return [
    ...(moves.length > 0 && whole !== null
      ? [
          `${moves.length > 1 ? "These moves keep" : "This move keeps"} the whole at A4 = ${whole.a4Hz.toFixed(1)} Hz:`,
        ]
      : []),
    ...moves.map((move, i) => (moves.length > 1 ? `${i + 1}. ` : "") + moveSentence(move, wants)),
    ...(follow.length > 0
      ? [
          moves.length > 0
            ? `These change with that, so measure them again: ${listed(follow)}.`
            : `Bring each string to its own pitch first, as said above, then measure these again: ${listed(follow)}.`,
        ]
      : []),
    ...(leave.length > 0
      ? [`Leave as they are. ${leave.map(({ words, pairs }) => `${words}: ${pairs}.`).join(" ")}`]
      : []),
    ...(settings.tonic === null && hasTemperedDrones(take, [...moves, ...follow, ...stay])
      ? [
          "To have the drones pure to each other, name the note they are to be pure to: " +
            `${instrument === null ? "--tuning and " : ""}--tonic.`,
        ]
      : []),
  ];
}

function moveSentence(move: PairMove, wants: string): string {
  const { pair, moveCents, after, isTempered } = move;
  const turn = `${moveCents > 0 ? "raise" : "lower"} ${printable(move.moved)} by about ${about(moveCents)} cents`;
  return [
    `${nameOf(move)} (${pair.ratio}): ${size(pair.centsFromPure, pair.ratio)}, ${rate(pair.beatsPerSecond)}.`,
    ...(isTempered
      ? [`${capital(wants)} ${size(move.wantedCents, pair.ratio)}: ${rate(move.wantedBeatsPerSecond)} here.`]
      : []),
    `${after === null ? capital(turn) : `Once ${printable(after)} is right, ${turn}`}: ${listen(move)}.`,
    ...(moveCents > farOffCents ? [capital(raiseWithCare)] : []),
  ].join(" ");
}

/** What happens to the beat on the way, and when to stop. */
function listen({
  isTempered,
  commonHz,
  centsFromPure,
  wantedCents,
  wantedBeatsPerSecond,
}: PairMove): string {
  if (!isTempered) {
    const seconds = Math.max(1, Math.round(1 / aimBeatsPerSecond(commonHz)));
    return `the beat slows down; stop when it comes and goes no faster than once in ${seconds}\u00a0s`;
  }
  const course =
    centsFromPure * wantedCents < 0
      ? "slows down, stands still and comes again"
      : Math.abs(centsFromPure) > Math.abs(wantedCents)
        ? "slows down"
        : "gets faster";
  const stop =
    wantedBeatsPerSecond > countableBeatsPerSecond
      ? `about ${wantedBeatsPerSecond.toFixed(0)} a second`
      : `about ${(10 * wantedBeatsPerSecond).toFixed(0)} beats in 10\u00a0s`;
  return `the beat ${course}; stop at ${stop}`;
}

function nameOf({ pair }: JudgedPair): string {
  return `${printable(pair.lower)} - ${printable(pair.upper)}`;
}

/** Names of pairs, not to be broken at line ends; where the tuning wants a beat, with that. */
function listed(pairs: readonly JudgedPair[], state?: PairState): string {
  return pairs
    .filter((one) => state === undefined || one.state === state)
    .map((one) =>
      state === "wanted" ? `${nameOf(one)} (${one.wantedBeatsPerSecond.toFixed(2)} a second)` : nameOf(one),
    )
    .map((text) => text.replaceAll(" ", "\u00a0"))
    .join(", ");
}

function size(cents: number, ratio: string): string {
  const text = `${Math.abs(cents).toFixed(1)} cents`;
  return ratio === "1:1" ? `${text} apart` : `${text} ${cents < 0 ? "narrow" : "wide"}`;
}

function rate(beatsPerSecond: number): string {
  const text = `${beatsPerSecond.toFixed(2)} beats a second`;
  return beatsPerSecond < 0.7 ? `${text} (one in ${(1 / beatsPerSecond).toFixed(0)}\u00a0s)` : text;
}

/** As fine as a peg can follow. */
function about(cents: number): string {
  return Math.abs(cents).toFixed(Math.abs(cents) < 1.95 ? 1 : 0);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function hasTemperedDrones(take: TakeDocument, pairs: readonly JudgedPair[]): boolean {
  const drones = take.strings.filter(({ role }) => role === "drone" || role === "trompette");
  const isDrone = (name: string) => drones.some((string) => string.name === name);
  return pairs.some(({ isTempered, pair }) => isTempered && isDrone(pair.lower) && isDrone(pair.upper));
}
