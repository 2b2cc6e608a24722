import { median } from "../signal/median.js";
import { readWheelPassage, type TurningPassage, type WheelOptions } from "./readWheelPassage.js";
import type { WheelPassage, WheelReading } from "./WheelReading.js";

/** Of a whole take: a swing is claimed where nothing keeps time in no more than 5 of 100 takes. */
const FALSE_ALARM_LEVEL = 0.05;

/**
 * Reads what the wheel does in the steady passages of a take.
 *
 * @param givenTurns - turns a second counted by eye, right to within 15 %; null where not counted
 * @param readAll - reads each passage by itself
 */
export function readWheel(
  passages: readonly TurningPassage[],
  givenTurns: number | null = null,
  readAll: (passages: readonly TurningPassage[], options: WheelOptions) => WheelPassage[] = readInTurn,
): WheelReading {
  const options = { givenTurns, falseAlarmLevel: FALSE_ALARM_LEVEL / Math.max(1, passages.length) };
  const read = readAll(passages, options);
  const middle = (values: readonly (number | null)[]) => {
    const known = values.filter((value) => value !== null);
    return known.length === 0 ? null : median(Float64Array.from(known));
  };
  return {
    turnsPerSecond: middle(read.map(({ turnsPerSecond }) => turnsPerSecond)),
    pitchSwingCents: middle(read.map(({ pitch }) => pitch.swing)),
    levelSwingDb: middle(read.map(({ level }) => level.swing)),
    passages: read,
  };
}

function readInTurn(passages: readonly TurningPassage[], options: WheelOptions): WheelPassage[] {
  return passages.map((passage) => readWheelPassage(passage, options));
}
