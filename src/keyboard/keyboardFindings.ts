import { cents } from "../units/cents.js";
import type { HeardNotes } from "./hearNotes.js";
import type { KeyboardFinding, KeyboardOptions, KeyboardReading, KeyReading } from "./KeyboardReading.js";
import { otherString } from "./otherString.js";
import { LARGEST_TURN_MM } from "./tangentGeometry.js";

/** What is left of drones that were taken out stays well below this. */
const STRONG_LINE_DB = -13;
const FEW_KEYS = 6;
/** A slip or two are no fast playing. */
const MANY_SHORT = 3;
const SHORT_SHARE = 0.12;
/** The open string within this of its target needs no word. */
const OPEN_CENTS = 2;

/** What is to be told about a scale besides its numbers. */
export function keyboardFindings(
  reading: Omit<KeyboardReading, "findings">,
  { notes, strays, aboveLastKey, short, likely }: HeardNotes,
  { otherStrings = [], ladderCents }: KeyboardOptions,
): KeyboardFinding[] {
  const { keys, missedKeys, openBasis, openHz, openTargetHz, lengthMm, drones, string } = reading;
  const findings: KeyboardFinding[] = [];
  const add = (
    code: KeyboardFinding["code"],
    severity: KeyboardFinding["severity"],
    values: KeyboardFinding["values"],
  ) => findings.push({ code, severity, values } as KeyboardFinding);
  const named = (of: readonly KeyReading[]) => of.map(({ key }) => key).join(", ");

  if (likely !== null) {
    const lowestKey = notes.length === 0 ? 0 : Math.min(...notes.map(({ key }) => key));
    const severity = likely.isCertain ? "problem" : "warning";
    add("likely-string", severity, { other: likely.name, string, lowestKey });
  }
  if (short.length >= MANY_SHORT && short.length > SHORT_SHARE * notes.length) {
    const values = { count: short.length, startSeconds: short[0].startSeconds };
    add("played-too-fast", keys.length === 0 ? "problem" : "warning", values);
  }
  if (keys.length === 0) return [...findings, { code: "no-key", severity: "problem", values: { string } }];
  const along = otherString(notes, openHz, otherStrings);
  const sharePercent = Math.round(100 * (along?.share ?? 0));
  if (along?.name) add("other-string", "warning", { other: along.name, string, sharePercent });
  else if (along !== null) add("something-beats", "warning", { string, sharePercent });
  const disturbed = notes.filter(({ note }) => (note.otherLine?.levelDb ?? -100) > STRONG_LINE_DB);
  if (along === null && disturbed.length > notes.length / 2) add("unnamed-sound", "warning", { string });
  if (keys.length < FEW_KEYS) add("few-keys", "warning", { count: keys.length });
  if (openBasis === "target") add("open-not-played", "info", { string, openHz });
  const openOffCents = cents(openHz, openTargetHz);
  if (Math.abs(openOffCents) >= OPEN_CENTS) {
    add("open-off-target", "info", { string, deviationCents: openOffCents });
  }
  if (lengthMm === null) add("no-length", "info", { string });
  const large = keys.filter(({ tangentMoveAfterShift: move }) => (move?.moveMm ?? 0) > LARGEST_TURN_MM);
  if (large.length > 0) add("large-move", "warning", { keys: named(large), largestMm: LARGEST_TURN_MM });
  const harsh = keys.filter(({ isHarsh }) => isHarsh);
  if (harsh.length > 0) add("harsh-keys", "warning", { keys: named(harsh) });
  const unsteady = keys.filter(({ isUnsteady }) => isUnsteady);
  if (unsteady.length > 0) add("unsteady-keys", "warning", { keys: named(unsteady) });
  if (strays.length > 0) {
    const startSeconds = strays[0].startSeconds;
    add("notes-not-placed", "warning", { count: strays.length, startSeconds });
  }
  if (aboveLastKey.length > 0) {
    const values = { count: aboveLastKey.length, keyCount: ladderCents.length - 1 };
    add("keys-beyond-file", "warning", values);
  }
  const highest = Math.max(...keys.map(({ key }) => key));
  const within = missedKeys.filter((key) => key < highest);
  if (within.length > 0) add("keys-missed", "info", { keys: within.join(", ") });
  if (drones.length > 0) {
    add("drones-taken-out", "info", { drones: drones.map(({ name }) => name).join(", ") });
  }
  return findings;
}
