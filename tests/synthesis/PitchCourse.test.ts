import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { PitchCourse } from "../../src/synthesis/PitchCourse.js";

describe("PitchCourse", () => {
  // 100 samples a second; the phase goes at 3 cycles a second for one second, then at 5.
  const phases = Float64Array.from({ length: 201 }, (_, i) => (i <= 100 ? 0.03 * i : 3 + 0.05 * (i - 100)));
  const course = new PitchCourse(4, 100, phases);

  it("gives phase gone through over time", () => {
    expect(course.meanHz(0, 1)).toBeCloseTo(3, 12);
    expect(course.meanHz(1, 2)).toBeCloseTo(5, 12);
    expect(course.meanHz(0, 2)).toBeCloseTo(4, 12);
    expect(course.meanHz(0.5, 1.5)).toBeCloseTo(4, 12);
  });

  it("and between samples too", () => {
    expect(course.meanHz(0.0033, 0.0071)).toBeCloseTo(3, 9);
    expect(course.meanHz(0.997, 1.003)).toBeCloseTo(4, 9);
  });

  it("means over neighbouring stretches join to the mean over both", () => {
    const place = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(place, place, place, (x, y, z) => {
        const [a, b, c] = [0.6 * x, 0.7 + 0.6 * y, 1.4 + 0.6 * z];
        const joined = (course.meanHz(a, b) * (b - a) + course.meanHz(b, c) * (c - b)) / (c - a);
        expect(joined).toBeCloseTo(course.meanHz(a, c), 10); // double rounding
      }),
    );
  });
});
