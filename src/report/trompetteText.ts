import type { TrompetteDocument } from "../trompette/trompetteDocumentSchema.js";
import { findingLines } from "./findingLines.js";
import { intervalText, roundedOutward } from "./intervalText.js";
import type { TextOptions } from "./measureText.js";
import { paintFor } from "./paintFor.js";
import { printable } from "./printable.js";
import { section } from "./section.js";
import { signed } from "./signed.js";
import { textTable } from "./textTable.js";
import { trompetteAdvice } from "./trompetteAdvice.js";
import { wrapText } from "./wrapText.js";

/** More strokes than this are not listed one by one. */
const MOST_LISTED = 60;

const CAUTION =
  "Stop the wheel before you touch tirant or bridge. A string brought up too far snaps: protect your eyes, turn pegs in small steps. Hair, cuffs " +
  "and fingers clear of the wheel; a buzz close to the ear is loud.";

const TERMS =
  "begins: where the amplitude of the buzz passes half of its rise; +-: 95 of 100 onsets like it lie this near. lasts: until it falls below half, or " +
  "the next begins. strength: power the buzz adds above 1 kHz while it lasts, over that of the tone; rooms and microphones are in it. Single onsets " +
  "and strengths describe this take.";

/** What a take says about the buzzing bridge, for people: the answer first, then strength and evenness, pitch, each stroke. */
export function trompetteText(document: TrompetteDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = Math.max(60, options.width ?? 80);
  const sentences = (texts: readonly string[]) => texts.flatMap((text) => wrapText(text, width, "  ", "  "));
  const lines = [
    ...wrapText(
      `${paint.heading(printable(document.file))}, ${document.durationSeconds.toFixed(1)} s`,
      width,
    ),
    ...section(paint.heading("In short"), sentences(document.inShort)),
    ...section(paint.heading("The recording"), findingLines(graveFindings(document), paint, width)),
    ...section(paint.heading("Strokes together"), togetherLines(document, width)),
    ...section(paint.heading("Pitch"), pitchLines(document, width)),
    ...section(paint.heading("Each stroke"), strokeLines(document, width)),
    ...section(paint.heading("To know"), findingLines(mildFindings(document), paint, width)),
    ...section(paint.heading("What to try"), sentences(trompetteAdvice(document))),
    ...section(paint.heading("Caution"), sentences([CAUTION])),
    ...(document.strokes.length > 0 ? ["", ...wrapText(TERMS, width, "", "  ")] : []),
  ];
  return `${lines.join("\n")}\n`;
}

function graveFindings({ findings }: TrompetteDocument): TrompetteDocument["findings"] {
  return findings.filter(({ severity }) => severity !== "info");
}

function mildFindings({ findings }: TrompetteDocument): TrompetteDocument["findings"] {
  return findings.filter(({ severity }) => severity === "info");
}

