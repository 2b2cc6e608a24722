import { describe, expect, it } from "vitest";
import { thirdOctaveBands } from "../../src/body/bandEdges.js";
import type { BodyCurve } from "../../src/body/bodyCurve.js";
import type { TapReading } from "../../src/tap/TapReading.js";
import { tapAndBow } from "../../src/tap/tapAndBow.js";

/** Levels of 3 dB at the bands named, on a slope; null at those that are missing. */
function levels(
  peaks: readonly number[],
  slopeDb: number,
  missing: readonly number[] = [],
): (number | null)[] {
  return thirdOctaveBands.map(({ nominalHz }, b) =>
    missing.includes(nominalHz) ? null : slopeDb * b + (peaks.includes(nominalHz) ? 3 : 0),
  );
}

function tapped(values: readonly (number | null)[]): TapReading {
  return {
    sampleRateHz: 48000,
    channelCount: 1,
    durationSeconds: 10,
    taps: [],
    modes: [],
    leftOut: [],
    response: thirdOctaveBands.map(({ midbandHz }, b) => ({
      frequencyHz: midbandHz,
      levelDb: values[b]!,
      interval95Db: null,
    })),
    explainedShare: 1,
    roomDb: null,
    peakToNoiseDb: 50,
    findings: [],
  };
}

function bowed(values: readonly (number | null)[]): BodyCurve {
  return {
    status: "fitted",
    points: thirdOctaveBands.map(({ midbandHz }, b) => ({
      frequencyHz: midbandHz,
      levelDb: values[b]!,
      interval95Db: null,
      partialCount: 1,
    })),
    scatterDb: 1,
    lowReach: null,
  };
}

describe("tapAndBow", () => {
  it("parts peaks of both from those of one, whatever the slopes and gaps", () => {
    const { bands, lacking } = tapAndBow(
      tapped(levels([100, 400, 1600], -2, [63])),
      bowed(levels([100, 400, 800], 1, [500])),
    );
    expect(lacking).toBeNull();
    const peaks = thirdOctaveBands.flatMap(({ nominalHz }, b) =>
      bands[b]!.peak === null ? [] : [[nominalHz, bands[b]!.peak]],
    );
    expect(peaks).toEqual([
      [100, "both"],
      [400, "both"],
      [800, "bowed"],
      [1600, "tapped"],
    ]);
  });

  it("calls it unclear where the other can't say: no value, none beside it, a wide range", () => {
    const curve = bowed(levels([100, 1000, 2500], 0, [250]));
    if (curve.status !== "fitted") throw new Error("not fitted");
    const wide = curve.points.map((point) =>
      point.frequencyHz > 500 && point.frequencyHz < 800
        ? { ...point, interval95Db: [point.levelDb! - 5, point.levelDb! + 5] as const }
        : point,
    );
    const { bands } = tapAndBow(tapped(levels([250, 630, 2000], 0, [50, 63, 100])), {
      ...curve,
      points: wide,
    });
    const peakAt = (hz: number) =>
      bands[thirdOctaveBands.findIndex(({ nominalHz }) => nominalHz === hz)]!.peak;
    expect([100, 250, 630, 1000, 2000].map(peakAt)).toEqual([
      "unclear",
      "unclear",
      "unclear",
      "bowed",
      "tapped",
    ]);
    // The last band has no neighbour above, so a rise there is no peak for either.
    expect(peakAt(2500)).toBeNull();
  });

  it("says why there is nothing to lay over each other", () => {
    const curve = bowed(levels([], 0));
    expect(tapAndBow(tapped(levels([], 0).map(() => null)), curve).lacking).toBe("no-response");
    const refused: BodyCurve = { status: "refused", reason: "too-few-partials", groups: [] };
    expect(tapAndBow(tapped(levels([], 0)), refused)).toEqual({ bands: [], lacking: "no-body-curve" });
    expect(tapAndBow(tapped(levels([], 0)), null).lacking).toBe("no-body-curve");
  });
});
