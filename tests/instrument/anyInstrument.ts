import fc from "fast-check";
import type { Instrument, InstrumentString } from "../../src/instrument/Instrument.js";
import { stringRoles } from "../../src/instrument/Instrument.js";
import { instrumentRanges } from "../../src/instrument/instrumentRanges.js";
import { nameStrings } from "../../src/instrument/nameStrings.js";
import { temperaments } from "../../src/units/temperament.js";

/** Numbers as files have them: to the thousandth, or to the last digit. */
function within([min, max]: readonly [number, number]) {
  return fc.oneof(
    fc.integer({ min: Math.ceil(min * 1000), max: Math.floor(max * 1000) }).map((n) => n / 1000),
    fc.double({ min, max, noNaN: true }),
  );
}

const whole = ([min, max]: readonly [number, number]) => fc.integer({ min, max });
const orNull = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: null, freq: 1 });

/** Texts that YAML could take for something else, and any others that a name may be. */
const label = fc
  .oneof(
    fc.constantFrom(
      "no",
      "null",
      "12",
      "1e3",
      "- a",
      "a: b",
      "a #b",
      "*x",
      "&y",
      "{a}",
      "[a, b]",
      "'",
      '"',
      "!t",
      "~",
    ),
    fc.string({ minLength: 1, maxLength: 20, unit: "grapheme" }),
  )
  .map((text) => text.trim().normalize("NFC"))
  .filter((text) => text !== "" && text.length <= 60 && !/[\p{C}\p{Zl}\p{Zp}]/u.test(text));

const note = fc
  .tuple(fc.constantFrom(..."ABCDEFG"), fc.constantFrom("", "#", "b"), fc.integer({ min: 1, max: 7 }))
  .map((parts) => parts.join(""));

const string = fc
  .record({
    name: orNull(label),
    role: fc.constantFrom(...stringRoles),
    note: orNull(note),
    frequencyHz: within(instrumentRanges.frequencyHz),
    hasFrequency: fc.boolean(),
    offsetCents: fc.oneof(fc.constant(0), within(instrumentRanges.offsetCents)),
    lengthMm: orNull(within(instrumentRanges.lengthMm)),
    keys: orNull(whole(instrumentRanges.keys)),
    capo: fc.array(whole(instrumentRanges.capoSemitones), { maxLength: 3 }),
    linearDensityGramsPerMetre: orNull(within(instrumentRanges.linearDensityGramsPerMetre)),
    massGrams: orNull(within(instrumentRanges.massGrams)),
    cutLengthMm: orNull(within(instrumentRanges.cutLengthMm)),
    diameterMm: orNull(within(instrumentRanges.diameterMm)),
    material: orNull(label),
  })
  .map(({ hasFrequency, ...one }) => ({
    ...one,
    frequencyHz: hasFrequency || one.note === null ? one.frequencyHz : null,
    keys: one.role === "melody" ? one.keys : null,
  }));

/** Any instrument that a file can give. */
export const anyInstrument: fc.Arbitrary<Instrument> = fc
  .record({
    name: label,
    a4Hz: within(instrumentRanges.a4Hz),
    temperament: fc.constantFrom(...temperaments),
    tonic: fc.constantFrom(null, "C", "F#", "Bb"),
    drones: fc.constantFrom("pure" as const, "tempered" as const),
    strings: fc.array(string, { minLength: 1, maxLength: 6 }),
  })
  .map((instrument) => {
    const { strings } = instrument;
    const isFirst = (name: string | null, i: number) => strings.findIndex((one) => one.name === name) === i;
    const names = nameStrings(
      strings.map(({ name, note }, i) => ({
        // A string without a note gets a name, which no other has.
        name: name !== null && isFirst(name, i) ? name : note === null ? `string ${i}, unnamed` : null,
        note: note ?? "",
      })),
    );
    return {
      ...instrument,
      temperament: instrument.tonic === null ? "equal" : instrument.temperament,
      strings: strings.map((one, i): InstrumentString => ({ ...one, name: names[i]! })),
    };
  });
