import type { InstrumentString, StringTarget } from "../instrument/Instrument.js";
import { crossSectionMm2, linearDensity } from "./linearDensity.js";
import type { StringingRow } from "./StringingReading.js";
import { findMaterial } from "./stringMaterials.js";
import { linearDensityForTension, stringTension } from "./stringTension.js";

/**
 * Tension of one string, how near it is to breaking, and what a capo does.
 *
 * The stress is the tension over the cross-section of a plain string of known diameter, whatever its weight is known from; a
 * wound string hangs on a core that is not known.
 *
 * @param target - the pitch it is to have
 * @param wantedNewton - a tension to find the linear density for; null for none
 */
export function stringingRow(
  string: InstrumentString,
  target: Pick<StringTarget, "note" | "targetHz">,
  wantedNewton: number | null,
): StringingRow {
  const { lengthMm } = string;
  const frequencyHz = target.targetHz;
  const found = linearDensity(string);
  const density = typeof found === "string" ? null : found;
  const tensionNewton =
    density === null || lengthMm === null
      ? null
      : stringTension(frequencyHz, lengthMm, density.gramsPerMetre);
  const breaking = breakingNewton(string);
  const breakingShare = tensionNewton === null || breaking === null ? null : tensionNewton / breaking;
  return {
    name: string.name,
    role: string.role,
    note: target.note,
    frequencyHz,
    lengthMm,
    density,
    densityLacking: typeof found === "string" ? found : null,
    tensionNewton,
    breakingShare,
    breakingHz: breakingShare === null ? null : frequencyHz / Math.sqrt(breakingShare),
    wantedGramsPerMetre:
      wantedNewton === null || lengthMm === null
        ? null
        : linearDensityForTension(wantedNewton, frequencyHz, lengthMm),
    capo:
      lengthMm === null
        ? []
        : string.capo.map((semitones) => ({ semitones, fromNutMm: lengthMm * (1 - 2 ** (-semitones / 12)) })),
  };
}

function breakingNewton({ diameterMm, material }: InstrumentString): number | null {
  if (diameterMm === null || material === null) return null;
  const stressMpa = findMaterial(material)?.breakingStressMpa(diameterMm) ?? null;
  // 1 MPa on 1 mm2 is 1 N.
  return stressMpa === null ? null : stressMpa * crossSectionMm2(diameterMm);
}
