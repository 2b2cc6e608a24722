import { printable } from "../printable.js";
import type { ReportSection } from "./ReportPage.js";

/** What a page is made by. */
export type PageKind =
  | "measure"
  | "compare"
  | "keyboard"
  | "wheel"
  | "check"
  | "stringing"
  | "tunings"
  | "trompette"
  | "sympathetic"
  | "tap"
  | "history";

const methods: Readonly<Record<PageKind, string>> = {
  measure:
    "Each string's partials are followed together through its steady passages; the pitch is the phase they go through over the time it takes " +
    "(harmonic least squares, after Nielsen and others 2017), strings that sound together are fitted jointly (Christensen & Jakobsson 2009). " +
    "The 95 % range comes from how unsteady the string was, the swing of the wheel taken out. Bands are those of IEC 61260-1:2014, unweighted.",
  compare:
    "The take is what is counted, each placed anew. Differences by Welch's t test with its interval; one measure at 5 %, the others Holm-adjusted " +
    "together at 2 %; the body curves' difference as one band that holds as a whole.",
  keyboard:
    "Each note is cut out and its partials followed; one swing of the wheel is fitted to the whole scale. Lengths follow from the vibrating length: " +
    "n semitones up sounds at the length times 2 to the power of -n/12.",
  wheel:
    "Pitch and level of each string are followed, and what they share at one rate, wandering as a crank does, is fitted against random movement.",
  check: "The recording's samples, its pauses and its spectrum are looked at; no string is measured.",
  stringing:
    "Mersenne's law: frequency is the root of tension over weight per length, over twice the vibrating length.",
  tunings: "In equal temperament each semitone is the twelfth root of 2, counted from A4.",
  trompette:
    "The buzz is what stands between and above the drone's own partials, and comes with each stroke.",
  sympathetic: "Plucked strings: partials that die away are fitted with the string's stiffness.",
  tap: "What rings on after each tap is fitted as modes that die away, the same in all taps.",
  history:
    "Pitches of one string are compared by frequency. What all strings have in common is found by medians in turn (median polish); drift and weather are " +
    "straight lines by least squares with Student's t, each stretch between work with its own level; work is judged by Welch's t where both sides have two takes or more.",
};

const reckoned: readonly PageKind[] = ["stringing", "tunings", "history"];

const CARE =
  "A string brought up too far snaps: raise pitch in small steps, protect your eyes, and keep to the limits of the string's maker " +
  "and to the judgement of the instrument's builder. Room, microphone and strings are in every level on this page.";

/** Pages that tell nobody to tune, or have their cautions in a section of their own. */
const withoutCare: readonly PageKind[] = ["check", "stringing", "tunings"];

/**
 * How it was done in short, and what reproduces it.
 *
 * @param files - recordings
 * @param alsoRead - other files, such as the instrument's
 */
export function methodSection(
  kind: PageKind,
  toolVersion: string,
  files: readonly string[],
  settings: Readonly<Record<string, unknown>>,
  alsoRead: readonly string[] = [],
): ReportSection {
  const given = Object.entries(settings)
    .filter(([, value]) => value !== null && value !== undefined && !isEmpty(value))
    .map(([key, value]) => `${key} ${printable(said(value))}`);
  return {
    heading: reckoned.includes(kind) ? "How it was reckoned" : "How it was measured",
    blocks: [
      { kind: "text", text: methods[kind] },
      {
        kind: "list",
        items: [
          `gurdybench ${toolVersion}, command ${kind}`,
          ...(files.length === 0 ? [] : [`Files: ${files.map(printable).join(", ")}`]),
          ...(alsoRead.length === 0 ? [] : [`Also read: ${alsoRead.map(printable).join(", ")}`]),
          ...(given.length === 0 ? [] : [`Settings: ${given.join("; ")}`]),
        ],
      },
      ...(withoutCare.includes(kind) ? [] : [{ kind: "text" as const, text: CARE }]),
    ],
  };
}

function said(value: unknown): string {
  if (typeof value === "number") return String(Number(value.toFixed(2)));
  if (Array.isArray(value)) return value.map(said).join(", ");
  if (typeof value !== "object" || value === null) return String(value);
  return Object.entries(value)
    .map(([key, one]) => `${key} ${said(one)}`)
    .join(", ");
}

function isEmpty(value: unknown): boolean {
  return typeof value === "object" && value !== null && Object.keys(value).length === 0;
}
