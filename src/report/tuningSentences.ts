import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { aboutCents } from "./aboutCents.js";
import { aimBeatsPerSecond, type JudgedPair, type PairState } from "./judgePair.js";
import { printable } from "./printable.js";
import { raiseWithCare } from "./raiseWithCare.js";
import { type GuidePair, type TuningStep, tuningPlan } from "./tuningPlan.js";
import { wholeOffset } from "./wholeOffset.js";

type TakeDocument = MeasureDocument["takes"][number];

/** Faster beats can't be counted one by one. */
const countableBeatsPerSecond = 4;

/** What to do, a sentence for each string to move, in order, then which pairs to leave as they are. */
export function tuningSentences(
  take: TakeDocument,
  { instrument, settings }: Pick<MeasureDocument, "instrument" | "settings">,
): string[] {
  const plan = tuningPlan(take);
  const { steps, follow, stay } = plan;
  const wants = instrument === null ? "equal temperament wants" : "this tuning wants";
  const whole = wholeOffset(take);
  const leave = [
    { words: "pure, as far as can be told or heard", pairs: listed(stay, "pure") },
    { words: `beating as ${wants}, as far as can be told`, pairs: listed(stay, "wanted") },
    { words: "near enough", pairs: listed(stay, "near") },
    { words: "off a little, but held for too short a time to be sure", pairs: listed(stay, "unsure") },
  ].filter(({ pairs }) => pairs !== "");
  const judged = [...steps.flatMap(({ by }) => by ?? []), ...follow, ...stay];
  return [
    ...(steps.length > 0 && whole !== null
      ? [`This keeps the whole at A4 = ${whole.a4Hz.toFixed(1)} Hz:`]
      : []),
    ...steps.map((step, i) => (steps.length > 1 ? `${i + 1}. ` : "") + stepSentence(step)),
    ...(follow.length > 0 ? [followSentence(follow, stay)] : []),
    ...(leave.length > 0
      ? [`Leave: ${leave.map(({ words, pairs }) => `${pairs} (${words})`).join("; ")}.`]
      : []),
    ...(settings.tonic === null && hasTemperedDrones(take, judged)
      ? [
          `To have the drones pure, name the note they go by: ${instrument === null ? "--tuning and " : ""}--tonic.`,
        ]
      : []),
  ];
}

function followSentence(follow: readonly JudgedPair[], stay: readonly JudgedPair[]): string {
  return stay.length === 0
    ? "All other pairs change with that: measure them again."
    : `These change with that, so measure them again: ${listed(follow)}.`;
}

function stepSentence({ name, moveCents, isFar, isPerhaps, by }: TuningStep): string {
  const way = `${printable(name)} ${moveCents > 0 ? "up" : "down"} by about ${aboutCents(moveCents)} cents`;
  const care = raiseWithCare(moveCents);
  const end = care === null ? "" : ` ${care}`;
  if (by === null) {
    const again = isFar ? " Then measure again: its pairs say nothing before that." : "";
    return `${isPerhaps ? "Perhaps " : ""}${way}, by its own pitch.${end}${again}`;
  }
  const { pair, after, centsFromPure, commonHz } = by;
  // Once the other string has been moved the two beat otherwise than they were recorded.
  const beats = after === null ? pair.beatsPerSecond : commonHz * Math.abs(2 ** (centsFromPure / 1200) - 1);
  const other = printable(pair.lower === name ? pair.upper : pair.lower);
  return (
    `${way}, by ${other}${after === null ? "" : " once that is right"}: from ${size(centsFromPure, pair.ratio)} ` +
    `(${beats.toFixed(2)} beats a second) ${towards(by)}.${end}`
  );
}

/** What happens to the beat on the way, and when to stop. */
function towards(by: GuidePair): string {
  const { isTempered, commonHz, centsFromPure, wantedCents, wantedBeatsPerSecond, pair } = by;
  if (!isTempered) {
    const seconds = Math.max(1, Math.round(1 / aimBeatsPerSecond(commonHz)));
    return `to a standstill (one beat in ${seconds}\u00a0s or slower)`;
  }
  const course =
    centsFromPure * wantedCents < 0
      ? "past the standstill"
      : Math.abs(centsFromPure) > Math.abs(wantedCents)
        ? "slowing down"
        : "getting faster";
  const counted =
    wantedBeatsPerSecond > countableBeatsPerSecond
      ? ""
      : `, ${(10 * wantedBeatsPerSecond).toFixed(0)} in 10\u00a0s`;
  return `${course} to ${size(wantedCents, pair.ratio)} (${wantedBeatsPerSecond.toFixed(2)} a second${counted})`;
}

/** Names of pairs, not to be broken at line ends; where the tuning wants a beat, with that. */
function listed(pairs: readonly JudgedPair[], state?: PairState): string {
  return pairs
    .filter((one) => state === undefined || one.state === state)
    .map((one) => {
      const names = `${printable(one.pair.lower)} - ${printable(one.pair.upper)}`;
      return state === "wanted" ? `${names} (${one.wantedBeatsPerSecond.toFixed(2)} a second)` : names;
    })
    .map((text) => text.replaceAll(" ", "\u00a0"))
    .join(", ");
}

function size(cents: number, ratio: string): string {
  const text = `${Math.abs(cents).toFixed(1)} cents`;
  return ratio === "1:1" ? `${text} apart` : `${text} ${cents < 0 ? "narrow" : "wide"}`;
}

function hasTemperedDrones(take: TakeDocument, pairs: readonly JudgedPair[]): boolean {
  const drones = take.strings.filter(({ role }) => role === "drone" || role === "trompette");
  const isDrone = (name: string) => drones.some((string) => string.name === name);
  return pairs.some(({ isTempered, pair }) => isTempered && isDrone(pair.lower) && isDrone(pair.upper));
}
