import { describe, expect, it } from "vitest";
import { tapDocument } from "../../src/report/tapDocument.js";
import { tapText } from "../../src/report/tapText.js";
import { tapWordings } from "../../src/report/tapWordings.js";
import type { ModeReading, TapFindingCode, TapReading } from "../../src/tap/TapReading.js";

function mode(frequencyHz: number, q: number, strengthDb: number): ModeReading {
  const around = (value: number, share: number) => ({
    value,
    interval95: [value * (1 - share), value * (1 + share)] as const,
    spread: value * share,
  });
  return {
    frequencyHz: around(frequencyHz, 0.001),
    q: around(q, 0.03),
    bandwidthHz: frequencyHz / q,
    decaySeconds: q / (Math.PI * frequencyHz),
    t60Seconds: around((6.9078 * q) / (Math.PI * frequencyHz), 0.03),
    strengthDb: { value: strengthDb, interval95: [strengthDb - 1, strengthDb + 1], spread: 1 },
    tapsFound: 4,
    isOverlapping: frequencyHz > 1000,
    byTap: [null, null, null, null],
    errors: { lnFrequency: 0.0005, lnQ: 0.015, strengthDb: 0.4 },
  };
}

function reading(modes: readonly ModeReading[], codes: readonly TapFindingCode[] = []): TapReading {
  return {
    sampleRateHz: 48000,
    channelCount: 1,
    durationSeconds: 6,
    taps: [1, 2, 3, 4].map((atSeconds) => ({ atSeconds, peakDb: -8, leftOut: null })),
    modes,
    leftOut: [],
    response: [],
    explainedShare: 0.99,
    roomDb: -31.2,
    peakToNoiseDb: 44,
    findings: codes.map((code) => ({ code, severity: "warning", values: {} })),
  };
}

function textOf(...readings: TapReading[]): string {
  const document = tapDocument({
    toolVersion: "0",
    takes: readings.map((one, i) => ({ file: `take ${i}.wav`, name: `body ${i}\u001b[2J`, reading: one })),
    failed: [],
    hasOther: readings.length > 1,
    bowed: null,
  });
  return tapText(document, { colour: false, width: 80 });
}

describe("tapText", () => {
  const modes = [mode(108.4, 14, -9), mode(214.9, 28, 0), mode(1295, 42, -12)];

  it("says the answer first, then each mode with its uncertainty", () => {
    const text = textOf(reading(modes));
    expect(text.replace(/\s+/g, " ")).toContain(
      "3 modes ring after 4 taps, strongest first: 214.9 Hz (A3 -41 cents, Q 28), 108.4 Hz (A2 -25 cents, Q 14), 1295.0 Hz",
    );
    expect(text).toMatch(/214\.9 +0\.3 +A3 +-41 +28\.0 +27\.2-28\.8 +0\.286 +0\.009 +0\.0 +1\.0 +4\/4\n/);
    expect(text).toMatch(/ 1295\.0\* /);
    expect(text).toContain("(common practice, no source)");
  });

  it("keeps names from moving the cursor, and lines within 80 columns", () => {
    const text = textOf(reading(modes), reading([mode(109.4, 14, -9), ...modes.slice(1)]));
    expect(text).not.toContain("\u001b");
    for (const line of text.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
    const flat = text.replace(/\s+/g, " ");
    expect(flat).toContain("1 differs in frequency beyond what is unsure: 108.4 against 109.4 Hz");
    expect(flat).toContain("were made without setting up anew");
  });

  it("has a sentence for every finding, without a gap", () => {
    const codes = Object.keys(tapWordings) as TapFindingCode[];
    const document = tapDocument({
      toolVersion: "0",
      takes: [{ file: "a.wav", name: "a", reading: reading([], codes) }],
      failed: [],
      hasOther: false,
      bowed: null,
    });
    const { findings } = document.takes[0]!;
    expect(findings).toHaveLength(codes.length);
    for (const { message } of findings) expect(message).toMatch(/^[A-Z][^{}]+\.$/);
    expect(document.inShort).toEqual(["No mode could be read; see the cautions below."]);
  });
});
