import type { KeyboardDocument } from "../keyboard/keyboardDocumentSchema.js";
import { LARGEST_TURN_MM } from "../keyboard/tangentGeometry.js";
import { roundedOutward } from "./intervalText.js";
import { printable } from "./printable.js";

type KeyDocument = KeyboardDocument["keys"][number];
type Estimate = NonNullable<KeyboardDocument["pattern"]["constantCents"]>;

/** A key within this of its place is left, and one whose tangent no hand can turn by so little (our policy). */
const LEAVE_CENTS = 2;
const LEAST_TURN_MM = 0.2;
/** Beyond it a key is nearer to its neighbour's place. */
const HALF_A_SEMITONE_CENTS = 50;

/** What to do, in the order of work: what all keys have in common first, then single tangents, then the other string. */
export function keyboardAdvice(document: Omit<KeyboardDocument, "inShort">): string[] {
  const { keys, pattern } = document;
  // Moves from keys of another string would spoil the keyboard.
  const wrong = document.findings.find(
    ({ code, severity }) => code === "likely-string" && severity === "problem",
  );
  if (wrong !== undefined) return [wrong.message];
  if (keys.length === 0) return ["No key was heard, so nothing can be said; see Cautions."];
  const isOpenOff =
    document.openBasis === "heard" && Math.abs(document.openDeviationCents ?? 0) >= LEAVE_CENTS;
  const hasShift = isOpenOff || pattern.constantCents !== null || pattern.bridgeCents !== null;
  const toTurn = keys.filter(isToTurn);
  const wide = toTurn.filter(isTooWide);
  const turning = toTurn.filter((key) => !isTooWide(key));
  const count = keys.length - toTurn.length;
  return [
    ...(isOpenOff ? [openSentence(document)] : []),
    ...constantSentences(document),
    ...bridgeSentences(document),
    ...(["nut", "bridge"] as const).map((towards, i) => {
      const these = turning.filter(({ leftCents }) => leftCents > 0 === (towards === "nut"));
      const lead = hasShift || i > 0 ? "Then turn" : "Turn";
      return these.length > 0 ? `${lead} towards the ${towards} the tangents of ${listed(these)}.` : "";
    }),
    wide.length > 0
      ? `More than turning a tangent gives (about ${LARGEST_TURN_MM} mm): ${listed(wide)}. Look there for a loose or bent tangent first.`
      : "",
    count > 0
      ? `Leave ${count === keys.length ? "all tangents" : `the other ${count === 1 ? "one" : count}`}: within ${LEAVE_CENTS} cents or ${LEAST_TURN_MM} mm, or nothing is shown.`
      : "",
    ...otherSentences(document),
  ].filter((sentence) => sentence !== "");
}

/** True where a key is off by enough to be turned, once the shifts that are offered were made. */
function isToTurn({
  leftCents,
  interval95Cents: [low, high],
  tangentMoveAfterShiftMm,
}: KeyDocument): boolean {
  if (tangentMoveAfterShiftMm !== null && tangentMoveAfterShiftMm < LEAST_TURN_MM) return false;
  return Math.abs(leftCents) >= Math.max(LEAVE_CENTS, (high - low) / 2);
}

function isTooWide({ tangentMoveAfterShiftMm }: KeyDocument): boolean {
  return (tangentMoveAfterShiftMm ?? 0) > LARGEST_TURN_MM;
}

/** All keys are counted from the open string as it is, so its own error comes before theirs. */
function openSentence({ openDeviationCents, string }: Omit<KeyboardDocument, "inShort">): string {
  const off = openDeviationCents ?? 0;
  const [way, tune] = off > 0 ? ["sharp", "down"] : ["flat", "up"];
  const size = Math.abs(off).toFixed(1);
  return `First tune ${printable(string)} ${tune} by ${size} cents: the open string is that ${way}. All keys go with it.`;
}

