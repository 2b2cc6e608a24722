import { readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import { documentJson } from "../../src/report/documentJson.js";
import { trompetteDocument } from "../../src/report/trompetteDocument.js";
import { trompetteText } from "../../src/report/trompetteText.js";
import { trompetteWordings } from "../../src/report/trompetteWordings.js";
import type { StrokeReading, TrompetteReading } from "../../src/trompette/TrompetteReading.js";
import { trompetteDocumentSchema } from "../../src/trompette/trompetteDocumentSchema.js";
import { trompetteFindings } from "../../src/trompette/trompetteFindings.js";

const schema = new URL("../../src/trompette/trompetteDocument.schema.json", import.meta.url);
const validate = new Ajv2020({ allowUnionTypes: true }).compile(JSON.parse(readFileSync(schema, "utf8")));
const OPTIONS = { string: { name: "C4", frequencyHz: 261.626 }, others: [{ name: "G2", frequencyHz: 98 }] };

function stroke(onsetSeconds: number, strengthDb: number, isWeak = false): StrokeReading {
  return {
    onsetSeconds,
    withinSeconds: 0.005,
    isRough: false,
    strokeSeconds: onsetSeconds - 0.003,
    strokeWithinSeconds: 0.004,
    durationSeconds: 0.09,
    strengthDb,
    isWeak,
  };
}

const NONE: Omit<TrompetteReading, "findings"> = {
  durationSeconds: 9,
  sampleRateHz: 44_100,
  channelCount: 1,
  string: "C4",
  targetHz: 261.626,
  sounding: [],
  state: "none",
  doubt: null,
  band: [1000, 12_000],
  soundingSeconds: 8,
  silentSeconds: 8,
  strokes: [],
  strengthAgainst: "own-tone",
  strengthDb: null,
  strengthSpreadDb: null,
  durationMeanSeconds: null,
  strokesPerSecond: null,
  timingSpreadSeconds: null,
  missedSeconds: [],
  turnsPerSecond: null,
  turnsInterval95: null,
  turnsBasis: null,
  turnRefusal: "no-strokes",
  strokesPerTurn: null,
  silentPitch: { frequencyHz: 262.08, deviationCents: 3, interval95Cents: [-0.3, 0.3] },
  buzzingPitch: null,
  differenceCents: null,
  pitchRefusal: null,
  possibleSeconds: [],
  otherSounds: [],
  upperShareDb: -12,
};

const BUZZING: Omit<TrompetteReading, "findings"> = {
  ...NONE,
  state: "strokes",
  strokes: [stroke(5, -6), stroke(5.18, -7), stroke(5.36, -14, true), stroke(5.72, -6)],
  strengthDb: { mean: -8.25, interval95: [-12, -4.4] },
  strengthSpreadDb: { standardDeviation: 3.9, interval95: [2.2, 14.4] },
  durationMeanSeconds: { mean: 0.09, interval95: [0.088, 0.092] },
  strokesPerSecond: 5.556,
  timingSpreadSeconds: { standardDeviation: 0.003, interval95: [0.002, 0.006] },
  missedSeconds: [5.54],
  turnsPerSecond: 1.39,
  turnsInterval95: [1.37, 1.41],
  turnsBasis: "silent-part",
  turnRefusal: null,
  strokesPerTurn: 4,
  buzzingPitch: { frequencyHz: 261.3, deviationCents: -2.16, interval95Cents: [-1, 1] },
  differenceCents: { mean: -5.16, interval95: [-6.1, -4.2] },
};

function documentOf(fields: Omit<TrompetteReading, "findings">) {
  return trompetteDocument({
    toolVersion: "0.0.0-test",
    instrument: "soprano",
    settings: {
      a4Hz: 440,
      tonic: null,
      temperament: "equal",
      tuning: "soprano",
      capo: {},
      turnsPerSecond: null,
    },
    file: "strokes\u001b.wav",
    reading: { ...fields, findings: trompetteFindings(fields, OPTIONS) },
  });
}

const textOf = (fields: Omit<TrompetteReading, "findings">, width = 80) =>
  trompetteText(documentOf(fields), { colour: false, width });
const flat = (text: string) => text.replace(/\s+/g, " ");

const cases: Readonly<Record<string, Omit<TrompetteReading, "findings">>> = {
  none: NONE,
  strokes: BUZZING,
  continuous: { ...NONE, state: "continuous", upperShareDb: 1.5 },
  few: { ...NONE, state: "unclear", doubt: "few", possibleSeconds: [4.1] },
  "no-pace": { ...NONE, state: "unclear", doubt: "no-pace", possibleSeconds: [4.1, 4.9, 5.2] },
  notes: { ...NONE, state: "unclear", doubt: "notes", possibleSeconds: [4.1, 4.9, 5.2] },
  knocks: { ...NONE, state: "unclear", doubt: "knocks", possibleSeconds: [4.1, 4.9, 5.2] },
  stray: {
    ...NONE,
    otherSounds: [
      { seconds: 3, reason: "note" },
      { seconds: 4.1, reason: "alone" },
      { seconds: 4.6, reason: "note" },
      { seconds: 5, reason: "note" },
    ],
  },
  about: {
    ...BUZZING,
    strokes: [
      stroke(5, -6),
      { ...stroke(5.1837, -14), withinSeconds: 0.01432, isRough: true },
      stroke(5.36, -7),
    ],
  },
  silent: { ...NONE, soundingSeconds: 0, silentSeconds: 0, band: null, silentPitch: null },
  dull: { ...BUZZING, band: [1000, 3680] },
  along: {
    ...BUZZING,
    sounding: ["C3"],
    strengthAgainst: "all-strings",
    silentPitch: null,
    buzzingPitch: null,
    differenceCents: null,
    pitchRefusal: "shared-partials",
    otherSounds: [{ seconds: 3, reason: "knock" }],
    turnsPerSecond: null,
    turnsInterval95: null,
    turnsBasis: null,
    turnRefusal: "no-silence",
    strokesPerTurn: null,
  },
};

describe("trompetteDocument", () => {
  it("follows its schema", () => {
    for (const fields of Object.values(cases)) {
      const back = JSON.parse(documentJson(documentOf(fields)));
      validate(back);
      expect(validate.errors).toBeNull();
      expect(trompetteDocumentSchema.strict().parse(back)).toEqual(back);
    }
  });
});

describe("trompetteText", () => {
  it("keeps to its width, says the answer first, and fills every template", () => {
    for (const fields of Object.values(cases)) {
      for (const width of [60, 80, 100]) {
        const text = textOf(fields, width);
        for (const line of text.split("\n")) expect(line.length).toBeLessThanOrEqual(width);
        expect(text).not.toContain("\u001b");
        // The first line names the file, whose control character is spelt out.
        expect(text.split("\n").slice(1).join(" ")).not.toMatch(/[{}]|NaN|undefined|Infinity/);
        expect(text.indexOf("In short")).toBeLessThan(text.indexOf("Caution"));
      }
    }
  });

  it("tells strokes, strength, evenness and pitch with their intervals", () => {
    const said = flat(textOf(BUZZING));
    expect(said).toContain("C4 buzzes: 4 strokes, 5.6 a second, 4.0 a turn of the wheel");
    expect(said).toContain(
      "the buzz is 8.3 dB weaker than the drone's own tone (95 % sure between -12.0 and -4.4 dB)",
    );
    expect(said).toContain("evenly to within 3 ms");
    expect(said).toContain("1 due but not found, 1 weak");
    expect(said).toContain("drops by 5.2 cents (95 % sure between -6.1 and -4.2)");
    expect(said).toContain("at 5.54 s");
  });

  it("tells plainly where it does not buzz, always buzzes, or can't be told", () => {
    expect(flat(textOf(cases.none))).toContain("C4 does not buzz: no strokes in 8.0 s.");
    expect(flat(textOf(cases.none))).toContain("turn the tirant's peg a little tighter");
    expect(flat(textOf(cases.continuous))).toContain("may buzz all the time");
    expect(flat(textOf(cases.continuous))).toContain("turn the tirant's peg a little slacker");
    expect(flat(textOf(cases.few))).toContain("strokes joined without a gap show as one");
    expect(flat(textOf(cases.silent))).toContain("No string was heard");
    expect(flat(textOf(cases.along))).toContain("than all sounding strings together");
    expect(flat(textOf(cases.along))).toContain("Lift the others off the wheel");
  });

  it("gives an onset that is known less well than to 10 ms as about, and says why", () => {
    const said = flat(textOf(cases.about));
    // 14.32 ms rounded up; hundredths only, in the time from the last one too.
    expect(said).toContain("2 about 5.18 +-15 0.18");
    expect(said).toContain("1 5.000 +-5");
    expect(said).toContain(
      "the worst to +-15 ms): 1, of these 1 because it is not sure which of several knocks",
    );
    expect(documentOf(cases.about).strokes[1]).toMatchObject({ withinSeconds: 0.0144, rough: true });
    expect(said.indexOf("Onsets known less well")).toBeLessThan(said.indexOf("Each stroke"));
    expect(flat(textOf(BUZZING))).not.toContain("about 5.");
  });

  it("says that sounds alone among notes are no row of strokes", () => {
    const said = flat(textOf(cases.stray));
    expect(said).toContain("C4 shows no row of strokes in 8.0 s");
    expect(said).not.toContain("does not buzz");
    expect(said).toContain("1 alone among these");
  });

  it("claims no change of pitch that its interval does not show", () => {
    const unsure = { ...BUZZING, differenceCents: { mean: -1, interval95: [-3, 1] as const } };
    expect(flat(textOf(unsure))).toContain("a change of pitch while it buzzes is not shown");
  });

  it("marks what is common practice, and has a last wording that needs nothing", () => {
    for (const fields of [cases.none, cases.continuous, cases.strokes]) {
      expect(flat(textOf(fields))).toContain("(common practice, no source)");
    }
    for (const [code, wordings] of Object.entries(trompetteWordings)) {
      const last = wordings[wordings.length - 1].text;
      if (wordings.length > 1) expect(`${code} ${last}`).not.toContain("{");
    }
  });
});
