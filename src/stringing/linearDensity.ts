import type { InstrumentString } from "../instrument/Instrument.js";
import { findMaterial } from "./stringMaterials.js";

/** How heavy a string is, and how that is known. */
export interface LinearDensity {
  readonly gramsPerMetre: number;
  /** `weighed`: mass over length; `given`: from the instrument file; `diameter`: from diameter and material. */
  readonly basis: "given" | "weighed" | "diameter";
}

/** Why it is not known. */
export type DensityLacking = "nothing-given" | "half-given" | "material-unknown";

type Known = Pick<
  InstrumentString,
  "linearDensityGramsPerMetre" | "massGrams" | "cutLengthMm" | "diameterMm" | "material"
>;

/**
 * Linear density of a string. What was weighed wins over a maker's figure, and that over diameter and material, which hold for
 * plain strings only: low drones are wound.
 */
export function linearDensity(string: Known): LinearDensity | DensityLacking {
  const { massGrams, cutLengthMm, linearDensityGramsPerMetre, diameterMm, material } = string;
  if (massGrams !== null && cutLengthMm !== null) {
    return { gramsPerMetre: (1000 * massGrams) / cutLengthMm, basis: "weighed" };
  }
  if (linearDensityGramsPerMetre !== null) {
    return { gramsPerMetre: linearDensityGramsPerMetre, basis: "given" };
  }
  if (diameterMm !== null && material !== null) {
    const found = findMaterial(material);
    if (found === undefined) return "material-unknown";
    // kg/m3 times mm2 is mg/m.
    return { gramsPerMetre: (found.densityKgPerM3 * crossSectionMm2(diameterMm)) / 1000, basis: "diameter" };
  }
  const isHalf = [massGrams, cutLengthMm, diameterMm, material].some((value) => value !== null);
  return isHalf ? "half-given" : "nothing-given";
}

/** Cross-section of a round string. */
export function crossSectionMm2(diameterMm: number): number {
  return (Math.PI / 4) * diameterMm ** 2;
}
