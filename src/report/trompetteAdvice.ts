import type { TrompetteDocument } from "../trompette/trompetteDocumentSchema.js";

const PRACTICE = "(common practice, no source)";

const ORDER =
  "Order of work: first pitch, cotton and rosin of the string, then how the foot of the bridge sits, then the tirant (the thread that pulls " +
  `the trompette string, by a peg at the tailpiece), a little at a time; play a row of strokes after each step ${PRACTICE}.`;

/** What can be tried, by what was found. */
export function trompetteAdvice(document: TrompetteDocument): string[] {
  const { state, strokes, soundingSeconds, differenceCents } = document;
  if (soundingSeconds === 0) return [];
  if (state === "none") {
    return [
      "If there were strokes: kick harder with the wrist first. If it still stays silent, the tirant may be too slack or the foot too firm: " +
        `turn the tirant's peg a little tighter, an eighth of a turn, and try again ${PRACTICE}.`,
      ORDER,
    ];
  }
  if (state === "continuous") {
    return [
      "If you hear it buzz all the time, the tirant may be too tight, or the foot too loose or worn: turn the tirant's peg a little slacker, an eighth " +
        `of a turn, until even cranking is silent and a kick is not ${PRACTICE}.`,
      "If you hear no buzz, the string is harsh: see to cotton, rosin and its pressure on the wheel.",
      ORDER,
    ];
  }
  if (state === "unclear") {
    return [
      "Record three seconds without strokes, then a row of eight or more even strokes, without a melody and without drones.",
    ];
  }
  const weak = strokes.filter((one) => one.weak).length + document.missedSeconds.length;
  return [
    ...(weak > strokes.length / 8
      ? [
          "Several strokes fail or are weak. If they do so at every kick, the tirant is a little too slack: an eighth of a turn tighter. If they " +
            `come at one place of the turn, it is the wrist: practise that place slowly ${PRACTICE}.`,
        ]
      : []),
    ...(differenceCents !== null && differenceCents.mean < -10
      ? [
          "The pitch drops far while it buzzes. A slacker tirant or a lighter kick lessens it; tune the string so that it is right as it is heard most, " +
            `buzzing or silent ${PRACTICE}.`,
        ]
      : []),
    `Where it answers too soon, turn the tirant's peg a little slacker; where it answers too late, tighter ${PRACTICE}.`,
  ];
}
