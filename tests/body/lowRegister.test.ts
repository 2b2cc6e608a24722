import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { octaveBands, thirdOctaveBands } from "../../src/body/bandEdges.js";
import { bandLevelDb, lowRegister, type PartialEnergy } from "../../src/body/lowRegister.js";

/** The ideal bowed string: amplitude 1/n, power 1/n^2. */
const oneOverN = (frequencyHz: number, count: number): PartialEnergy[] =>
  Array.from({ length: count }, (_, index) => ({
    frequencyHz: (index + 1) * frequencyHz,
    power: 1 / (index + 1) ** 2,
  }));

const power = (levelDb: number | null) => (levelDb === null ? 0 : 10 ** (levelDb / 10));

const C2 = 65.4064;

describe("lowRegister", () => {
  it("is the energy below 177.8 Hz over that from there to 2818.4 Hz", () => {
    // 1/n on C2: partials 1 and 2 lie below, 3 to 43 above.
    let rest = 0;
    for (let n = 3; n <= 43; n++) rest += 1 / n ** 2;
    expect(lowRegister(oneOverN(C2, 60)).lowRegisterDb).toBeCloseTo(10 * Math.log10(1.25 / rest), 10);
  });

  it("moves by 3 dB when everything below 177.8 Hz does", () => {
    const plain = oneOverN(C2, 43);
    const raised = plain.map(({ frequencyHz, power: before }) => ({
      frequencyHz,
      power: frequencyHz < 177.828 ? before * 10 ** 0.3 : before,
    }));
    const before = lowRegister(plain);
    const after = lowRegister(raised);
    expect(after.lowRegisterDb! - before.lowRegisterDb!).toBeCloseTo(3, 10);
    // Over the total it moves by 0.5276 dB only (arithmetic, 43 partials: 3.0103 or rather 10 lg(1.99526 * 1.62194 /
    // 2.86602)): the reason for taking the ratio to the rest.
    const overTotal = ({ octaveBandsDb }: typeof before) =>
      10 * Math.log10(power(octaveBandsDb["63"]) + power(octaveBandsDb["125"]));
    expect(overTotal(after) - overTotal(before)).toBeCloseTo(0.5276, 4);
  });

  it("has its power-weighted centroid at 2.253992 f0 for 20 partials at 1/n", () => {
    // Arithmetic: sum n / n^2 over sum 1 / n^2 = 3.597740 / 1.596163. All of it in 44.7 to 2818.4 Hz for these f0.
    for (const f0 of [50, C2, 110, 140]) {
      expect(lowRegister(oneOverN(f0, 20)).centroidHz! / f0).toBeCloseTo(2.253992, 6);
    }
  });

  it("leaves out what lies beyond 44.7 to 2818.4 Hz", () => {
    const inside = oneOverN(140, 20);
    const outside = [
      { frequencyHz: 44.6, power: 100 },
      { frequencyHz: 2818.4, power: 100 },
      { frequencyHz: 5000, power: 100 },
    ];
    expect(lowRegister([...outside, ...inside])).toEqual(lowRegister(inside));
  });

  it("octave bands are relative to their sum", () => {
    const { octaveBandsDb } = lowRegister(oneOverN(C2, 43));
    // By hand for 1/n on C2: 63 Hz holds partial 1; 125 Hz partial 2; 250 Hz (to 354.8) partials 3 to 5.
    let total = 0;
    for (let n = 1; n <= 43; n++) total += 1 / n ** 2;
    expect(octaveBandsDb["63"]).toBeCloseTo(-10 * Math.log10(total), 10);
    expect(octaveBandsDb["125"]).toBeCloseTo(10 * Math.log10(0.25 / total), 10);
    expect(octaveBandsDb["250"]).toBeCloseTo(10 * Math.log10((1 / 9 + 1 / 16 + 1 / 25) / total), 10);
    const sum = Object.values(octaveBandsDb).reduce<number>((all, level) => all + power(level), 0);
    expect(sum).toBeCloseTo(1, 12);
  });

  it("says null for what can't be had", () => {
    const nothing = { lowRegisterDb: null, centroidHz: null };
    expect(lowRegister([])).toMatchObject(nothing);
    expect(Object.values(lowRegister([]).octaveBandsDb)).toEqual([null, null, null, null, null, null]);
    expect(lowRegister([{ frequencyHz: 100, power: 0 }])).toMatchObject(nothing);
    expect(lowRegister([{ frequencyHz: 30, power: 1 }])).toMatchObject(nothing);
    // G4 has no partial below 177.8 Hz; a lone low partial has none above.
    const high = lowRegister(oneOverN(391.9954, 7));
    expect(high.lowRegisterDb).toBeNull();
    expect(high.centroidHz).not.toBeNull();
    expect(high.octaveBandsDb["63"]).toBeNull();
    expect(lowRegister([{ frequencyHz: 100, power: 1 }]).lowRegisterDb).toBeNull();
  });

  it("puts a partial on an edge into the upper of the two bands, in every measure", () => {
    const edge = octaveBands[1].upperHz;
    const { octaveBandsDb, lowRegisterDb } = lowRegister([
      { frequencyHz: 100, power: 1 },
      { frequencyHz: edge, power: 1 },
    ]);
    expect(lowRegisterDb).not.toBeNull(); // toBeCloseTo(0) takes null for 0
    expect(lowRegisterDb).toBeCloseTo(0, 12);
    expect(octaveBandsDb["250"]).toBeCloseTo(10 * Math.log10(0.5), 12);
  });

  it("does not depend on gain or on the order of the partials", () => {
    const partial = fc.record({
      frequencyHz: fc.double({ min: 20, max: 4000, noNaN: true }),
      power: fc.double({ min: 0, max: 1, noNaN: true }).filter((value) => value === 0 || value > 1e-9),
    });
    fc.assert(
      fc.property(
        fc.array(partial, { maxLength: 30 }),
        fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
        (partials, gain) => {
          const plain = lowRegister(partials);
          const other = lowRegister(
            [...partials].reverse().map(({ frequencyHz, power: p }) => ({ frequencyHz, power: p * gain })),
          );
          const same = (a: number | null, b: number | null) => {
            expect(a === null).toBe(b === null);
            if (a !== null) expect(b).toBeCloseTo(a, 6); // rounding of sums over nine decades of power
          };
          same(plain.lowRegisterDb, other.lowRegisterDb);
          same(plain.centroidHz, other.centroidHz);
          for (const key of Object.keys(plain.octaveBandsDb))
            same(plain.octaveBandsDb[key], other.octaveBandsDb[key]);
        },
      ),
    );
  });
});

describe("bandLevelDb", () => {
  it("gives third-octave levels that sum to the whole", () => {
    const partials = oneOverN(C2, 43);
    const levels = thirdOctaveBands.map((band) => bandLevelDb(partials, band));
    expect(levels.reduce<number>((sum, level) => sum + power(level), 0)).toBeCloseTo(1, 12);
    expect(levels[0]).toBeNull(); // 44.7 to 56.2 Hz: below the fundamental
    expect(levels[1]).toBeCloseTo(lowRegister(partials).octaveBandsDb["63"]!, 12); // only partial 1 in either
  });
});
