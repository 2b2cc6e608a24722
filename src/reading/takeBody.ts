import { LOW_REGISTER_EDGE_HZ } from "../body/bandEdges.js";
import { bodyCurve } from "../body/bodyCurve.js";
import { partedLevels } from "../body/partedLevels.js";
import { reachOfString } from "../body/reachOfString.js";
import { stringPartials } from "../body/stringPartials.js";
import type { StringReading } from "../strings/StringReading.js";
import type { BodyReading } from "./TakeReading.js";

/**
 * What the body makes of the strings: the curve that all their partials have in common, and how each string whose
 * fundamental lies in the low register arrives.
 *
 * @param takes - the named readings of one take, or of several
 * @param lowEdgeHz - where the low register ends
 * @returns null where no string was measured
 */
export function takeBody(
  takes: readonly (readonly StringReading[])[],
  lowEdgeHz: number = LOW_REGISTER_EDGE_HZ,
): BodyReading | null {
  const measured = takes.map((strings) => strings.filter(({ status }) => status === "measured"));
  if (measured.flat().length === 0) return null;
  return {
    curve: bodyCurve(
      measured.flatMap((strings, t) => strings.flatMap((string) => stringPartials(string, `${t + 1}`))),
    ),
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
            }))
        : [],
  };
}
