import { describe, expect, it } from "vitest";
import { fitHarmonics } from "../../src/partials/fitHarmonics.js";
import { averageSpectrum } from "../../src/signal/averageSpectrum.js";
import { passageFindings, unsteadyFinding } from "../../src/strings/passageFindings.js";
import { bowedString } from "../../src/synthesis/bowedString.js";
import { addAt, NOTE_HZ, whiteNoise } from "../reading/bowedTake.js";

const RATE_HZ = 8000;
/** Level of 1/n partials up to 3 kHz with 0.1 for the first: 20 lg 0.1 plus 10 lg(pi^2 / 6). */
const TONE_DB = -20 + 2.16;

interface Sound {
  readonly seconds?: number;
  readonly lineHz?: number;
  /** Level of the line over that of the whole tone. */
  readonly lineDb?: number;
  readonly otherHz?: number | null;
  readonly humHz?: readonly number[];
  readonly amplitudes?: readonly number[];
}

/** Findings of a string on G3 with a steady line beside it. */
function findingsOf({
  seconds = 4,
  lineHz = 0,
  lineDb = -200,
  otherHz = null,
  humHz = [],
  amplitudes,
}: Sound) {
  const frequencyHz = NOTE_HZ.G3;
  const { samples } = bowedString({
    frequencyHz,
    durationSeconds: seconds,
    sampleRateHz: RATE_HZ,
    seed: 31,
    partialAmplitudes: amplitudes ?? Array.from({ length: 15 }, (_, n) => 0.1 / (n + 1)),
    swingCents: 1,
    jitterCents: 0.4,
  });
  addAt(samples, whiteNoise(samples.length, -80, 32), 0);
  const peak = 10 ** ((TONE_DB + lineDb) / 20);
  for (let i = 0; i < samples.length; i++)
    samples[i] += peak * Math.sin((2 * Math.PI * lineHz * i) / RATE_HZ);
  const segment = { samples, sampleRateHz: RATE_HZ, firstSeconds: 0 };
  const fit = fitHarmonics(segment, 0.2, seconds - 0.2, frequencyHz)!;
  return passageFindings(segment, averageSpectrum(samples, RATE_HZ, 4096), fit, 0.9, otherHz, humHz);
}

describe("passageFindings", () => {
  it("has nothing to say of a clean passage", () => {
    expect(findingsOf({})).toEqual([]);
  });

  it.each([
    // Warned of from 12 dB below the tone on, told from 26 dB on: 3 dB to either side of both.
    [-9, "several-strings", "warning"],
    [-15, "other-sound", "info"],
    [-23, "other-sound", "info"],
  ] as const)("tells of another line %d dB from the tone", (lineDb, code, severity) => {
    // A second method may find an octave below, into which both the line and the tone would fit; that is its own matter.
    const found = findingsOf({ lineHz: 271, lineDb }).filter((one) => one.code !== "octave-doubt");
    expect(found).toHaveLength(1);
    const [finding] = found;
    expect(finding).toMatchObject({ code, severity });
    // The line is found to one bin of 1.95 Hz, its level to that of its own main lobe.
    expect(Math.abs(Number(finding.values.frequencyHz) - 271)).toBeLessThan(2);
    expect(Math.abs(Number(finding.values.levelDb) - lineDb)).toBeLessThan(1);
  });

  it("leaves a line 29 dB below the tone alone", () => {
    expect(findingsOf({ lineHz: 271, lineDb: -29 })).toEqual([]);
  });

  it("does not take a line of mains hum for another string, but says where it meets a partial", () => {
    const codes = findingsOf({ lineHz: 150, lineDb: -9, humHz: [50, 100, 150] }).map(({ code }) => code);
    expect(codes).not.toContain("several-strings");
    expect(codes).not.toContain("other-sound");
    // The second partial of G3 lies at 391.995 Hz, 3 Hz further from 390 than the first from 198.5.
    const [finding] = findingsOf({ humHz: [198.5, 390] });
    expect(finding).toEqual({
      code: "hum-near-partial",
      severity: "info",
      values: { humHz: 198.5, partial: 1 },
    });
  });

  it("warns of a passage shorter than 2 s", () => {
    expect(findingsOf({ seconds: 2 })).toMatchObject([{ code: "short-passage", severity: "warning" }]);
    expect(findingsOf({ seconds: 2.6 })).toEqual([]);
  });

  it("hands on the doubt about the octave", () => {
    expect(findingsOf({ otherHz: 98 })).toMatchObject([
      { code: "octave-doubt", severity: "warning", values: { otherHz: 98 } },
    ]);
  });
});

describe("unsteadyFinding", () => {
  it("warns from 6 cents on, and has nothing to say of an unknown unsteadiness", () => {
    expect(unsteadyFinding(6)).toBeNull();
    expect(unsteadyFinding(null)).toBeNull();
    expect(unsteadyFinding(6.1)).toEqual({
      code: "unsteady",
      severity: "warning",
      values: { unsteadinessCents: 6.1 },
    });
  });
});
