import { describe, expect, it } from "vitest";
import { sympatheticDocument } from "../../src/report/sympatheticDocument.js";
import { sympatheticText } from "../../src/report/sympatheticText.js";
import { sympatheticWordings } from "../../src/report/sympatheticWordings.js";
import type { SympatheticReading, SympatheticString } from "../../src/sympathetic/SympatheticReading.js";
import { sympatheticDocumentSchema } from "../../src/sympathetic/sympatheticDocumentSchema.js";

const pluck = {
  onsetSeconds: 1,
  startSeconds: 1.01,
  endSeconds: 2,
  frequencyHz: 392,
  deviationCents: 0.05,
  inharmonicity: 2e-4,
  inharmonicityDeviation: 1e-6,
  decaySeconds: 3,
  decayDeviationSeconds: 0.02,
  glideCents: 1.2,
  glideDeviationCents: 0.1,
  splitHz: null,
  partialCount: 6,
  levelDb: -20.4,
};

function string(name: string, deviationCents: number | null, answerCents = 1.6): SympatheticString {
  const isHeard = deviationCents !== null;
  const or = <T>(value: T) => (isHeard ? value : null);
  return {
    name,
    role: "sympathetic",
    note: "G4",
    targetHz: 391.995,
    status: isHeard ? "measured" : "not-heard",
    frequencyHz: or(391.995 * 2 ** ((deviationCents ?? 0) / 1200)),
    deviationCents,
    interval95Cents: or([(deviationCents ?? 0) - 0.2, (deviationCents ?? 0) + 0.2] as const),
    inharmonicity: or(2e-4),
    inharmonicityInterval95: or([1.9e-4, 2.1e-4] as const),
    octaveStretchCents: or(0.52),
    decaySeconds: or(3),
    decayInterval95Seconds: or([2.9, 3.1] as const),
    answerCents: or(answerCents),
    levelDb: or(-20.4),
    spreadCents: null,
    plucks: isHeard ? [pluck] : [],
    findings: [],
  };
}

const documentOf = (strings: readonly SympatheticString[], rest: Partial<SympatheticReading> = {}) =>
  sympatheticDocument({
    toolVersion: "0.1.0",
    instrument: "Bench",
    settings: { a4Hz: 440, tonic: null, temperament: "equal", tuning: null, capo: {}, order: null },
    file: "plucks.wav",
    reading: {
      sampleRateHz: 48000,
      channelCount: 1,
      durationSeconds: 9,
      strings,
      strays: [],
      pluckSpreadCents: null,
      findings: [],
      ...rest,
    },
  });
const textOf = (document: ReturnType<typeof documentOf>) =>
  sympatheticText(document, { colour: false, width: 80 });

describe("the sheet of plucked strings", () => {
  it("says first which string to move, which way and how far", () => {
    const document = documentOf([string("a", -12.34), string("b", 7.6), string("c", 0.1), string("d", null)]);
    const text = textOf(document);
    expect(text.indexOf("In short")).toBeLessThan(text.indexOf("Strings"));
    expect(text.replace(/\n */g, " ")).toContain(
      "Tune up: a by 12 cents. Raise in small steps: a string brought up too far snaps.",
    );
    expect(text).toContain("Tune down: b by 8 cents.");
    expect(text).toContain("Leave c.");
    expect(text).toContain("Not heard: d.");
    expect(text).toMatch(/ {2}a +392\.00 +389\.21 +-12\.3 +-12\.6 to -12\.1 +1 {2}tune up/);
    expect(text).toMatch(/ {2}d +392\.00 +- +- +- +not heard/);
    expect(sympatheticDocumentSchema.parse(document)).toEqual(document);
  });

  it("leaves a string that is off by less than it answers over, or not surely off", () => {
    expect(documentOf([string("a", 3, 4)]).inShort).toEqual(["Leave a."]);
    // Never coarser than 5 cents, however fast it fades.
    expect(documentOf([string("a", 6, 30)]).inShort[0]).toContain("Tune down: a by 6 cents.");
    const unsure = { ...string("a", 3), interval95Cents: [-1, 7] as const };
    expect(documentOf([unsure]).inShort).toEqual(["Leave a."]);
  });

  it("is careful with a string far off", () => {
    const [first] = documentOf([string("a", -140)]).inShort;
    expect(first).toMatch(/^a is far off: up by about 140 cents\..*small steps.*snaps\. Protect your eyes/);
  });

  it("keeps to 80 columns, whatever the names", () => {
    const long = "the string with the longest name that anyone could think of";
    const text = textOf(documentOf([string(long, -12.3), string("b", null)]));
    for (const line of text.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("words every finding, with and without its values", () => {
    for (const [code, wordings] of Object.entries(sympatheticWordings)) {
      const finding = {
        code: code as keyof typeof sympatheticWordings,
        severity: "info" as const,
        values: {},
      };
      const { findings } = documentOf([], { findings: [finding] });
      expect(findings[0]!.message).not.toMatch(/^Found:|[{}]/);
      expect(wordings.at(-1)!.text).not.toContain("{");
    }
    const { findings } = documentOf([], {
      findings: [
        {
          code: "plucks-not-placed",
          severity: "warning",
          values: { startSeconds: 2.04, frequencyHz: 523.2, note: "C5", deviationCents: -0.2 },
        },
      ],
    });
    expect(findings[0]!.message).toContain("The pluck at 2.0 s is none of these strings: 523.20 Hz");
  });
});