function togetherLines(document: TrompetteDocument, width: number): string[] {
  if (document.strokes.length === 0) return [];
  const { strengthDb, strengthSpreadDb, meanDurationSeconds, timingSpreadSeconds } = document;
  const inMs = (interval: readonly [number, number]): [number, number] => [
    1000 * interval[0],
    1000 * interval[1],
  ];
  const range = (interval: readonly [number, number] | null, digits: number) => {
    if (interval === null) return "too few";
    const [low, high] = roundedOutward(interval, digits);
    return `${low.toFixed(digits)} to ${high.toFixed(digits)}`;
  };
  const rows: string[][] = [];
  if (strengthDb !== null) {
    const interval = strengthDb.interval95;
    rows.push([
      "strength, dB",
      signed(strengthDb.mean, 1),
      interval === null ? "too few" : intervalText(interval, 1),
    ]);
  }
  if (strengthSpreadDb !== null) {
    rows.push([
      "  spread, dB",
      strengthSpreadDb.standardDeviation.toFixed(1),
      range(strengthSpreadDb.interval95, 1),
    ]);
  }
  if (meanDurationSeconds !== null) {
    const interval = meanDurationSeconds.interval95;
    rows.push([
      "lasts, ms",
      (1000 * meanDurationSeconds.mean).toFixed(0),
      range(interval && inMs(interval), 0),
    ]);
  }
  if (timingSpreadSeconds !== null) {
    const { standardDeviation, interval95 } = timingSpreadSeconds;
    rows.push(["timing spread, ms", (1000 * standardDeviation).toFixed(1), range(inMs(interval95), 1)]);
  }
  if (document.strokesPerSecond !== null) {
    rows.push(["strokes a second", document.strokesPerSecond.toFixed(2), "as counted"]);
  }
  if (document.turnsPerSecond !== null) {
    const counted = document.turnsBasis === "counted";
    rows.push([
      "turns a second",
      document.turnsPerSecond.toFixed(2),
      counted ? "as given" : range(document.turnsInterval95, 2),
    ]);
  }
  if (document.strokesPerTurn !== null) {
    const { turnsInterval95, strokesPerSecond } = document;
    const interval: [number, number] | null =
      turnsInterval95 === null || strokesPerSecond === null
        ? null
        : [strokesPerSecond / turnsInterval95[1], strokesPerSecond / turnsInterval95[0]];
    rows.push([
      "strokes a turn",
      document.strokesPerTurn.toFixed(2),
      interval === null ? "by what is given" : range(interval, 2),
    ]);
  }
  return textTable(
    [
      { heading: [""], align: "left" },
      { heading: ["mean"], align: "right" },
      { heading: ["95 % sure between"], align: "right" },
    ],
    rows,
    width - 2,
  ).map((line) => `  ${line}`.trimEnd());
}

function pitchLines(
  { silentPitch, buzzingPitch, differenceCents, targetHz }: TrompetteDocument,
  width: number,
): string[] {
  if (silentPitch === null) return [];
  const row = (what: string, pitch: NonNullable<TrompetteDocument["silentPitch"]>) => {
    const { frequencyHz, deviationCents, interval95Cents } = pitch;
    const about = deviationCents ?? 0;
    return [
      what,
      frequencyHz.toFixed(2),
      deviationCents === null ? "-" : signed(deviationCents, 1),
      interval95Cents === null
        ? "too short"
        : intervalText([about + interval95Cents[0], about + interval95Cents[1]], 1),
    ];
  };
  const rows = [row("without buzz", silentPitch)];
  if (buzzingPitch !== null) rows.push(row("buzzing", buzzingPitch));
  if (differenceCents !== null) {
    rows.push([
      "difference",
      "",
      signed(differenceCents.mean, 1),
      differenceCents.interval95 === null ? "too few" : intervalText(differenceCents.interval95, 1),
    ]);
  }
  return textTable(
    [
      { heading: [""], align: "left" },
      { heading: ["Hz"], align: "right" },
      { heading: [targetHz === null ? "cents" : "cents off"], align: "right" },
      { heading: ["95 % sure between"], align: "right" },
    ],
    rows,
    width - 2,
  ).map((line) => `  ${line}`.trimEnd());
}

function strokeLines({ strokes }: TrompetteDocument, width: number): string[] {
  if (strokes.length === 0) return [];
  const listed = strokes.slice(0, MOST_LISTED);
  const rows = listed.map((one, i) => [
    String(i + 1),
    one.onsetSeconds.toFixed(3),
    `+-${(1000 * one.withinSeconds).toFixed(0)}`,
    i === 0 ? "-" : (one.onsetSeconds - listed[i - 1].onsetSeconds).toFixed(3),
    (1000 * one.durationSeconds).toFixed(0),
    one.strengthDb === null ? "-" : signed(one.strengthDb, 1),
    one.weak ? "weak" : "",
  ]);
  const table = textTable(
    [
      { heading: ["", "no."], align: "right" },
      { heading: ["begins", "s"], align: "right" },
      { heading: ["", "ms"], align: "right" },
      { heading: ["after the", "last, s"], align: "right" },
      { heading: ["lasts", "ms"], align: "right" },
      { heading: ["strength", "dB"], align: "right" },
      { heading: [""], align: "left" },
    ],
    rows,
    width - 2,
  ).map((line) => `  ${line}`.trimEnd());
  return strokes.length > MOST_LISTED
    ? [
        ...table,
        ...wrapText(`And ${strokes.length - MOST_LISTED} more: --json has all of them.`, width, "  "),
      ]
    : table;
}
