import type { TrompetteDocument } from "../trompette/trompetteDocumentSchema.js";
import { roundedOutward } from "./intervalText.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";

type Without<T> = Omit<T, "inShort">;

/** The answer in sentences: does it buzz, how strongly, how evenly, what of the pitch. */
export function trompetteVerdict(document: Without<TrompetteDocument>): string[] {
  const name = document.string === null ? "The string" : printable(document.string);
  if (document.soundingSeconds === 0) return ["No string was heard, so nothing can be said of a buzz."];
  if (document.state === "none") {
    const alone = document.otherSounds.filter(({ reason }) => reason === "alone").length;
    const seconds = document.soundingSeconds.toFixed(1);
    return [
      alone === 0
        ? `${name} does not buzz: no strokes in ${seconds} s.`
        : `${name} shows no row of strokes in ${seconds} s: ${alone} sudden sounds that might be strokes stand alone among notes or knocks.`,
      ...pitchSentences(document),
    ];
  }
  if (document.state === "continuous") {
    return [
      `${name} shows no strokes, but is so bright that it may buzz all the time.`,
      ...pitchSentences(document),
    ];
  }
  if (document.state === "unclear") {
    return [
      `Whether ${name} buzzes can't be said: some sudden sounds may be strokes or not.`,
      ...pitchSentences(document),
    ];
  }
  return [
    `${name} buzzes: ${strokeCount(document)}.`,
    strengthSentence(document),
    ...evennessSentences(document),
    ...pitchSentences(document),
  ].filter((sentence) => sentence !== "");
}

function strokeCount({
  strokes,
  strokesPerSecond,
  strokesPerTurn,
  turnsPerSecond,
  turnsBasis,
}: Without<TrompetteDocument>): string {
  const rate = strokesPerSecond === null ? "" : `, ${strokesPerSecond.toFixed(1)} a second`;
  if (strokesPerTurn === null || turnsPerSecond === null) return `${strokes.length} strokes${rate}`;
  const basis = turnsBasis === "counted" ? "as counted" : "as the part without strokes shows";
  return (
    `${strokes.length} strokes${rate}, ${strokesPerTurn.toFixed(1)} a turn of the wheel (at ${turnsPerSecond.toFixed(2)} turns ` +
    `a second, ${basis})`
  );
}

function strengthSentence({
  strengthDb,
  strengthAgainst,
  strengthSpreadDb,
}: Without<TrompetteDocument>): string {
  if (strengthDb === null) return "";
  const than =
    strengthAgainst === "own-tone" ? "than the drone's own tone" : "than all sounding strings together";
  const size = Math.abs(strengthDb.mean).toFixed(1);
  const way = strengthDb.mean < 0 ? "weaker" : "stronger";
  const range =
    strengthDb.interval95 === null ? "" : ` (95 % sure between ${ends(strengthDb.interval95, 1)} dB)`;
  const spread =
    strengthSpreadDb === null
      ? ""
      : `; single strokes differ by ${strengthSpreadDb.standardDeviation.toFixed(1)} dB`;
  return `While it lasts the buzz is ${size} dB ${way} ${than}${range}${spread}.`;
}

function evennessSentences({
  timingSpreadSeconds,
  missedSeconds,
  strokes,
}: Without<TrompetteDocument>): string[] {
  const weak = strokes.filter((one) => one.weak).length;
  const timing =
    timingSpreadSeconds === null
      ? ""
      : `The strokes come evenly to within ${(1000 * timingSpreadSeconds.standardDeviation).toFixed(0)} ms (standard deviation, ` +
        `95 % sure between ${ends([1000 * timingSpreadSeconds.interval95[0], 1000 * timingSpreadSeconds.interval95[1]], 0, false)} ms).`;
  const gaps = [
    missedSeconds.length > 0 ? `${missedSeconds.length} due but not found` : "",
    weak > 0 ? `${weak} weak` : "",
  ].filter((text) => text !== "");
  return [timing, gaps.length > 0 ? `${gaps.join(", ")}: see the list.` : ""].filter((text) => text !== "");
}

function pitchSentences(document: Without<TrompetteDocument>): string[] {
  const { silentPitch, differenceCents, buzzingPitch } = document;
  if (silentPitch === null) return [];
  const off =
    silentPitch.deviationCents === null
      ? ""
      : `, ${signed(silentPitch.deviationCents, 1)} cents from its target`;
  const plain = `Without buzz it stands at ${silentPitch.frequencyHz.toFixed(2)} Hz${off}`;
  if (differenceCents === null || buzzingPitch === null || document.state !== "strokes") return [`${plain}.`];
  const { mean, interval95 } = differenceCents;
  const range = interval95 === null ? "" : ` (95 % sure between ${ends(interval95, 1)})`;
  const isShown = interval95 !== null && (interval95[0] > 0 || interval95[1] < 0);
  if (!isShown)
    return [`${plain}; a change of pitch while it buzzes is not shown${range.replace(")", " cents)")}.`];
  return [
    `${plain}; while it buzzes it ${mean < 0 ? "drops" : "rises"} by ${Math.abs(mean).toFixed(1)} cents${range}.`,
  ];
}

function ends(interval: readonly [number, number], digits: number, isSigned = true): string {
  const [low, high] = roundedOutward(interval, digits);
  const text = (value: number) => (isSigned ? signed(value, digits) : value.toFixed(digits));
  return `${text(low)} and ${text(high)}`;
}
