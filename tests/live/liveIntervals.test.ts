import { describe, expect, it } from "vitest";
import { cents } from "../../src/units/cents.js";
import { bowedTake } from "../reading/bowedTake.js";
import { between, hear, RATE, soprano } from "./hearing.js";

const TAKES = 60;
/** If 95 % of the intervals held the truth, fewer than 52 of 60 would in one run of 200 (binomial). */
const LEAST_HELD = 52;

describe("the 95 % interval of a live reading", () => {
  it("holds the pitch that a longer take would show, in so many of sixty takes as 95 % asks for", () => {
    let held = 0;
    for (let k = 0; k < TAKES; k++) {
      const { name, targetHz } = soprano[k % 6];
      const take = bowedTake(
        [
          {
            frequencyHz: targetHz * 2 ** ((((k * 7) % 80) - 40) / 1200),
            durationSeconds: 4.2,
            swingCents: k % 4,
            swingRateHz: 0.9 + 0.25 * (k % 5),
            jitterCents: [0.1, 0.4, 0.8][k % 3],
          },
        ],
        { sampleRateHz: RATE, seed: 70_100 + k, noiseDb: -70, pauseSeconds: 0.5 },
      );
      const truth = cents(take.placed[0].string.pitch.underlyingHz, targetHz);
      // One reading a take, from windows of 1.5 to 3.5 s.
      const at = 2.5 + 0.5 * (k % 4);
      const [reading] = between(hear([take.samples]), at, at + 0.5);
      const string = reading.strings.find(({ status }) => status === "sounding");
      const interval = string?.interval95Cents ?? null;
      expect(interval, `${name} of take ${k}`).not.toBeNull();
      if (interval !== null && truth >= interval[0] && truth <= interval[1]) held++;
    }
    expect(held).toBeGreaterThanOrEqual(LEAST_HELD);
  });
});
