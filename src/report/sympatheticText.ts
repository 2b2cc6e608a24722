import type { SympatheticDocument } from "../sympathetic/sympatheticDocumentSchema.js";
import { findingLines } from "./findingLines.js";
import { intervalText, roundedOutward } from "./intervalText.js";
import type { TextOptions } from "./measureText.js";
import { paintFor } from "./paintFor.js";
import { printable } from "./printable.js";
import { section } from "./section.js";
import { signed } from "./signed.js";
import { isToTune } from "./sympatheticAdvice.js";
import { textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

type StringDocument = SympatheticDocument["strings"][number];

const TERMS = [
  "Heard: the first partial, once the glide of the pluck is over. Off: cents from the target, + is sharp. 95 % sure " +
    "between: by how well each pluck can be read, and where a string was plucked again by how much plucks differ.",
  "Rings: time in which the first partial falls by 60 dB. Answers: a bowed note this far off makes the string answer with " +
    "half its power.",
  "Octave: by how much the second partial is wider than one, for the string's stiffness. Glide: how sharp the string " +
    "was 50 ms after the pluck. Level: 0 dB is a sine as strong as the file can hold; it holds how hard you plucked.",
];

/** The sheet of plucked strings: what to do first, then every string, then what to be careful about. */
export function sympatheticText(document: SympatheticDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = Math.max(60, options.width ?? 80);
  const { strings } = document;
  const heard = strings.filter(({ status }) => status === "measured");
  const plucks = heard.reduce((sum, string) => sum + string.plucks.length, 0) + document.strays.length;
  const findings = [...document.findings, ...strings.flatMap((string) => string.findings)];
  const lines = [
    ...wrapText(
      `${printable(document.file)}: ${document.durationSeconds.toFixed(1)} s, ${plucks} ${plucks === 1 ? "pluck" : "plucks"}, ` +
        `A4 = ${document.settings.a4Hz} Hz.`,
      width,
    ),
    ...section(
      paint.heading("In short"),
      document.inShort.flatMap((sentence) => wrapText(sentence, width, "  ")),
    ),
    ...section(paint.heading("Strings"), strings.length === 0 ? [] : pitchLines(strings, width)),
    ...section(paint.heading("How each is"), heard.length === 0 ? [] : characterLines(heard, width)),
    ...section(paint.heading("Cautions"), findingLines(findings, paint, width)),
    ...(heard.length === 0 ? [] : ["", ...TERMS.flatMap((text) => wrapText(text, width))]),
  ];
  return `${lines.join("\n")}\n`;
}

function pitchLines(strings: readonly StringDocument[], width: number): string[] {
  const rows = strings.map((string) => {
    const { deviationCents, interval95Cents, frequencyHz } = string;
    if (deviationCents === null || interval95Cents === null || frequencyHz === null) {
      return [printable(string.name), string.targetHz.toFixed(2), "-", "-", "-", "", "not heard"];
    }
    const way = deviationCents > 0 ? "down" : "up";
    return [
      printable(string.name),
      string.targetHz.toFixed(2),
      frequencyHz.toFixed(2),
      signed(deviationCents, 1),
      intervalText(interval95Cents, 1),
      String(string.plucks.length),
      isToTune(string) ? `tune ${way}` : "leave",
    ];
  });
  return textTable(
    [
      { heading: ["string"], align: "left" },
      { heading: ["target", "Hz"], align: "right" },
      { heading: ["heard", "Hz"], align: "right" },
      { heading: ["off", "cents"], align: "right" },
      { heading: ["95 % sure", "between"], align: "right" },
      { heading: ["plucks"], align: "right" },
      { heading: [""], align: "left" },
    ],
    rows,
    width - 2,
  ).map((line) => `  ${line}`);
}

function characterLines(strings: readonly StringDocument[], width: number): string[] {
  const rows = strings.map((string) => {
    const stretch = stretchInterval(string);
    const glides = string.plucks.map(({ glideCents }) => glideCents);
    const unsure = Math.max(...string.plucks.map((pluck) => 1.96 * pluck.glideStandardDeviationCents));
    return [
      printable(string.name),
      rangeText(string.decayInterval95Seconds, 2),
      string.answerCents === null ? "-" : string.answerCents.toFixed(1),
      stretch === null ? "-" : rangeText(stretch, 2),
      `${Math.max(...glides).toFixed(1)} ±${unsure.toFixed(1)}`,
      string.levelDb === null ? "-" : string.levelDb.toFixed(0),
      string.spreadCents === null ? "-" : string.spreadCents.toFixed(2),
    ];
  });
  return textTable(
    [
      { heading: ["string"], align: "left" },
      { heading: ["rings, s", "95 % sure"], align: "right" },
      { heading: ["answers", "+- cents"], align: "right" },
      { heading: ["octave wide", "by, cents"], align: "right" },
      { heading: ["glide", "cents"], align: "right" },
      { heading: ["level", "dB"], align: "right" },
      { heading: ["plucks differ", "by, cents"], align: "right" },
    ],
    rows,
    width - 2,
  ).map((line) => `  ${line}`);
}

function stretchInterval({ inharmonicityInterval95 }: StringDocument): readonly [number, number] | null {
  if (inharmonicityInterval95 === null) return null;
  const stretch = (stiffness: number) =>
    600 * Math.log2((1 + 4 * Math.max(0, stiffness)) / (1 + Math.max(0, stiffness)));
  return [stretch(inharmonicityInterval95[0]), stretch(inharmonicityInterval95[1])];
}

function rangeText(interval: readonly [number, number] | null, digits: number): string {
  if (interval === null) return "-";
  const [low, high] = roundedOutward([Math.max(0, interval[0]), interval[1]], digits);
  return `${low.toFixed(digits)} to ${high.toFixed(digits)}`;
}
