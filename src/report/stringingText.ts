import type { StringingDocument } from "../stringing/stringingDocumentSchema.js";
import type { TextOptions } from "./measureText.js";
import { paintFor } from "./paintFor.js";
import { printable } from "./printable.js";
import { section } from "./section.js";
import { type TextColumn, textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

type Row = StringingDocument["strings"][number];

const NEWTON_PER_KILOGRAM_FORCE = 9.80665;
/** Our policy: wire strengths are for new, straight wire, and a peg overshoots. */
const NEAR_BREAKING = 0.75;
const TOO_FAR = 1;

const bases = { weighed: "scale", given: "file", diameter: "wire" } as const;
const lacking = {
  "nothing-given": "-",
  "half-given": "half",
  "material-unknown": "what?",
} as const;

const right = (...heading: string[]): TextColumn => ({ heading, align: "right" });
const left = (...heading: string[]): TextColumn => ({ heading, align: "left" });

/** Tensions of an instrument's strings, for people: the answer first, then a table, and what to mind. */
export function stringingText(document: StringingDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = Math.max(60, options.width ?? 80);
  const lines = [
    ...wrapText(
      `${paint.heading("Instrument:")} ${printable(document.instrument)}. A4 = ${document.settings.a4Hz} Hz. Tension from pitch, vibrating ` +
        "length and weight (Mersenne's law).",
      width,
      "",
      "  ",
    ),
    ...section(
      paint.heading("In short"),
      shortSentences(document).flatMap((one) => wrapText(one, width, "  ")),
    ),
    ...section(paint.heading("Strings"), stringTable(document, width)),
    ...section(paint.heading("Capos"), capoLines(document.strings, width)),
    ...section(
      paint.heading(`Beside it: ${printable(document.against ?? "")}`),
      againstLines(document, width),
    ),
    ...section(
      paint.heading("Mind"),
      cautions.flatMap((one) => wrapText(one, width, "  - ")),
    ),
  ];
  return `${lines.join("\n")}\n`;
}

const cautions = [
  "Raise pitch in small steps and protect your eyes: a string brought up too far snaps, and its end flies.",
  "Strengths are those of new, straight wire by a handbook; a string that was bent, scratched or knotted holds less. The string maker's limits come first.",
  "More tension is more pull on bridge, tailpiece, pegs and top: whether the instrument bears it is for its builder to say.",
];

function shortSentences({ strings, comparison, totalNewton, totalCount }: StringingDocument): string[] {
  const names = (rows: readonly Row[]) => rows.map(({ name }) => printable(name)).join(", ");
  const over = strings.filter(({ breakingShare }) => breakingShare !== null && breakingShare >= TOO_FAR);
  const near = strings.filter(
    ({ breakingShare }) =>
      breakingShare !== null && breakingShare >= NEAR_BREAKING && breakingShare < TOO_FAR,
  );
  const unweighed = strings.filter(({ densityLacking }) => densityLacking !== null);
  const unmeasured = strings.filter((one) => one.densityLacking === null && one.lengthMm === null);
  return [
    totalCount === 0
      ? "No tension can be given: each string needs its vibrating length (lengthMm) and its weight."
      : `${whichStrings(totalCount, strings.length)} ${totalNewton.toFixed(0)} N (${kilograms(totalNewton)} kgf).`,
    ...(over.length > 0
      ? [
          `${names(over)}: would break before this pitch, by the strength of its wire. Take a shorter length, a lower note or another material.`,
        ]
      : []),
    ...(near.length > 0
      ? [`${names(near)}: past three quarters of what its wire holds. It may snap while it is brought up.`]
      : []),
    ...besideSentences(strings, comparison),
    ...(unweighed.length > 0
      ? [
          `Not known how heavy: ${names(unweighed)}. Weigh a piece and measure its length (massGrams, cutLengthMm); a wound string can't be reckoned from its diameter.`,
        ]
      : []),
    ...(unmeasured.length > 0 ? [`No vibrating length given: ${names(unmeasured)} (lengthMm).`] : []),
  ];
}

/** The same warnings for what stands beside it, of the string that is on here and of the one that is on there. */
function besideSentences(strings: readonly Row[], comparison: StringingDocument["comparison"]): string[] {
  const shares = (comparison ?? []).map(({ name, sameStringNewton, breakingShare }) => {
    const here = strings.find((one) => one.name === name);
    const same =
      here?.tensionNewton && here.breakingShare !== null && sameStringNewton !== null
        ? (here.breakingShare * sameStringNewton) / here.tensionNewton
        : 0;
    return { name: printable(name), share: Math.max(same, breakingShare ?? 0) };
  });
  const over = shares.filter(({ share }) => share >= TOO_FAR).map(({ name }) => name);
  const near = shares
    .filter(({ share }) => share >= NEAR_BREAKING && share < TOO_FAR)
    .map(({ name }) => name);
  return [
    over.length > 0
      ? `As it stands beside it, ${over.join(", ")}: would break before that pitch, by the strength of its wire. Don't try it.`
      : "",
    near.length > 0
      ? `As it stands beside it, ${near.join(", ")}: past three quarters of what its wire holds. It may snap while it is brought up.`
      : "",
  ].filter((sentence) => sentence !== "");
}

function whichStrings(known: number, all: number): string {
  if (known === 1) return `${all === 1 ? "The one string" : `1 of ${all} strings`} pulls with`;
  return `${known === all ? `All ${all}` : `${known} of ${all}`} strings together pull with`;
}

function stringTable({ strings, settings }: StringingDocument, width: number): string[] {
  const isWanted = settings.tensionNewton !== null;
  const table = textTable(
    [
      left("string"),
      left("note"),
      right("Hz"),
      right("mm"),
      right("g/m"),
      left("from"),
      right("tension", "N (kgf)"),
      right("of", "breaking"),
      ...(isWanted ? [right("g/m for", `${settings.tensionNewton} N`)] : []),
    ],
    strings.map((one) => [
      printable(one.name),
      one.note,
      one.frequencyHz.toFixed(1),
      shown(one.lengthMm, 0),
      shown(one.linearDensityGramsPerMetre, 2),
      one.densityBasis === null
        ? one.densityLacking === null
          ? "-"
          : lacking[one.densityLacking]
        : bases[one.densityBasis],
      one.tensionNewton === null ? "-" : `${one.tensionNewton.toFixed(1)} (${kilograms(one.tensionNewton)})`,
      one.breakingShare === null ? "-" : `${(100 * one.breakingShare).toFixed(0)} %`,
      ...(isWanted ? [shown(one.wantedGramsPerMetre, 2)] : []),
    ]),
    width,
  );
  return [
    ...table,
    "",
    ...wrapText(
      "mm: vibrating length. g/m: mass of a metre, from the scale (weighed), the file, or the wire (diameter and material); half: only one of the two numbers is given; what?: a material not known here. of " +
        "breaking: share of the stress at which such wire breaks, where that is known.",
      width,
      "  ",
    ),
  ];
}

function capoLines(strings: readonly Row[], width: number): string[] {
  return strings.flatMap(({ name, capo }) =>
    capo.flatMap(({ semitones, fromNutMm }) =>
      wrapText(
        `${printable(name)} raised by ${semitones}: stopped ${fromNutMm.toFixed(1)} mm from the nut. The tension stays; pressing it down adds a little.`,
        width,
        "  ",
        "    ",
      ),
    ),
  );
}

function againstLines({ comparison, strings }: StringingDocument, width: number): string[] {
  if (comparison === null) return [];
  if (comparison.length === 0) return wrapText("No string of the same name.", width, "  ");
  const tensionOf = (name: string) => strings.find((one) => one.name === name)?.tensionNewton ?? null;
  return [
    ...textTable(
      [
        left("string"),
        left("note", "there"),
        right("length", "there, mm"),
        right("same string:", "N there"),
        right("", "change"),
        right("same tension:", "g/m there"),
        right("its own", "string, N"),
      ],
      comparison.map((one) => [
        printable(one.name),
        one.note,
        shown(one.lengthMm, 0),
        shown(one.sameStringNewton, 1),
        change(tensionOf(one.name), one.sameStringNewton),
        shown(one.sameTensionGramsPerMetre, 2),
        shown(one.tensionNewton, 1),
      ]),
      width,
    ),
    "",
    ...wrapText(
      "Same string: the very string that is on here, put on there. Same tension: how heavy a string would have to be there to pull as this one does here.",
      width,
      "  ",
    ),
  ];
}

function change(from: number | null, to: number | null): string {
  if (from === null || to === null) return "-";
  const percent = 100 * (to / from - 1);
  return `${percent >= 0 ? "+" : ""}${percent.toFixed(0)} %`;
}

function shown(value: number | null, digits: number): string {
  return value === null ? "-" : value.toFixed(digits);
}

function kilograms(newton: number): string {
  return (newton / NEWTON_PER_KILOGRAM_FORCE).toFixed(1);
}
