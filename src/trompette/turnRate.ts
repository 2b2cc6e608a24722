import type { TimeSpan } from "../audio/findPauses.js";
import type { StringMovement } from "../strings/StringMovement.js";
import { readWheel } from "../wheel/readWheel.js";
import type { StringCourse } from "./stringCourse.js";
import type { TurnRefusal } from "./TrompetteReading.js";

/** How fast the wheel turns, and where that was heard. */
export interface TurnRate {
  readonly turnsPerSecond: number | null;
  readonly interval95: readonly [number, number] | null;
  readonly basis: "counted" | "silent-part" | null;
  readonly refusal: TurnRefusal | null;
}

/** A swing needs so long to be told from chance (see `wheel`). */
const LEAST_SECONDS = 4.2;

/**
 * Turns of the wheel a second, from the swing of the drone's pitch and level where it does not buzz: strokes come at the wheel's own
 * pace or a multiple of it, and where they sound their rate would be taken for the turn.
 *
 * @param spans - stretches without buzz, longest first
 * @param counted - turns a second counted by eye; these stand where no swing is shown
 */
export function turnRate(
  course: (span: TimeSpan) => StringCourse | null,
  spans: readonly TimeSpan[],
  counted: number | null,
): TurnRate {
  const [longest] = spans;
  const isLong = longest !== undefined && longest.endSeconds - longest.startSeconds >= LEAST_SECONDS;
  const along = isLong ? course(longest) : null;
  if (along !== null) {
    const passage = { ...longest, strings: [{ name: "string", movement: movementOf(along) }] };
    const [read] = readWheel([passage], counted).passages;
    if (read !== undefined && read.turnsPerSecond !== null) {
      return {
        turnsPerSecond: read.turnsPerSecond,
        interval95: read.turnsInterval95,
        basis: "silent-part",
        refusal: null,
      };
    }
  }
  if (counted !== null) {
    return { turnsPerSecond: counted, interval95: null, basis: "counted", refusal: null };
  }
  return {
    turnsPerSecond: null,
    interval95: null,
    basis: null,
    refusal: isLong ? "no-swing" : "no-silence",
  };
}

function movementOf({ grid, cents, levelDb }: StringCourse): StringMovement {
  const centSeconds = new Float64Array(grid.count);
  for (let m = 1; m < grid.count; m++) centSeconds[m] = centSeconds[m - 1] + cents[m - 1] * grid.hopSeconds;
  const mean = centSeconds[grid.count - 1] / Math.max(1, grid.count - 1);
  return {
    hopSeconds: grid.hopSeconds,
    centSeconds: centSeconds.map((value, m) => value - mean * m),
    levelDb,
  };
}
