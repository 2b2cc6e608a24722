import { wheelDocument } from "../../src/report/wheelDocument.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { readWheel } from "../../src/wheel/readWheel.js";
import type { WheelDocument } from "../../src/wheel/wheelDocumentSchema.js";
import { gaussMarkov, movementOf } from "../wheel/handMadeMovement.js";
import { handMadeTake } from "./handMade.js";

export const SECONDS = 10;
const turn = (seconds: number) => 2 * Math.PI * 1.5 * seconds;

/** A swing with a little random movement. */
export function swinging(late: number, amount = 1) {
  const random = new SeededRandom(70 + late);
  const pitch = gaussMarkov(0.15, 0.05, random);
  const level = gaussMarkov(0.08, 0.1, random);
  return movementOf(
    SECONDS,
    (seconds) => pitch() + amount * Math.sin(turn(seconds) - late),
    (seconds) => level() + 0.5 * amount * Math.cos(turn(seconds) - late),
  );
}

/** What the command says of such passages. */
export function handMadeWheelDocument(
  passages: Parameters<typeof readWheel>[0],
  turnsPerSecond: number | null = null,
): WheelDocument {
  return wheelDocument({
    toolVersion: "0.0.0-test",
    instrument: null,
    settings: {
      a4Hz: 440,
      tonic: null,
      temperament: null,
      tuning: null,
      capo: {},
      order: null,
      sounding: null,
      turnsPerSecond,
    },
    file: "wheel\u001b.wav",
    reading: { ...handMadeTake({ findings: [] }), wheel: readWheel(passages, turnsPerSecond) },
  });
}