function constantSentences({ pattern, openBasis, nutShiftMm, string }: Omit<KeyboardDocument, "inShort">) {
  const constant = pattern.constantCents;
  if (constant === null) return [];
  const size = Math.abs(constant.value).toFixed(1);
  const [way, flat] = constant.value > 0 ? ["sharp", "flat"] : ["flat", "sharp"];
  const tune = constant.value > 0 ? "down" : "up";
  const name = printable(string);
  if (openBasis === "target") {
    return [
      `First tune ${name} ${tune} by ${size} cents${between(constant)}: all its keys are ${way} by one amount, and the open string was not heard.${Math.abs(constant.value) >= HALF_A_SEMITONE_CENTS ? " But so far off it may as well be another string than the one named, or each key the one beside it: play the open string, and read again before you tune." : ""}`,
    ];
  }
  const nut =
    nutShiftMm === null
      ? ""
      : ` To have both right, move the nut ${Math.abs(nutShiftMm).toFixed(1)} mm ${nutShiftMm > 0 ? "towards" : "away from"} the bridge${mm(pattern.nutShiftInterval95Mm)}.`;
  return [
    `All keys are ${size} cents ${way} of the open string by one amount${between(constant)}. First see that the keys are pressed as in playing: pressing harder raises them all alike. Then tune ${name} ${tune} by ${size} cents, so that the keys are right; the open string is then ${size} cents ${flat}.${nut}`,
  ];
}

function bridgeSentences({ pattern, bridgeShiftMm }: Omit<KeyboardDocument, "inShort">) {
  const bridge = pattern.bridgeCents;
  if (bridge === null) return [];
  const way = bridge.value > 0 ? "sharper" : "flatter";
  const octave = `an octave up by ${Math.abs(bridge.value).toFixed(1)} cents${between(bridge)}`;
  if (bridgeShiftMm === null) {
    return [
      `The higher the key the ${way} (${octave}), as with a bridge too ${bridge.value > 0 ? "near to" : "far from"} the nut.`,
    ];
  }
  return [
    `The higher the key the ${way} (${octave}): move the bridge ${Math.abs(bridgeShiftMm).toFixed(1)} mm ${bridgeShiftMm > 0 ? "away from" : "towards"} the nut${mm(pattern.bridgeShiftInterval95Mm)}, and tune the string again. Where the bridge is fixed, leave it and go by the column "as it is".`,
  ];
}

function otherSentences({
  other,
  differences,
  commonDifferenceCents,
  string,
}: Omit<KeyboardDocument, "inShort">) {
  if (other === null) return [];
  const [a, b] = [printable(string), printable(other.string)];
  const apart = differences.filter(({ disagrees }) => disagrees);
  const common = commonDifferenceCents ?? 0;
  const keys = apart.map(({ key, note }) => `key ${key} (${note})`).join(", ");
  return [
    Math.abs(common) >= LEAVE_CENTS
      ? `All keys of ${a} stand ${Math.abs(common).toFixed(1)} cents ${common > 0 ? "higher" : "lower"} over their open string than those of ${b}: that is no matter of single tangents.`
      : "",
    differences.length === 0
      ? `No key was heard on both ${a} and ${b}.`
      : apart.length === 0
        ? `The tangents of ${a} and ${b} agree on all ${differences.length} keys that both have.`
        : `The tangents of ${a} and ${b} disagree on ${keys}.`,
  ];
}

function listed(keys: readonly KeyDocument[]): string {
  return keys
    .map(({ key, note, tangentMoveAfterShiftMm, leftCents }) =>
      tangentMoveAfterShiftMm === null
        ? `key ${key} (${note}, ${Math.abs(leftCents).toFixed(0)} cents ${leftCents > 0 ? "sharp" : "flat"})`
        : `key ${key} (${note}) by ${tangentMoveAfterShiftMm.toFixed(1)} mm`,
    )
    .join(", ");
}

function between({ interval95 }: Estimate): string {
  const [low, high] = sizes(interval95);
  return ` (95 % between ${low} and ${high})`;
}

function mm(interval: readonly [number, number] | null): string {
  if (interval === null) return "";
  const [low, high] = sizes(interval);
  return ` (${low} to ${high})`;
}

/** An interval that excludes 0, without its sign: the words before it say which way. */
function sizes(interval: readonly [number, number]): readonly string[] {
  const [a, b] = interval.map(Math.abs);
  return roundedOutward([Math.min(a, b), Math.max(a, b)], 1).map((end) => end.toFixed(1));
}
