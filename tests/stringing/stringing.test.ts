import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { readInstrument } from "../../src/instrument/readInstrument.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { linearDensity } from "../../src/stringing/linearDensity.js";
import { otherInstrument } from "../../src/stringing/otherInstrument.js";
import { readStringing } from "../../src/stringing/readStringing.js";
import { findMaterial, stringMaterials } from "../../src/stringing/stringMaterials.js";
import { linearDensityForTension, stringTension } from "../../src/stringing/stringTension.js";
import { cents } from "../../src/units/cents.js";

describe("stringTension", () => {
  it("gives the worked examples of a textbook", () => {
    // Young & Freedman, University Physics (from memory): a string of 0.400 m and 3.00 g under 800 N sounds at 408.248 Hz.
    expect(stringTension(408.248, 400, 7.5)).toBeCloseTo(800, 2);
    // The same: 5.00 m, 40.0 g/m, 20 Hz needs 1600 N.
    expect(stringTension(20, 5000, 40)).toBeCloseTo(1600, 9);
  });

  it("rises by 1 % for 8.613 cents", () => {
    // f goes with the root of the tension: 1200 log2(sqrt(1.01)) (arithmetic).
    const higherHz = 200 * Math.sqrt(1.01);
    expect(cents(higherHz, 200)).toBeCloseTo(8.613, 3);
    expect(stringTension(higherHz, 345, 1) / stringTension(200, 345, 1)).toBeCloseTo(1.01, 12);
  });

  it("is undone by the linear density for a tension, and goes with the square of pitch and length", () => {
    const value = fc.double({ min: 0.1, max: 1000, noNaN: true });
    fc.assert(
      fc.property(value, value, value, (hz, mm, grams) => {
        const tension = stringTension(hz, mm, grams);
        expect(linearDensityForTension(tension, hz, mm)).toBeCloseTo(grams, 6);
        expect(stringTension(2 * hz, mm, grams) / tension).toBeCloseTo(4, 9);
        expect(stringTension(hz, 2 * mm, grams) / tension).toBeCloseTo(4, 9);
        expect(stringTension(hz, mm, 2 * grams) / tension).toBeCloseTo(2, 9);
      }),
    );
  });
});

const nothing = {
  linearDensityGramsPerMetre: null,
  massGrams: null,
  cutLengthMm: null,
  diameterMm: null,
  material: null,
};

describe("linearDensity", () => {
  it("takes what was weighed first, then the file, then the wire", () => {
    const all = {
      linearDensityGramsPerMetre: 2,
      massGrams: 0.62,
      cutLengthMm: 500,
      diameterMm: 1,
      material: "steel",
    };
    expect(linearDensity(all)).toEqual({ gramsPerMetre: expect.closeTo(1.24, 12), basis: "weighed" });
    expect(linearDensity({ ...all, massGrams: null })).toEqual({ gramsPerMetre: 2, basis: "given" });
    const wire = linearDensity({ ...nothing, diameterMm: 1, material: "Steel" });
    // 7850 kg/m3 over pi/4 mm2: 6.1654 g/m (arithmetic).
    expect(wire).toEqual({ gramsPerMetre: expect.closeTo(6.1654, 4), basis: "diameter" });
  });

  it("says what is lacking", () => {
    expect(linearDensity(nothing)).toBe("nothing-given");
    expect(linearDensity({ ...nothing, massGrams: 1 })).toBe("half-given");
    expect(linearDensity({ ...nothing, diameterMm: 1 })).toBe("half-given");
    expect(linearDensity({ ...nothing, diameterMm: 1, material: "spider silk" })).toBe("material-unknown");
  });
});

describe("stringMaterials", () => {
  it("has the strengths of the handbook's formula", () => {
    // Shigley, Mechanical Engineering Design (from memory): music wire 2211 / d^0.145 MPa; 0.4 mm gives 2525 MPa.
    expect(findMaterial("steel")!.breakingStressMpa(0.4)).toBeCloseTo(2525, 0);
    expect(findMaterial("steel")!.breakingStressMpa(1)).toBe(2211);
    // It names a source for each, and no strength where makes differ.
    expect(stringMaterials.every(({ source }) => source.length > 20)).toBe(true);
    expect(findMaterial("gut")!.breakingStressMpa(1)).toBeNull();
    expect(findMaterial("tin")).toBeUndefined();
  });
});

