import type { AudioRecording } from "../audio/AudioRecording.js";
import { tQuantile } from "../statistics/tQuantile.js";
import { shiftByCents } from "../units/cents.js";
import { type HeardNotes, hearNotes } from "./hearNotes.js";
import type { KeyboardOptions, KeyboardPattern, KeyboardReading, KeyReading } from "./KeyboardReading.js";
import { keyBody } from "./keyBody.js";
import { keyboardFindings } from "./keyboardFindings.js";
import { keyPitches } from "./keyPitches.js";
import { keySound } from "./keySound.js";
import { listenToScale } from "./listenToScale.js";
import { pitchesOfKeys } from "./pitchesOfKeys.js";
import { pitchSteps } from "./pitchSteps.js";
import { type Estimate, shiftPattern } from "./shiftPattern.js";
import { bridgeShiftMm, nutShiftMm, soundingLengthMm, tangentMove } from "./tangentGeometry.js";

/** How the pitch moves is learnt from so many independent values a key, as trials of the interval's coverage have shown. */
const FREEDOM_A_KEY = 0.6;
const LEAST_FREEDOM = 4;
const LISTENING_SHARE = 0.4;
/** Rounding and leakage stay below this, whatever the take. */
const LEAST_HALF_WIDTH_CENTS = 0.02;

/**
 * Reads a scale played on one string, with or without drones: which keys were played, how far each is off over the open
 * string, what all have in common, and how far each tangent is to move.
 *
 * Drones are taken out (`takeOutDrones`), what is left is cut into notes (`cutNotes`), the notes are given keys as a whole
 * (`assignKeys`), and all notes' pitches are fitted together with one swing of the wheel (`keyPitches`).
 *
 * @throws AnalysisError `recording-empty`, `recording-silent`, `recording-not-finite`, and `value-out-of-range` for a
 * recording of more than ten minutes
 * @example
 * ```ts
 * const ladderCents = keyLadder("equal", 7, 23);
 * const reading = readKeyboard(openWav(source), { string: "G4", openTargetHz: 392, ladderCents, lengthMm: 345 });
 * reading.keys[0].tangentMove; // { moveMm: 0.9, towards: "nut" }
 * ```
 */
export function readKeyboard(recording: AudioRecording, options: KeyboardOptions): KeyboardReading {
  const progress = options.onProgress ?? (() => {});
  const sound = listenToScale(recording, (share) => progress(LISTENING_SHARE * share));
  const heard: HeardNotes =
    sound.span === null
      ? { notes: [], strays: [], aboveLastKey: [], short: [], likely: null, drones: [] }
      : hearNotes(sound.channels, sound.span, options);
  progress(1);
  const reading = readingOf(heard, options);
  // Drones by themselves have no one pitch, so that the check of the recording takes them for the noise of a pause.
  const ofRecording = sound.findings.filter(
    ({ code }) => heard.drones.length === 0 || code !== "noise-floor",
  );
  return {
    ...reading,
    encoding: recording.encoding,
    findings: [...ofRecording, ...keyboardFindings(reading, heard, options)],
  };
}

function readingOf(heard: HeardNotes, options: KeyboardOptions): Omit<KeyboardReading, "findings"> {
  const { openTargetHz, ladderCents, lengthMm } = options;
  const played = [...new Set(heard.notes.map(({ key }) => key))].sort((a, b) => a - b);
  const steps = heard.notes.flatMap(({ note }, i) => pitchSteps(note, i, openTargetHz));
  const ofNotes = keyPitches(steps, heard.notes.length);
  const pitches = ofNotes === null ? null : pitchesOfKeys(ofNotes, heard.notes, played);
  const found = pitches === null ? [] : played;
  const openCents = found[0] === 0 ? (pitches?.means[0] ?? 0) : null;
  const sounds = keySound(heard.notes, found);
  const variance = (a: number, b: number) => pitches?.covariance[a * found.length + b] ?? 0;
  const reach = tQuantile(0.975, Math.max(LEAST_FREEDOM, FREEDOM_A_KEY * found.length));

  const places = found.flatMap((key, i) => {
    if (key === 0) return [];
    const overOpen = (pitches?.means[i] ?? 0) - (openCents ?? 0);
    const spread = openCents === null ? variance(i, i) : variance(i, i) + variance(0, 0) - 2 * variance(0, i);
    const half = Math.hypot(reach * Math.sqrt(Math.max(0, spread)), LEAST_HALF_WIDTH_CENTS);
    return [{ key, overOpen, deviationCents: overOpen - ladderCents[key], half, sound: sounds[i] }];
  });
  const pattern = patternOf(
    places.map(({ key }) => key),
    places.map(({ deviationCents }) => deviationCents),
    openCents === null
      ? 0
      : Math.hypot(reach * Math.sqrt(Math.max(0, variance(0, 0))), LEAST_HALF_WIDTH_CENTS),
    lengthMm,
  );
  const openHz = shiftByCents(openTargetHz, openCents ?? 0);
  const keys = places.map(({ key, overOpen, deviationCents, half, sound }): KeyReading => {
    const wanted = ladderCents[key];
    const leftCents =
      deviationCents -
      (pattern.constantCents?.value ?? 0) -
      (pattern.bridgeCents?.value ?? 0) * (2 ** (key / 12) - 1);
    return {
      key,
      targetHz: shiftByCents(openHz, wanted),
      frequencyHz: shiftByCents(openHz, overOpen),
      deviationCents,
      interval95Cents: [deviationCents - half, deviationCents + half],
      ...sound,
      soundingLengthMm: lengthMm === null ? null : soundingLengthMm(lengthMm, overOpen),
      tangentMove: lengthMm === null ? null : tangentMove(lengthMm, wanted, deviationCents),
      tangentMoveAfterShift: lengthMm === null ? null : tangentMove(lengthMm, wanted, leftCents),
      leftCents,
    };
  });
  return {
    string: options.string,
    openTargetHz,
    openHz,
    openBasis: openCents === null ? "target" : "heard",
    lengthMm,
    keys,
    missedKeys: ladderCents.flatMap((_, key) => (key === 0 || found.includes(key) ? [] : [key])),
    pattern,
    swingCents: ofNotes?.swingCents ?? null,
    swingRateHz: ofNotes?.swingRateHz ?? null,
    drones: heard.drones,
    body: keyBody(heard),
  };
}

function patternOf(
  keys: readonly number[],
  deviationCents: readonly number[],
  openHalfWidthCents: number,
  lengthMm: number | null,
): KeyboardPattern {
  const pattern = shiftPattern(keys, deviationCents, openHalfWidthCents);
  const inMm = (estimate: Estimate | null, mm: (lengthMm: number, cents: number) => number) =>
    estimate === null || lengthMm === null
      ? null
      : {
          value: mm(lengthMm, estimate.value),
          interval95: [mm(lengthMm, estimate.interval95[0]), mm(lengthMm, estimate.interval95[1])] as const,
        };
  return {
    ...pattern,
    nutShiftMm: inMm(pattern.constantCents, nutShiftMm),
    bridgeShiftMm: inMm(pattern.bridgeCents, bridgeShiftMm),
  };
}
