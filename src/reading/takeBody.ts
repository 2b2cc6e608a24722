import { LOW_REGISTER_EDGE_HZ, thirdOctaveBands } from "../body/bandEdges.js";
import { type BodyCurve, bodyCurve } from "../body/bodyCurve.js";
import { partedLevels } from "../body/partedLevels.js";
import { reachOfString } from "../body/reachOfString.js";
import { stringPartials } from "../body/stringPartials.js";
import type { StringReading } from "../strings/StringReading.js";
import type { BodyReading, LowString } from "./TakeReading.js";

/**
 * What the body makes of the strings: the curve that all their partials have in common, and how each string whose
 * fundamental lies in the low register arrives.
 *
 * Sympathetic strings are plucked, not bowed: their partials follow the place of the pluck and not 1/n, so they stay out.
 *
 * @param takes - the named readings of one take, or of several
 * @param lowEdgeHz - where the low register ends
 * @returns null where no string was measured
 */
export function takeBody(
  takes: readonly (readonly StringReading[])[],
  lowEdgeHz: number = LOW_REGISTER_EDGE_HZ,
): BodyReading | null {
  const measured = takes.map((strings) =>
    strings.filter(({ status, role }) => status === "measured" && role !== "sympathetic"),
  );
  if (measured.flat().length === 0) return null;
  const curve = bodyCurve(
    measured.flatMap((strings, t) => strings.flatMap((string) => stringPartials(string, `${t + 1}`))),
  );
  return {
    curve,
    strings:
      measured.length === 1
        ? measured[0]
            .filter(({ frequencyHz }) => frequencyHz !== null && frequencyHz < lowEdgeHz)
            .map((string) => ({
              name: string.name,
              ...(string.levelDb === null
                ? { lowLevelDb: null, restLevelDb: null }
                : partedLevels(
                    stringPartials(string).map(({ frequencyHz, levelDb }) => ({
                      frequencyHz,
                      power: 10 ** (levelDb / 10),
                    })),
                    lowEdgeHz,
                  )),
              reach: reachOfString(string.partials),
              fundamental: fundamentalOf(string, curve),
            }))
        : [],
  };
}

/** How far a string's fundamental lies under what an even body would give. */
function fundamentalOf({ partials }: StringReading, curve: BodyCurve): LowString["fundamental"] {
  const first = partials.find(({ number }) => number === 1);
  if (first === undefined || first.fullScaleDb === null) return null;
  const band = thirdOctaveBands.findIndex(
    ({ lowerHz, upperHz }) => first.frequencyHz >= lowerHz && first.frequencyHz < upperHz,
  );
  const point = curve.status === "fitted" && band >= 0 ? curve.points[band] : undefined;
  if (point !== undefined && point.levelDb !== null && point.interval95Db !== null) {
    return { belowEvenDb: -point.levelDb, interval95Db: [-point.interval95Db[1], -point.interval95Db[0]] };
  }
  const alone = reachOfString(partials).partials.find(({ number }) => number === 1);
  return alone?.belowEvenDb == null || alone.interval95Db === null
    ? null
    : { belowEvenDb: alone.belowEvenDb, interval95Db: alone.interval95Db };
}
