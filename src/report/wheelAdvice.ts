import type { WheelDocument } from "../wheel/wheelDocumentSchema.js";

type PassageDocument = WheelDocument["passages"][number];

const PRACTICE = "(common practice, no source)";

/** Why the test needs more than one string: crank and wheel turn as one. */
const SHAFT =
  "The crank sits on the wheel's shaft, so the arm's push comes at the same place of the wheel in every turn too: that a swing keeps time " +
  "does not make it the wheel's.";

const TRY_ONE =
  "Mount the crank a quarter turn round on its shaft, or let someone else crank, and record the same string again, with a mark on the " +
  "rim of the wheel that you can see passing a string. What stays at the mark is the wheel's; what moves with the " +
  `crank is the arm's ${PRACTICE}. Or record two or three strings together that touch the wheel far from each other: ` +
  "the arm moves them all at one moment, the wheel one after another.";

const byCause: Readonly<Record<PassageDocument["cause"], readonly string[]>> = {
  "all-at-once": [
    "Practise a rounder push with a counted beat, or try a longer or heavier crank; then record again. Wheel, rosin and cotton need no " +
      `work for this ${PRACTICE}.`,
    "Strings that touch the wheel close to each other swing at nearly one moment whatever the cause: be sure that those compared touch it " +
      "far apart, a drone and a melody string.",
    "An oval wheel swings twice a turn, and strings half a turn apart on it then swing at one moment as well. Where the wave comes " +
      "twice a turn, compare strings about a quarter of a turn apart before you leave the wheel alone.",
  ],
  "one-after-another": [
    "Compare the degrees between the strings with the angle between the places where they touch the wheel: where they are the same, or " +
      "add up to 360, it is the wheel.",
    "Look first for what is easy to mend: rosin that lies unevenly, a hard or thin place in the cotton of one string. Then turn the wheel " +
      "slowly past a pointer and look for a rim that rises or falls; truing it is work for the instrument's " +
      `maker ${PRACTICE}.`,
  ],
  "some-of-each": [
    "Settle the arm's part first: let someone else crank and record again. What is left is the wheel's " +
      `${PRACTICE}.`,
  ],
  unclear: [TRY_ONE, "A take of 20 seconds or more narrows the degrees between the strings."],
  "one-string": [TRY_ONE],
};

/** What can be tried, for one passage. */
export function wheelAdvice({ turnsPerSecond, cause, refusal }: PassageDocument): string[] {
  if (turnsPerSecond !== null) return [SHAFT, ...byCause[cause]];
  if (refusal === "not-followed") {
    return ["Name the tuning or the instrument, and record one to three strings for ten seconds or more."];
  }
  return [
    "If you hear a swing all the same, record for 20 seconds and crank evenly, or give the turns you count: " +
      "--turns-per-second. If you gave them, leave them out: a count more than 15 % out hides the swing.",
  ];
}

/** What speaks for the rate, and for half of it. */
export function wheelRateSentences({ candidates }: PassageDocument): string[] {
  return candidates.map(({ turnsPerSecond, isTaken, strongestWave, reason, probability }) => {
    const rate = `${turnsPerSecond.toFixed(2)} turns a second${isTaken ? " (taken)" : ""}`;
    const chance = chanceText(probability);
    const waves =
      strongestWave === 1
        ? "once a turn"
        : strongestWave === 2
          ? "twice a turn"
          : `${strongestWave} times a turn`;
    const words: Record<typeof reason, string> = {
      given: `nearest to what you counted; the strongest wave comes ${waves}.`,
      strongest: "the strongest wave then comes once a turn.",
      "too-fast": "faster than a crank is turned, so the wave comes more than once a turn.",
      "sub-wave":
        "the strongest wave then comes twice a turn, as with two pushes, and pitch or level also has a wave that only " +
        `this rate explains${chance}.`,
      "no-sub-wave":
        `possible, with two like pushes a turn; no wave that only this rate explains is shown${chance}. Count the turns, and give ` +
        "--turns-per-second.",
    };
    return `${rate}: ${words[reason]}`;
  });
}

/** How seldom chance alone makes waves as strong; nothing where it does so in most takes. */
function chanceText(probability: number | null): string {
  if (probability === null || probability > 0.5) return "";
  const often =
    probability < 0.001 ? "fewer than 1 of 1,000 takes" : `${Math.round(1000 * probability)} of 1,000 takes`;
  return ` (chance makes waves as strong in ${often})`;
}
