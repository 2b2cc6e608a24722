import type { Instrument, StringTarget } from "../instrument/Instrument.js";
import type { StringingComparison, StringingReading, StringingRow } from "./StringingReading.js";
import { stringingRow } from "./stringingRow.js";
import { linearDensityForTension, stringTension } from "./stringTension.js";

/** An instrument and the pitch each of its strings is to have, in the same order. */
export interface StrungInstrument {
  readonly instrument: Instrument;
  readonly targets: readonly StringTarget[];
}

/**
 * Tensions of all strings of an instrument, and beside it of another one, or of the same one otherwise tuned or scaled.
 *
 * @param wantedNewton - a tension to find linear densities for; null for none
 * @param other - strings are matched by name; null for none
 */
export function readStringing(
  { instrument, targets }: StrungInstrument,
  wantedNewton: number | null,
  other: StrungInstrument | null,
): StringingReading {
  const strings = instrument.strings.map((string, i) => stringingRow(string, targets[i], wantedNewton));
  const known = strings.flatMap(({ tensionNewton }) => tensionNewton ?? []);
  return {
    strings,
    totalNewton: known.reduce((sum, tension) => sum + tension, 0),
    totalCount: known.length,
    against: other === null ? null : against(strings, other),
  };
}

function against(strings: readonly StringingRow[], other: StrungInstrument): StringingComparison[] {
  return strings.flatMap((here): StringingComparison[] => {
    const index = other.instrument.strings.findIndex(({ name }) => name === here.name);
    if (index < 0) return [];
    const there = stringingRow(other.instrument.strings[index], other.targets[index], null);
    const { lengthMm, frequencyHz } = there;
    const { density, tensionNewton } = here;
    return [
      {
        name: here.name,
        sameStringNewton:
          density === null || lengthMm === null
            ? null
            : stringTension(frequencyHz, lengthMm, density.gramsPerMetre),
        sameTensionGramsPerMetre:
          tensionNewton === null || lengthMm === null
            ? null
            : linearDensityForTension(tensionNewton, frequencyHz, lengthMm),
        there,
      },
    ];
  });
}
