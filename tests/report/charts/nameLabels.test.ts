import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nameLabels } from "../../../src/report/charts/nameLabels.js";

describe("names written at heights of a drawing", () => {
  it("puts strings of one note on one line", () => {
    const places = [
      { name: "C2", pixels: 200 },
      { name: "G4", pixels: 40 },
      { name: "G4 2", pixels: 41 },
    ];
    expect(nameLabels(places, 20)).toEqual([
      { text: "G4, G4 2", pixels: 40 },
      { text: "C2", pixels: 200 },
    ]);
  });

  it("never lets two lines be nearer than 15 pixels, and loses no name that fits", () => {
    const places = fc.array(
      fc.record({ name: fc.stringMatching(/^[A-G][1-5]$/), pixels: fc.integer({ min: 0, max: 400 }) }),
    );
    fc.assert(
      fc.property(places, (given) => {
        const labels = nameLabels(given, 10_000);
        for (let i = 1; i < labels.length; i++) {
          expect(labels[i]!.pixels - labels[i - 1]!.pixels).toBeGreaterThanOrEqual(15);
        }
        const names = labels.flatMap(({ text }) => text.split(", "));
        expect(names.sort()).toEqual(given.map(({ name }) => name).sort());
      }),
    );
  });
});
