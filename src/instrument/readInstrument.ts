import { checkInstrument } from "./checkInstrument.js";
import type { Instrument } from "./Instrument.js";
import { InstrumentYaml } from "./InstrumentYaml.js";
import { nameStrings } from "./nameStrings.js";

/**
 * Reads an instrument file (YAML 1.2): the strings, their notes and the tuning they are meant to have.
 *
 * Each string needs a `role` and a `note` or `frequencyHz`; a string without `name` is called by its note
 * (`G4`, a second one `G4 2`). Left out, `a4Hz` is 440, `temperament` equal, `drones` pure (which matters
 * once there is a tonic), `offsetCents` 0, `capo` empty, `name` "unnamed". At most 64 Ki characters.
 *
 * @throws AnalysisError `instrument-invalid` with line and column (from 1) of the first problem in the file
 *
 * @example
 * ```ts
 * readInstrument("name: Small one\nstrings:\n  - { role: drone, note: G2 }\n").strings[0]?.name; // "G2"
 * ```
 */
export function readInstrument(yamlText: string): Instrument {
  const checked = checkInstrument(new InstrumentYaml(yamlText));
  if (checked.file === null) throw checked.problems[0];
  const { file, notes } = checked;
  const names = nameStrings(
    file.strings.map((string, index) => ({ name: string.name ?? null, note: notes[index] ?? "" })),
  );

  return {
    name: file.name ?? "unnamed",
    a4Hz: file.a4Hz ?? 440,
    temperament: file.temperament ?? "equal",
    tonic: file.tonic ?? null,
    drones: file.drones ?? "pure",
    strings: file.strings.map((string, index) => ({
      name: names[index] ?? "",
      role: string.role,
      note: string.note ?? null,
      frequencyHz: string.frequencyHz ?? null,
      offsetCents: string.offsetCents ?? 0,
      lengthMm: string.lengthMm ?? null,
      keys: string.keys ?? null,
      capo: string.capo ?? [],
      linearDensityGramsPerMetre: string.linearDensityGramsPerMetre ?? null,
      massGrams: string.massGrams ?? null,
      cutLengthMm: string.cutLengthMm ?? null,
      diameterMm: string.diameterMm ?? null,
      material: string.material ?? null,
    })),
  };
}
