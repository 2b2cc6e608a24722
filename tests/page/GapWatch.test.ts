import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { GapWatch } from "../../cli/page/record/GapWatch.js";

const RATE_HZ = 48_000;
const tone = (frames: number) => Float32Array.from({ length: frames }, (_, i) => 0.1 * Math.sin(i / 7 + 0.3));

function count(...parts: readonly Float32Array[]): number {
  const watch = new GapWatch(RATE_HZ);
  for (const part of parts) watch.push(part);
  return watch.count;
}

describe("GapWatch", () => {
  it("counts sound that is missing, however it is cut into blocks", () => {
    const whole = new Float32Array(5000);
    whole.set(tone(1000));
    whole.set(tone(1000), 1480);
    whole.set(tone(1500), 3500);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 4999 }), { maxLength: 20 }), (cuts) => {
        const places = [0, ...cuts.sort((a, b) => a - b), whole.length];
        const parts = places.slice(1).map((end, i) => whole.subarray(places[i]!, end));
        expect(count(...parts)).toBe(2);
      }),
    );
  });

  it("takes neither a beginning nor a pause for a gap, nor a value of nothing here and there", () => {
    expect(count(new Float32Array(RATE_HZ), tone(1000), new Float32Array(RATE_HZ), tone(1000))).toBe(0);
    const crossing = tone(3000).map((value, i) => (i % 50 < 20 ? 0 : value));
    expect(count(crossing)).toBe(0);
    // Digital silence after something faint: a gate, as browsers have for speech.
    expect(
      count(
        tone(1000).map((value) => value / 1000),
        new Float32Array(2000),
        tone(1000),
      ),
    ).toBe(0);
  });
});
