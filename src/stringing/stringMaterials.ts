/** What plain strings are made of. */
export interface StringMaterial {
  /** As instrument files and output call it. */
  readonly name: string;
  readonly densityKgPerM3: number;
  /** Stress at which new wire of this diameter breaks, in megapascal; null where makes differ too much. */
  readonly breakingStressMpa: (diameterMm: number) => number | null;
  /** Where the numbers come from. */
  readonly source: string;
}

const unknown = () => null;

/**
 * Materials of plain strings. Wound strings are not here: how heavy they are must be weighed, and their core carries them.
 *
 * Strength of wire rises as it gets thinner: sigma = A / d^m with A and m from Shigley's Mechanical Engineering Design, table of
 * spring wires (from memory): minimum strengths, so a wire may hold more, and one that was bent or scratched less.
 */
export const stringMaterials: readonly StringMaterial[] = [
  {
    name: "steel",
    densityKgPerM3: 7850,
    breakingStressMpa: (diameterMm) => 2211 / diameterMm ** 0.145,
    source: "music wire, ASTM A228: Shigley, Mechanical Engineering Design (from memory)",
  },
  {
    name: "phosphor-bronze",
    densityKgPerM3: 8860,
    breakingStressMpa: (diameterMm) => (diameterMm < 0.6 ? 1000 : 913 / diameterMm ** 0.028),
    source: "spring wire, ASTM B159: Shigley, Mechanical Engineering Design (from memory)",
  },
  {
    name: "brass",
    densityKgPerM3: 8500,
    breakingStressMpa: unknown,
    source: "density of drawn brass, handbooks (from memory); strength differs with alloy and drawing",
  },
  {
    name: "gut",
    densityKgPerM3: 1300,
    breakingStressMpa: unknown,
    source: "density about 1300 (from memory); strength differs with twist, making and the air's moisture",
  },
  {
    name: "nylon",
    densityKgPerM3: 1140,
    breakingStressMpa: unknown,
    source: "density of polyamide 6.6, handbooks (from memory); strength differs with the make",
  },
  {
    name: "fluorocarbon",
    densityKgPerM3: 1780,
    breakingStressMpa: unknown,
    source: "density of polyvinylidene fluoride, handbooks (from memory); strength differs with the make",
  },
];

/** The material of that name, whatever its letter case; undefined where it is not in the table. */
export function findMaterial(name: string): StringMaterial | undefined {
  const wanted = name.trim().toLowerCase();
  return stringMaterials.find((one) => one.name === wanted);
}
