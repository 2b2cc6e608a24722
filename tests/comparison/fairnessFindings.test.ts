import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/audio/Finding.js";
import { fairnessFindings } from "../../src/comparison/fairnessFindings.js";
import type { TakeReading } from "../../src/reading/TakeReading.js";
import { takeOfStrings } from "./takeOfStrings.js";

function take(findings: readonly Finding[] = [], given: Partial<TakeReading> & { cents?: number } = {}) {
  const { cents = 0, ...rest } = given;
  return takeOfStrings(
    [
      { name: "G2", frequencyHz: 98, partialsDb: [-20, -26], deviationCents: cents },
      { name: "D4", frequencyHz: 293, partialsDb: [-20, -26], deviationCents: -cents / 2 },
    ],
    { findings, ...rest },
  );
}
const found = (a: TakeReading[], b: TakeReading[], common = [["G2"], ["D4"]]) =>
  fairnessFindings(
    [
      { name: "A", takes: a },
      { name: "B", takes: b },
    ],
    common,
  );
const names = { sideA: "A", sideB: "B" };
const highPass = (cutoffHz: number): Finding => ({
  code: "high-pass",
  severity: "warning",
  values: { cutoffHz },
});
const bandLimit = (cutoffHz: number): Finding => ({
  code: "band-limit",
  severity: "info",
  values: { cutoffHz },
});
const noise = (noteToNoiseDb: number): Finding => ({
  code: "noise-floor",
  severity: "info",
  values: { noteToNoiseDb },
});

describe("fairnessFindings", () => {
  it("finds nothing where both sides were recorded alike", () => {
    const alike = [highPass(80), bandLimit(16_000), noise(40)];
    expect(found([take(alike), take(alike)], [take(alike, { cents: 4.9 })])).toEqual([]);
  });

  it("tells of sample rates", () => {
    expect(found([take(), take()], [take([], { sampleRateHz: 44_100 })])).toEqual([
      {
        code: "sample-rates-differ",
        severity: "info",
        values: { ...names, ratesA: "48000", ratesB: "44100" },
      },
    ]);
    // In another order they are the same rates.
    const [low, high] = [take([], { sampleRateHz: 44_100 }), take()];
    expect(found([low, high], [high, low])).toEqual([]);
  });

  it("tells of a low cut on one side, or of two far apart", () => {
    expect(found([take([highPass(80)])], [take()])).toEqual([
      { code: "low-cut-differs", severity: "warning", values: { ...names, cutoffHzA: 80 } },
    ]);
    expect(found([take()], [take(), take([highPass(80)])])).toEqual([
      { code: "low-cut-differs", severity: "warning", values: { ...names, cutoffHzB: 80 } },
    ]);
    // Our policy: 1.2 times.
    expect(found([take([highPass(80)])], [take([highPass(97)])])).toMatchObject([
      { code: "low-cut-differs" },
    ]);
    expect(found([take([highPass(80)])], [take([highPass(95)])])).toEqual([]);
  });

  it("tells of a low cut that more takes of one side have", () => {
    const cut = take([highPass(80)]);
    expect(found([cut, take(), take()], [cut, cut, cut])).toEqual([
      { code: "low-cut-differs", severity: "warning", values: { ...names, cutTakesA: 1, cutTakesB: 3 } },
    ]);
    // The same share of unlike counts is no difference.
    expect(found([cut, take()], [cut, cut, take(), take()])).toEqual([]);
  });

  it("tells of sides whose takes went through different lossy codecs", () => {
    const lossy = (codec: string) =>
      take([{ code: "lossy-codec", severity: "warning", values: { container: "MP4", codec } }]);
    const differ = (codecsA: string, codecsB: string) => [
      { code: "codecs-differ", severity: "warning", values: { ...names, codecsA, codecsB } },
    ];
    expect(found([lossy("AAC"), take()], [take()])).toEqual(differ("AAC and without loss", "without loss"));
    expect(found([lossy("AAC")], [lossy("MP3")])).toEqual(differ("AAC", "MP3"));
    expect(found([lossy("AAC")], [lossy("AAC"), lossy("AAC")])).toEqual([]);
  });

  it("tells of an upper limit on one side, or of two more than 10 % apart", () => {
    const code = "band-limit-differs";
    expect(found([take([bandLimit(16_000)]), take()], [take()])).toEqual([
      { code, severity: "warning", values: { ...names, cutoffHzA: 16_000 } },
    ]);
    expect(found([take()], [take([bandLimit(16_000)]), take([bandLimit(3400)])])).toEqual([
      { code, severity: "warning", values: { ...names, cutoffHzB: 3400 } },
    ]);
    expect(found([take([bandLimit(16_000)])], [take([bandLimit(17_650)])])).toEqual([
      { code, severity: "warning", values: { ...names, cutoffHzA: 16_000, cutoffHzB: 17_650 } },
    ]);
    expect(found([take([bandLimit(17_550)])], [take([bandLimit(16_000)])])).toEqual([]);
    // A dull take may not show the limit that it has.
    expect(found([take([bandLimit(16_000)]), take()], [take([bandLimit(16_000)])])).toEqual([]);
  });

  it("tells of noise more than 10 dB apart", () => {
    expect(found([take([noise(50)]), take([noise(40)])], [take([noise(34)])])).toEqual([
      {
        code: "noise-differs",
        severity: "warning",
        values: { ...names, noteToNoiseDbA: 45, noteToNoiseDbB: 34 },
      },
    ]);
    expect(found([take([noise(45)])], [take([noise(35)])])).toEqual([]);
    // Nothing is known of the noise of B.
    expect(found([take([noise(45)])], [take()])).toEqual([]);
  });

  it("counts takes with automatic gain and cut-off takes, side by side", () => {
    const gain: Finding = { code: "gain-control", severity: "warning", values: {} };
    const clipped: Finding = { code: "clipping", severity: "warning", values: {} };
    expect(found([take([gain]), take([gain, clipped]), take()], [take([clipped])])).toEqual([
      { code: "gain-control-used", severity: "warning", values: { side: "A", takeCount: 2 } },
      { code: "clipping-present", severity: "warning", values: { side: "A", takeCount: 1 } },
      { code: "clipping-present", severity: "warning", values: { side: "B", takeCount: 1 } },
    ]);
  });

  it("tells of strings tuned more than 5 cents apart, the farthest first, those that count only", () => {
    // G2 12 cents apart on average, D4 6.
    const [finding, ...more] = found([take([], { cents: 10 }), take([], { cents: 14 })], [take()]);
    expect(more).toEqual([]);
    expect(finding).toEqual({
      code: "tunings-differ",
      severity: "warning",
      values: { ...names, strings: "G2, D4", largestCents: 12, string: "G2" },
    });
    expect(found([take([], { cents: 8 })], [take()], [["D4"]])).toEqual([]);
  });
});
