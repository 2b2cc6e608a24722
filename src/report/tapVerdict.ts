import type { TapDocument } from "../tap/tapDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";

type TakeDocument = TapDocument["takes"][number];

/** So many modes are named in the answer; all are in the table. */
const NAMED = 3;

/** The answer first: what rings, what two bodies have different, and what tapping and bowing have in common. */
export function tapVerdict(document: Omit<TapDocument, "inShort">): string[] {
  return [
    ...document.takes.map((take) => takeSentence(take, document.takes.length > 1)),
    ...comparisonSentences(document.comparison),
    ...bowedSentences(document.bowed),
  ];
}

function takeSentence({ name, modes, tapsUsed }: TakeDocument, isNamed: boolean): string {
  const who = isNamed ? `${printable(name)}: ` : "";
  if (modes.length === 0) {
    return `${who}${isNamed ? "no" : "No"} mode could be read; see the cautions below.`;
  }
  const strongest = [...modes].sort((a, b) => b.strengthDb - a.strengthDb).slice(0, NAMED);
  const named = strongest.map(
    ({ frequencyHz, note, cents, q }) =>
      `${frequencyHz.toFixed(1)} Hz (${note} ${signed(cents, 0)} cents, Q ${q.toFixed(0)})`,
  );
  const count = modes.length === 1 ? "One mode rings" : `${modes.length} modes ring`;
  const taps = tapsUsed === 1 ? "one tap" : `${tapsUsed} taps`;
  const most = modes.length === 1 ? "" : modes.length <= NAMED ? ", strongest first" : ", the strongest";
  return `${who}${count} after ${taps}${most}: ${named.join(", ")}.`;
}

function comparisonSentences(comparison: TapDocument["comparison"]): string[] {
  if (comparison === null) return [];
  const { pairs, onlyA, onlyB } = comparison;
  const [a, b] = [printable(comparison.a), printable(comparison.b)];
  if (pairs.length === 0) return [`${a} and ${b} have no mode near enough to each other to be compared.`];
  const shown = pairs.filter(({ cents }) => cents.shown);
  const moved = shown.map(
    ({ frequencyHzA, frequencyHzB, cents }) =>
      `${frequencyHzA.toFixed(1)} against ${frequencyHzB.toFixed(1)} Hz (${signed(cents.difference, 0)} cents, 95 % between ` +
      `${cents.interval95 === null ? "-" : intervalText(cents.interval95, 0)})`,
  );
  const sentences = [
    shown.length === 0
      ? `Of ${pairs.length} modes that ${a} and ${b} seem to share none differs in frequency by more than is sure.`
      : `Of ${pairs.length} modes that ${a} and ${b} seem to share ${shown.length} ${shown.length === 1 ? "differs" : "differ"} in frequency beyond what is unsure: ${moved.join("; ")}.`,
  ];
  const ringing = pairs.filter(({ qPercent }) => qPercent.shown);
  if (ringing.length > 0) {
    const words = ringing.map(
      ({ frequencyHzA, qPercent }) =>
        `that at ${frequencyHzA.toFixed(0)} Hz rings ${qPercent.difference > 0 ? "longer" : "shorter"} (Q ${signed(qPercent.difference, 0)} %)`,
    );
    sentences.push(`Of ${a}, ${words.join("; ")}.`);
  }
  if (onlyA.length + onlyB.length > 0) {
    const list = (values: readonly number[]) => values.map((value) => value.toFixed(0)).join(", ");
    const parts = [
      onlyA.length > 0 ? `${a} only: ${list(onlyA)} Hz` : "",
      onlyB.length > 0 ? `${b} only: ${list(onlyB)} Hz` : "",
    ].filter((part) => part !== "");
    sentences.push(`Without a counterpart: ${parts.join("; ")}.`);
  }
  sentences.push(
    "This compares two recordings. The taps of one take were made without setting up anew, so placing, temperature and spot of the tap are in the " +
      "difference: repeat both, newly set up, before you call it the bodies'.",
  );
  return sentences;
}

const lackingWords: Readonly<Record<NonNullable<NonNullable<TapDocument["bowed"]>["lacking"]>, string>> = {
  "no-response": "the taps stand too little over the noise between 355 and 1413 Hz.",
  "no-body-curve": "the bowed take gives no body curve.",
  "too-few-partials": "too few partials were measured in the bowed take. Bow more strings, or a scale.",
  "strings-not-connected":
    "the strings of the bowed take share no part of the range, so it gives no body curve. Bow more strings, or a scale.",
  "no-reference": "the bowed take holds too little between 355 and 1413 Hz.",
};

function bowedSentences(bowed: TapDocument["bowed"]): string[] {
  if (bowed === null) return [];
  if (bowed.lacking !== null)
    return [`Tapped and bowed can't be laid over each other: ${lackingWords[bowed.lacking]}`];
  const at = (peak: "both" | "tapped" | "bowed" | "unclear") =>
    bowed.bands.filter((band) => band.peak === peak).map(({ frequencyHz }) => frequencyHz.toFixed(0));
  const list = (values: readonly string[]) => (values.length === 0 ? "none" : `near ${values.join(", ")} Hz`);
  return [
    `Peaks that tapping and bowing both show are the body's: ${list(at("both"))}. Others are the room's or the string's: only tapped ` +
      `${list(at("tapped"))}, only bowed ${list(at("bowed"))}. One has a peak and the other can't say: ${list(at("unclear"))}.`,
    "With this reserve: a mode of the room shows in both too where instrument and microphone stood in the same places. Move both and do it " +
      "again: what stays is the body's. A peak of one only may also be one that the other excites too little.",
  ];
}