const instrument = readInstrument(`
name: invented
strings:
  - {name: top, role: melody, note: A4, lengthMm: 350, diameterMm: 0.4, material: steel}
  - {name: low, role: drone, note: A2, lengthMm: 420, linearDensityGramsPerMetre: 5, capo: [7, 12]}
  - {name: bare, role: drone, note: A2}
`);
const targets = stringTargets(instrument);

describe("readStringing", () => {
  const { strings, totalNewton, totalCount } = readStringing({ instrument, targets }, 60, null);

  it("gives tensions, and the share of what breaks the wire", () => {
    const [top, low, bare] = strings;
    // 440 Hz, 350 mm, 7850 kg/m3 * pi/4 * 0.16 mm2 = 0.98646 g/m: T = 4 L^2 f^2 mu = 93.578 N; stress 744.7 of 2525 MPa.
    expect(top.tensionNewton).toBeCloseTo(93.58, 2);
    expect(top.breakingShare).toBeCloseTo(744.7 / 2525.1, 4);
    // Stress goes with the square of the pitch: it would break at 440 / sqrt(share).
    expect(stringTension(top.breakingHz!, 350, top.density!.gramsPerMetre) / (Math.PI * 0.04)).toBeCloseTo(
      2525.1,
      0,
    );
    // A wound string hangs on a core that nobody gave.
    expect(low.breakingShare).toBeNull();
    expect(low.tensionNewton).toBeCloseTo(4 * 0.42 ** 2 * 110 ** 2 * 0.005, 9);
    expect(bare).toMatchObject({
      tensionNewton: null,
      densityLacking: "nothing-given",
      wantedGramsPerMetre: null,
    });
    expect(totalCount).toBe(2);
    expect(totalNewton).toBeCloseTo(top.tensionNewton! + low.tensionNewton!, 9);
    expect(stringTension(110, 420, low.wantedGramsPerMetre!)).toBeCloseTo(60, 9);
  });

  it("puts a capo where a stopped string has its tangent", () => {
    // Stopped-string geometry: the sounding length after n semitones is L * 2^(-n/12); 350 mm: 116.403 mm at n = 7, so 139.684 at 420.
    expect(strings[1].capo).toEqual([
      { semitones: 7, fromNutMm: expect.closeTo((116.403 * 420) / 350, 3) },
      { semitones: 12, fromNutMm: expect.closeTo(210, 9) },
    ]);
  });

  it("sets another scale and another note beside it", () => {
    const other = otherInstrument(instrument, { lengthMm: 385, notes: new Map([["low", "B2"]]) });
    const { against } = readStringing({ instrument, targets }, null, {
      instrument: other,
      targets: stringTargets(other),
    });
    const [top, low] = against!;
    // All lengths grow by a tenth; tension by its square; a whole tone up by 2^(4/12) more.
    expect(top.sameStringNewton! / strings[0].tensionNewton!).toBeCloseTo(1.21, 9);
    expect(top.sameTensionGramsPerMetre! * 1.21).toBeCloseTo(strings[0].density!.gramsPerMetre, 9);
    expect(low.there.lengthMm).toBeCloseTo(462, 9);
    expect(low.sameStringNewton! / strings[1].tensionNewton!).toBeCloseTo(1.21 * 2 ** (4 / 12), 6);
    // A string without a length has none there either.
    expect(against![2]).toMatchObject({
      name: "bare",
      sameStringNewton: null,
      sameTensionGramsPerMetre: null,
    });
  });

  it("says why another instrument can't be reckoned", () => {
    const code = (work: () => unknown) => {
      try {
        work();
        return null;
      } catch (error) {
        return error instanceof AnalysisError ? error.code : error;
      }
    };
    const change = { lengthMm: null, notes: new Map<string, string>() };
    expect(code(() => otherInstrument(instrument, { ...change, notes: new Map([["none", "A2"]]) }))).toBe(
      "string-unknown",
    );
    expect(code(() => otherInstrument(instrument, { ...change, notes: new Map([["low", "H2"]]) }))).toBe(
      "note-name-invalid",
    );
    expect(code(() => otherInstrument(instrument, { ...change, lengthMm: 3000 }))).toBe("value-out-of-range");
    const bare = { ...instrument, strings: [instrument.strings[2]] };
    expect(code(() => otherInstrument(bare, { ...change, lengthMm: 380 }))).toBe("length-unknown");
    expect(code(() => otherInstrument(bare, change))).toBeNull();
  });
});
