import type { SympatheticOwnFinding, SympatheticReading } from "../sympathetic/SympatheticReading.js";
import type { SympatheticDocument } from "../sympathetic/sympatheticDocumentSchema.js";
import { findingDocument } from "./findingDocument.js";
import { rounded, roundedFinite, roundedInterval } from "./rounded.js";
import { sympatheticAdvice } from "./sympatheticAdvice.js";
import { sympatheticWordings } from "./sympatheticWordings.js";
import { wordedFinding } from "./wordedFinding.js";

/** What goes into the document of one `sympathetic` call. */
export interface SympatheticDocumentInput {
  readonly toolVersion: string;
  readonly instrument: string | null;
  readonly settings: SympatheticDocument["settings"];
  readonly file: string;
  readonly reading: SympatheticReading;
}

/** Builds the JSON document of `sympathetic`: frequencies to 0.001 Hz, cents to 0.01. */
export function sympatheticDocument(input: SympatheticDocumentInput): SympatheticDocument {
  const { reading } = input;
  const strings = reading.strings.map((one) => ({
    name: one.name,
    role: one.role,
    note: one.note,
    targetHz: roundedFinite(one.targetHz, 3),
    status: one.status,
    frequencyHz: rounded(one.frequencyHz, 3),
    deviationCents: rounded(one.deviationCents, 2),
    interval95Cents: roundedInterval(one.interval95Cents, 2),
    inharmonicity: rounded(one.inharmonicity, 8),
    inharmonicityInterval95: roundedInterval(one.inharmonicityInterval95, 8),
    octaveStretchCents: rounded(one.octaveStretchCents, 2),
    decaySeconds: rounded(one.decaySeconds, 3),
    decayInterval95Seconds: roundedInterval(one.decayInterval95Seconds, 3),
    answerCents: rounded(one.answerCents, 2),
    levelDb: rounded(one.levelDb, 1),
    spreadCents: rounded(one.spreadCents, 2),
    plucks: one.plucks.map((pluck) => ({
      onsetSeconds: roundedFinite(pluck.onsetSeconds, 3),
      startSeconds: roundedFinite(pluck.startSeconds, 4),
      endSeconds: roundedFinite(pluck.endSeconds, 4),
      frequencyHz: roundedFinite(pluck.frequencyHz, 3),
      standardDeviationCents: roundedFinite(pluck.deviationCents, 3),
      inharmonicity: rounded(pluck.inharmonicity, 8),
      decaySeconds: roundedFinite(pluck.decaySeconds, 3),
      glideCents: roundedFinite(pluck.glideCents, 2),
      glideStandardDeviationCents: roundedFinite(pluck.glideDeviationCents, 2),
      splitHz: rounded(pluck.splitHz, 3),
      partialCount: pluck.partialCount,
      levelDb: roundedFinite(pluck.levelDb, 1),
    })),
    findings: one.findings.map((finding) => wordedFinding(finding, sympatheticWordings)),
  }));
  return {
    schemaVersion: 1,
    tool: "gurdybench",
    toolVersion: input.toolVersion,
    instrument: input.instrument,
    settings: input.settings,
    file: input.file,
    sampleRateHz: reading.sampleRateHz,
    channelCount: reading.channelCount,
    encoding: reading.encoding ?? null,
    durationSeconds: roundedFinite(reading.durationSeconds, 3),
    strings,
    strays: reading.strays.map((stray) => ({
      onsetSeconds: roundedFinite(stray.onsetSeconds, 3),
      frequencyHz: roundedFinite(stray.frequencyHz, 3),
      note: stray.note,
      deviationCents: roundedFinite(stray.deviationCents, 2),
    })),
    pluckSpreadCents: rounded(reading.pluckSpreadCents, 2),
    findings: reading.findings.map(anyFinding),
    inShort: sympatheticAdvice({ strings }),
  };
}

function anyFinding(
  finding: SympatheticReading["findings"][number],
): SympatheticDocument["findings"][number] {
  const isOwn = (one: typeof finding): one is SympatheticOwnFinding => one.code in sympatheticWordings;
  return isOwn(finding) ? wordedFinding(finding, sympatheticWordings) : findingDocument(finding);
}
