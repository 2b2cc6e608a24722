import { describe, expect, it } from "vitest";
import { joinTakes } from "../../src/reading/joinTakes.js";
import type { TakeReading } from "../../src/reading/TakeReading.js";
import { handMadeString, handMadeTake } from "../report/handMade.js";

function takeOff(deviationCents: number): TakeReading {
  return handMadeTake({ strings: [handMadeString({ deviationCents, interval95Cents: [0, 1] })] });
}

describe("joinTakes", () => {
  it("gives mean, spread and Student's interval over takes", () => {
    // Student 1908, additional hours of sleep, drug A (data from memory): mean 0.75, sd 1.789010. With t(0.975, 9) = 2.262157
    // (tables): 0.75 -+ 2.262157 * 1.789010 / sqrt(10) = -0.529780 and 2.029780.
    const hours = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];
    const string = joinTakes(hours.map(takeOff)).strings[0]!;
    expect(string.deviationCents.takeCount).toBe(10);
    // Data and table are given to 6 digits: hence 5 places.
    expect(string.deviationCents.mean).toBeCloseTo(0.75, 5);
    expect(string.deviationCents.spread).toBeCloseTo(1.78901, 5);
    expect(string.interval95Cents?.[0]).toBeCloseTo(-0.52978, 5);
    expect(string.interval95Cents?.[1]).toBeCloseTo(2.02978, 5);
    expect(string.intervalBasis).toBe("between-takes");
  });

  it("keeps the one take's own interval where there is one take", () => {
    const string = joinTakes([takeOff(0.5)]).strings[0]!;
    expect(string.interval95Cents).toEqual([0, 1]);
    expect(string.intervalBasis).toBe("within-take");
    expect(string.deviationCents.spread).toBeNull();
  });

  it("counts only takes in which the string was measured, and each once", () => {
    const unresolved = handMadeTake({
      strings: [handMadeString({ status: "unresolved", deviationCents: 90 })],
    });
    const twice = handMadeTake({
      strings: [handMadeString({ deviationCents: 1 }), handMadeString({ deviationCents: 3 })],
    });
    const string = joinTakes([takeOff(4), unresolved, twice]).strings[0]!;
    expect(string.deviationCents.takeCount).toBe(2);
    expect(string.deviationCents.mean).toBe(3);
  });

  it("parts what differs from take to take from what differs within one, where a string was played again", () => {
    const passage = handMadeString().perPassage[0]!;
    const again = (...cents: readonly number[]) =>
      handMadeTake({
        strings: [
          handMadeString({ perPassage: cents.map((deviationCents) => ({ ...passage, deviationCents })) }),
        ],
      });
    // By hand: means 0, 4, 8 of two passages each, 1 to either side. Squares within 3 * 2 = 6 over 3: 2; between 2 * (16 + 16) = 64
    // over 2: 32; (32 - 2) / 2 = 15.
    const { pitchComponents } = joinTakes([again(-1, 1), again(3, 5), again(7, 9)]).strings[0]!;
    expect(pitchComponents?.within).toBeCloseTo(Math.sqrt(2), 9);
    expect(pitchComponents?.between).toBeCloseTo(Math.sqrt(15), 9);
    expect(joinTakes([takeOff(1), takeOff(2)]).strings[0]!.pitchComponents).toBeNull();
  });

  it("has null, not zero, for a string that no take measured", () => {
    const silent = handMadeString({ status: "not-heard", deviationCents: null, lowRegisterDb: null });
    const { strings, lowRegisterDb } = joinTakes([handMadeTake({ strings: [silent], lowRegister: null })]);
    expect(strings[0]?.deviationCents).toEqual({ takeCount: 0, mean: null, spread: null, interval95: null });
    expect(strings[0]?.interval95Cents).toBeNull();
    expect(lowRegisterDb.mean).toBeNull();
  });

  it("joins strings of different takes by name, in the order first met", () => {
    const other = handMadeTake({ strings: [handMadeString({ name: "G2" }), handMadeString()] });
    expect(joinTakes([takeOff(1), other]).strings.map((string) => string.name)).toEqual(["C2", "G2"]);
  });
});

describe("joinTakes with an anchor", () => {
  const take = (ownErrorCents: number, anchor: string | null) =>
    handMadeTake({
      strings: [handMadeString({ ownErrorCents, ownErrorInterval95Cents: anchor === null ? null : [1, 4] })],
      referencePitch: { a4Hz: 438, offsetCents: -7, interval95Cents: null, anchor },
    });

  it("joins own errors only over the takes in which they are counted from it", () => {
    const [string] = joinTakes([take(2, "G2"), take(3, "G2"), take(40, null)]).strings;
    expect(string!.ownErrorCents).toMatchObject({ takeCount: 2, mean: 2.5 });
    // Two values 1 apart: sd 0.7071, t(1) = 12.706, half width 12.706 * 0.7071 / sqrt 2 = 6.353.
    expect(string!.ownErrorInterval95Cents?.[1]).toBeCloseTo(2.5 + 6.353, 3);
    expect(string!.deviationCents.takeCount).toBe(3);
  });

  it("keeps the interval of the only such take, and has nothing without one", () => {
    const [one] = joinTakes([take(2, "G2"), take(40, null)]).strings;
    expect(one).toMatchObject({ ownErrorCents: { mean: 2, spread: null }, ownErrorInterval95Cents: [1, 4] });
    const [none] = joinTakes([take(40, null)]).strings;
    expect(none).toMatchObject({
      ownErrorCents: { takeCount: 0, mean: null },
      ownErrorInterval95Cents: null,
    });
  });
});
