import type { WheelDocument } from "../wheel/wheelDocumentSchema.js";
import { roundedOutward } from "./intervalText.js";
import { printable } from "./printable.js";

type PassageDocument = WheelDocument["passages"][number];

const refusals: Readonly<Record<NonNullable<PassageDocument["refusal"]>, string>> = {
  "too-short": "it is shorter than 4 seconds, and a swing needs four turns or more to be told from chance",
  "no-swing": "what moves in pitch and level is not steadier in time than chance makes it",
  "not-followed": "no string could be followed through it, or the rate was outside what is looked for",
};

const causes: Readonly<Record<PassageDocument["cause"], string>> = {
  "all-at-once":
    "All strings swing at the same moment: that is how the arm's push shows, which moves all of them at once.",
  "one-after-another":
    "The strings swing one after another: that is how a wheel out of true or an uneven place on it shows, which passes them in turn.",
  "some-of-each":
    "One of pitch and level swings on all strings at the same moment, the other on one after another: arm and wheel both have a part.",
  unclear: "Whether the strings swing at one moment or one after another can't be told from this take.",
  "one-string": "With one string the arm's push can't be told from an uneven wheel; see What to try.",
};

/** The answer for one passage, in sentences. */
export function wheelVerdict(passage: PassageDocument, isOneOfSeveral: boolean): string[] {
  const { startSeconds, endSeconds, turnsPerSecond, refusal } = passage;
  const where = isOneOfSeveral ? `${startSeconds.toFixed(1)} to ${endSeconds.toFixed(1)} s: ` : "";
  if (turnsPerSecond === null) {
    return [`${where}No swing that keeps time with the wheel is shown: ${refusals[refusal ?? "no-swing"]}.`];
  }
  const strings = passage.strings.map(({ name }) => printable(name)).join(", ");
  const alone = passage.strings.length === 1;
  const who = alone ? strings : `${strings} together`;
  return [
    `${where}The wheel goes round ${turnsPerSecond.toFixed(2)} times a second${rangeText(passage.turnsInterval95, 2, "")}${otherRate(passage)}.`,
    `${who}: pitch ${swingText(passage, "pitch")}, level ${swingText(passage, "level")}, to either side.`,
    causes[passage.cause],
  ];
}

/** Two like pushes a turn look like one at twice the rate: the answer must not be surer than that. */
function otherRate({ candidates }: PassageDocument): string {
  const half = candidates.find(({ isTaken, reason }) => !isTaken && reason === "no-sub-wave");
  return half === undefined
    ? ""
    : `; or ${half.turnsPerSecond.toFixed(2)} times, if two like pushes come in a turn: count the turns to tell`;
}

function swingText(passage: PassageDocument, quantity: "pitch" | "level"): string {
  const unit = quantity === "pitch" ? "cents" : "dB";
  const { swing, interval95 } = passage[quantity];
  if (swing !== null) return `swings by ${swing.toFixed(2)} ${unit}${rangeText(interval95, 2, unit)}`;
  const missed = Math.max(...passage.strings.map((string) => string[quantity].interval95[1]));
  return `shows no swing (less than ${roundedOutward([0, missed], 2)[1].toFixed(2)} ${unit}, 95 % sure)`;
}

function rangeText(interval: readonly [number, number] | null, digits: number, unit: string): string {
  if (interval === null) return "";
  const [low, high] = roundedOutward(interval, digits);
  return ` (95 % sure between ${low.toFixed(digits)} and ${high.toFixed(digits)}${unit === "" ? "" : ` ${unit}`})`;
}
