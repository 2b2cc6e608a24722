import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { thirdOctaveBands } from "../../src/body/bandEdges.js";
import { keyLadder } from "../../src/keyboard/keyLadder.js";
import { readKeyboard } from "../../src/keyboard/readKeyboard.js";
import { type BodyResonance, bodyAmplitudes } from "../../src/synthesis/bodyAmplitudes.js";
import { scaleTake } from "./scaleTake.js";

const KEYS = 20;
const BODY: readonly BodyResonance[] = [
  { frequencyHz: 310, q: 8, gainDb: 9 },
  { frequencyHz: 900, q: 6, gainDb: -8 },
];
const ladderCents = keyLadder("equal", 7, KEYS);
const read = (drones: readonly { frequencyHz: number; strength: number }[]) => {
  const take = scaleTake({
    openHz: 196,
    played: Array.from({ length: KEYS + 1 }, (_, key) => ({ key, seconds: 0.7 })),
    centsOfKey: (key) => ladderCents[key],
    seed: 31,
    swingCents: 1,
    swingRateHz: 1.4,
    jitterCents: 0.3,
    body: BODY,
    drones,
  });
  return readKeyboard(memoryRecording([take.samples], take.sampleRateHz), {
    string: "G3",
    openTargetHz: 196,
    ladderCents,
    lengthMm: null,
    drones: drones.map(({ frequencyHz }, i) => ({ name: `drone ${i}`, frequencyHz })),
  });
};

/** The body put in, averaged over each band (power of partial 1 with an amplitude of 1 at 64 places of it). */
function truthDb(): number[] {
  const levels = thirdOctaveBands.map(({ lowerHz, upperHz }) => {
    const places = Array.from({ length: 64 }, (_, i) => lowerHz * (upperHz / lowerHz) ** ((i + 0.5) / 64));
    return places.reduce((sum, hz) => sum + 20 * Math.log10(bodyAmplitudes(hz, 1, 1, BODY)[0]), 0) / 64;
  });
  const middle = levels
    .filter((_, i) => thirdOctaveBands[i].midbandHz > 355 && thirdOctaveBands[i].midbandHz < 1413)
    .sort((a, b) => a - b);
  const median = (middle[2] + middle[3]) / 2;
  return levels.map((level) => level - median);
}

describe("the body as the keys of a scale show it", () => {
  it("is the curve that was put in, within its own interval", () => {
    const { body } = read([]);
    expect(body?.status).toBe("fitted");
    if (body?.status !== "fitted") return;
    const truth = truthDb();
    const known = body.points.flatMap((point, i) =>
      point.levelDb === null ? [] : [{ ...point, truth: truth[i] }],
    );
    // From the open string's 196 Hz to 2.8 kHz: twelve bands and what the partials of high keys leave of them.
    expect(known.length).toBeGreaterThanOrEqual(11);
    expect(known.every(({ frequencyHz }) => frequencyHz > 178)).toBe(true);
    const held = known.filter(
      ({ interval95Db, truth: t }) => interval95Db !== null && t >= interval95Db[0] && t <= interval95Db[1],
    );
    // 95 % intervals: of a dozen bands one may miss.
    expect(held.length).toBeGreaterThanOrEqual(known.length - 1);
    const rms = Math.sqrt(
      known.reduce((sum, { levelDb, truth: t }) => sum + (levelDb! - t) ** 2, 0) / known.length,
    );
    // Body curves of few strings are within 1.3 to 1.6 dB (tests/proof/bodyCurveCoverage); twenty keys show more.
    expect(rms).toBeLessThan(1.3);
  });

  it("is not claimed where drones were taken out, nor of no note", () => {
    expect(read([{ frequencyHz: 65.4, strength: 0.1 }]).body).toBeNull();
    const silence = memoryRecording(
      [Float32Array.from({ length: 32_000 }, (_, i) => 1e-5 * Math.sin(i))],
      16_000,
    );
    expect(
      readKeyboard(silence, { string: "G3", openTargetHz: 196, ladderCents, lengthMm: null }).body,
    ).toBeNull();
  });
});
