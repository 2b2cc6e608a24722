import type { StringingDocument } from "../stringing/stringingDocumentSchema.js";
import { kilograms } from "./kilograms.js";
import { printable } from "./printable.js";

type Row = StringingDocument["strings"][number];

/** Our policy: wire strengths are for new, straight wire, and a peg overshoots. */
const NEAR_BREAKING = 0.75;
const TOO_FAR = 1;

/** The answer, in sentences: the pull of all strings, those that may break, and what is lacking. */
export function stringingAnswer({
  strings,
  comparison,
  totalNewton,
  totalCount,
}: StringingDocument): string[] {
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
