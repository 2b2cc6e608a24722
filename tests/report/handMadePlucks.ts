import { sympatheticDocument } from "../../src/report/sympatheticDocument.js";
import type { SympatheticReading, SympatheticString } from "../../src/sympathetic/SympatheticReading.js";
import type { SympatheticDocument } from "../../src/sympathetic/sympatheticDocumentSchema.js";

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

/** A plucked string, heard where it has a deviation. */
export function pluckedString(
  name: string,
  deviationCents: number | null,
  answerCents = 1.6,
): SympatheticString {
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

/** The document of such strings. */
export const pluckedDocument = (
  strings: readonly SympatheticString[],
  rest: Partial<SympatheticReading> = {},
): SympatheticDocument =>
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
