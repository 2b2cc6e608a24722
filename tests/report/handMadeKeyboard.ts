import type { KeyboardDocument } from "../../src/keyboard/keyboardDocumentSchema.js";

type ScaleDocument = NonNullable<KeyboardDocument["other"]>;

const BRIDGE_CENTS = 10;

/** Twelve keys that a bridge 10 cents an octave out explains, but for key 5, which is 8 cents sharper. */
export function handMadeScale(string: string): ScaleDocument {
  return {
    file: `${string}.wav`,
    encoding: null,
    string,
    openTargetHz: 391.995,
    openHz: 391.995,
    openBasis: "heard",
    openDeviationCents: 0,
    lengthMm: 345,
    keys: Array.from({ length: 12 }, (_, i) => {
      const key = i + 1;
      const leftCents = key === 5 ? 8 : 0;
      const deviationCents = BRIDGE_CENTS * (2 ** (key / 12) - 1) + leftCents;
      return {
        key,
        note: `N${key}`,
        targetHz: 391.995 * 2 ** (key / 12),
        frequencyHz: 391.995 * 2 ** ((100 * key + deviationCents) / 1200),
        deviationCents,
        interval95Cents: [deviationCents - 0.5, deviationCents + 0.5],
        tangentMoveMm: 1,
        towards: "nut",
        tangentMoveAfterShiftMm: leftCents / 10,
        towardsAfterShift: leftCents > 0 ? "nut" : null,
        leftCents,
        soundingLengthMm: 345 * 2 ** (-key / 12),
        stretches: [],
        unsteadinessCents: 0.3,
        harmonicToNoiseDb: 30,
        harsh: key === 3,
        unsteady: false,
      };
    }),
    missedKeys: [],
    nutShiftMm: null,
    bridgeShiftMm: 2,
    pattern: {
      constantCents: null,
      bridgeCents: { value: BRIDGE_CENTS, interval95: [9, 11] },
      nutShiftInterval95Mm: null,
      bridgeShiftInterval95Mm: [1.8, 2.2],
      spreadCents: 5,
      leftCents: 1,
    },
    swingCents: null,
    swingRateHz: null,
    drones: [],
    bodyCurve: [
      { frequencyHz: 501.2, levelDb: 1, interval95Db: [-40, 42], partialCount: 3 },
      { frequencyHz: 631, levelDb: -1, interval95Db: [-2, 0], partialCount: 3 },
      { frequencyHz: 794.3, levelDb: null, interval95Db: null, partialCount: 0 },
    ],
    bodyCurveLacking: null,
    lowReachHz: null,
    lowReachIsAtOrBelow: null,
    lowReachRange95Hz: null,
    findings: [{ code: "keys-missed", severity: "warning", message: "Not heard: key 13 <b>.", values: {} }],
  };
}

/** The document of one string, or of two whose keys differ in the first. */
export function handMadeKeyboardDocument(string: string, other: string | null = null): KeyboardDocument {
  return {
    schemaVersion: 1,
    tool: "gurdybench",
    toolVersion: "0.0.0-test",
    instrument: "Bench",
    settings: { a4Hz: 440, tonic: null, temperament: "equal", tuning: null, capo: {} },
    ...handMadeScale(string),
    other: other === null ? null : handMadeScale(other),
    commonDifferenceCents: other === null ? null : 0,
    differences:
      other === null
        ? []
        : [
            {
              key: 1,
              note: "N1",
              deviationCents: 6,
              otherDeviationCents: 1,
              differenceCents: 5,
              interval95Cents: [4, 6],
              disagrees: true,
            },
          ],
    inShort: ["Move the bridge first.", "Then turn the tangent of key 5."],
  };
}
