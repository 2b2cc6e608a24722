import { describe, expect, it } from "vitest";
import type { KeyboardDocument } from "../../src/keyboard/keyboardDocumentSchema.js";
import { keyboardAdvice } from "../../src/report/keyboardAdvice.js";

type Input = Parameters<typeof keyboardAdvice>[0];

const key: KeyboardDocument["keys"][number] = {
  key: 5,
  note: "C5",
  targetHz: 523.25,
  frequencyHz: 523.25,
  deviationCents: 0,
  interval95Cents: [-0.5, 0.5],
  tangentMoveMm: 0,
  towards: null,
  tangentMoveAfterShiftMm: 0,
  towardsAfterShift: null,
  leftCents: 0,
  soundingLengthMm: 258,
  stretches: [],
  unsteadinessCents: 0.3,
  harmonicToNoiseDb: 30,
  harsh: false,
  unsteady: false,
};

const PATTERN: KeyboardDocument["pattern"] = {
  constantCents: null,
  bridgeCents: null,
  nutShiftInterval95Mm: null,
  bridgeShiftInterval95Mm: null,
  spreadCents: 1,
  leftCents: 1,
};

const advice = (changes: Partial<Input>, pattern: Partial<KeyboardDocument["pattern"]> = {}) =>
  keyboardAdvice({
    schemaVersion: 1,
    tool: "gurdybench",
    toolVersion: "0.0.0-test",
    instrument: null,
    settings: { a4Hz: 440, tonic: null, temperament: "equal", tuning: null, capo: {} },
    file: "scale.wav",
    encoding: null,
    string: "G4",
    openTargetHz: 391.995,
    openHz: 391.995,
    openBasis: "heard",
    openDeviationCents: 0,
    lengthMm: 345,
    keys: [key],
    missedKeys: [],
    nutShiftMm: null,
    bridgeShiftMm: null,
    swingCents: null,
    swingRateHz: null,
    drones: [],
    bodyCurve: [],
    bodyCurveLacking: null,
    lowReachHz: null,
    lowReachIsAtOrBelow: null,
    lowReachRange95Hz: null,
    findings: [],
    other: null,
    commonDifferenceCents: null,
    differences: [],
    pattern: { ...PATTERN, ...pattern },
    ...changes,
  }).join(" ");

describe("keyboardAdvice", () => {
  it("begins with the open string where that is off its target", () => {
    expect(advice({ openDeviationCents: 11.8 })).toMatch(/^First tune G4 down by 11\.8 cents/);
    expect(advice({ openDeviationCents: -4 })).toMatch(/^First tune G4 up by 4\.0 cents/);
    expect(advice({ openDeviationCents: 1.2 })).not.toContain("tune G4");
  });

  it("has a sharp constant put right by a nut nearer to the bridge, and a flat one by one further off", () => {
    // A millimetre of 345 is 1731.23 / 345 = 5.0 cents (arithmetic); the ends are rounded outward.
    const sharp = advice(
      { nutShiftMm: 1.04 },
      {
        constantCents: { value: 5.2, interval95: [4.77, 5.63] },
        nutShiftInterval95Mm: [0.951, 1.12],
      },
    );
    expect(sharp).toContain("5.2 cents sharp of the open string by one amount (95 % between 4.7 and 5.7)");
    expect(sharp).toContain("move the nut 1.0 mm towards the bridge (0.9 to 1.2)");
    const flat = advice(
      { nutShiftMm: -1.04 },
      {
        constantCents: { value: -5.2, interval95: [-5.63, -4.77] },
        nutShiftInterval95Mm: [-1.12, -0.951],
      },
    );
    expect(flat).toContain("5.2 cents flat of the open string by one amount (95 % between 4.7 and 5.7)");
    expect(flat).toContain("move the nut 1.0 mm away from the bridge (0.9 to 1.2)");
  });

  it("doubts the string's name where all keys stand a semitone off and the open string was not heard", () => {
    const said = (value: number) =>
      advice(
        { openBasis: "target", openDeviationCents: null },
        { constantCents: { value, interval95: [value - 2, value + 2] } },
      );
    expect(said(100)).toContain("another string than the one named");
    expect(said(12)).not.toContain("another string");
  });

  it("gives no moves where the notes are of another string", () => {
    const finding = {
      code: "likely-string",
      severity: "problem" as const,
      values: {},
      message: "Not this string.",
    };
    expect(advice({ findings: [finding], openDeviationCents: 11.8 })).toBe("Not this string.");
    expect(advice({ findings: [{ ...finding, severity: "warning" }] })).not.toContain("Not this string.");
  });
});
