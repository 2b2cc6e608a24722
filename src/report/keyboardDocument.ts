import type { KeyboardComparison } from "../keyboard/compareKeyboards.js";
import type { KeyboardFinding, KeyboardOwnFinding, KeyboardReading } from "../keyboard/KeyboardReading.js";
import type { KeyboardDocument } from "../keyboard/keyboardDocumentSchema.js";
import type { Estimate } from "../keyboard/shiftPattern.js";
import { cents } from "../units/cents.js";
import { noteNameOfMidi } from "../units/noteNameOfMidi.js";
import { bodyCurveFields } from "./bodyCurveFields.js";
import { findingDocument } from "./findingDocument.js";
import { keyboardAdvice } from "./keyboardAdvice.js";
import { keyboardWordings } from "./keyboardWordings.js";
import { rounded, roundedFinite, roundedInterval } from "./rounded.js";
import { wordedFinding } from "./wordedFinding.js";

/** A scale that was read, and where it came from. */
export interface ReadScale {
  readonly file: string;
  readonly reading: KeyboardReading;
  /** MIDI number of the open string's note. */
  readonly openMidi: number;
}

/** What goes into the document of one `keyboard` call. */
export interface KeyboardDocumentInput {
  readonly toolVersion: string;
  readonly instrument: string | null;
  readonly settings: KeyboardDocument["settings"];
  readonly scale: ReadScale;
  /** The other string of the same keys, and how the two differ. */
  readonly other?: { readonly scale: ReadScale; readonly comparison: KeyboardComparison } | undefined;
}

/** Builds the JSON document of `keyboard`: frequencies to 0.001 Hz, cents to 0.01, lengths to 0.001 mm. */
export function keyboardDocument(input: KeyboardDocumentInput): KeyboardDocument {
  const { scale, other } = input;
  const document = {
    schemaVersion: 1 as const,
    tool: "gurdybench" as const,
    toolVersion: input.toolVersion,
    instrument: input.instrument,
    settings: input.settings,
    ...scaleDocument(scale),
    other: other === undefined ? null : scaleDocument(other.scale),
    commonDifferenceCents: rounded(other?.comparison.commonCents ?? null, 2),
    differences: (other?.comparison.keys ?? []).map((one) => ({
      key: one.key,
      note: noteNameOfMidi(scale.openMidi + one.key),
      deviationCents: roundedFinite(one.deviationCents, 2),
      otherDeviationCents: roundedFinite(one.otherDeviationCents, 2),
      differenceCents: roundedFinite(one.differenceCents, 2),
      interval95Cents: finiteInterval(one.interval95Cents, 2),
      disagrees: one.disagrees,
    })),
  };
  return { ...document, inShort: keyboardAdvice(document) };
}

function scaleDocument({ file, reading, openMidi }: ReadScale): NonNullable<KeyboardDocument["other"]> {
  const { pattern } = reading;
  return {
    file,
    encoding: reading.encoding ?? null,
    string: reading.string,
    openTargetHz: roundedFinite(reading.openTargetHz, 3),
    openHz: roundedFinite(reading.openHz, 3),
    openBasis: reading.openBasis,
    openDeviationCents:
      reading.openBasis === "target" ? null : rounded(cents(reading.openHz, reading.openTargetHz), 2),
    lengthMm: reading.lengthMm,
    ...bodyCurveFields(reading.body),
    keys: reading.keys.map((one) => ({
      key: one.key,
      note: noteNameOfMidi(openMidi + one.key),
      targetHz: roundedFinite(one.targetHz, 3),
      frequencyHz: roundedFinite(one.frequencyHz, 3),
      deviationCents: roundedFinite(one.deviationCents, 2),
      interval95Cents: finiteInterval(one.interval95Cents, 2),
      tangentMoveMm: rounded(one.tangentMove?.moveMm ?? null, 3),
      towards: one.tangentMove?.towards ?? null,
      tangentMoveAfterShiftMm: rounded(one.tangentMoveAfterShift?.moveMm ?? null, 3),
      towardsAfterShift: one.tangentMoveAfterShift?.towards ?? null,
      leftCents: roundedFinite(one.leftCents, 2),
      soundingLengthMm: rounded(one.soundingLengthMm, 2),
      stretches: one.stretches.map(({ startSeconds, endSeconds }) => ({
        startSeconds: roundedFinite(startSeconds, 3),
        endSeconds: roundedFinite(endSeconds, 3),
      })),
      unsteadinessCents: roundedFinite(one.unsteadinessCents, 2),
      harmonicToNoiseDb: rounded(one.harmonicToNoiseDb, 1),
      harsh: one.isHarsh,
      unsteady: one.isUnsteady,
    })),
    missedKeys: [...reading.missedKeys],
    nutShiftMm: rounded(pattern.nutShiftMm?.value ?? null, 3),
    bridgeShiftMm: rounded(pattern.bridgeShiftMm?.value ?? null, 3),
    pattern: {
      constantCents: estimateOf(pattern.constantCents),
      bridgeCents: estimateOf(pattern.bridgeCents),
      nutShiftInterval95Mm: roundedInterval(pattern.nutShiftMm?.interval95 ?? null, 3),
      bridgeShiftInterval95Mm: roundedInterval(pattern.bridgeShiftMm?.interval95 ?? null, 3),
      spreadCents: roundedFinite(pattern.spreadCents, 2),
      leftCents: roundedFinite(pattern.leftCents, 2),
    },
    swingCents: rounded(reading.swingCents, 2),
    swingRateHz: rounded(reading.swingRateHz, 2),
    drones: reading.drones.map(({ name, frequencyHz }) => ({
      name,
      frequencyHz: roundedFinite(frequencyHz, 3),
    })),
    findings: reading.findings.map(keyboardFindingDocument),
  };
}

function estimateOf(estimate: Estimate | null) {
  if (estimate === null) return null;
  return { value: roundedFinite(estimate.value, 2), interval95: finiteInterval(estimate.interval95, 2) };
}

function finiteInterval([low, high]: readonly [number, number], digits: number): [number, number] {
  return [roundedFinite(low, digits), roundedFinite(high, digits)];
}

function keyboardFindingDocument(finding: KeyboardFinding): KeyboardDocument["findings"][number] {
  const isOfKeyboard = (one: KeyboardFinding): one is KeyboardOwnFinding => one.code in keyboardWordings;
  return isOfKeyboard(finding) ? wordedFinding(finding, keyboardWordings) : findingDocument(finding);
}
