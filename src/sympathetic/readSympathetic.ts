import type { AudioRecording } from "../audio/AudioRecording.js";
import { nearestNoteTarget } from "../instrument/nearestNoteTarget.js";
import { cents } from "../units/cents.js";
import { assignPlucks } from "./assignPlucks.js";
import { hearPlucks } from "./hearPlucks.js";
import { listenToPlucks } from "./listenToPlucks.js";
import { notesOfPlucks } from "./notesOfPlucks.js";
import { readPluckedString } from "./readPluckedString.js";
import type { SympatheticOptions, SympatheticReading } from "./SympatheticReading.js";
import { variationBetween } from "./stringPitch.js";
import { sympatheticFindings } from "./sympatheticFindings.js";

const LISTENING_SHARE = 0.3;

/**
 * Reads a take in which strings are plucked one after another, in any order, each once or several times, with the wheel still:
 * which strings were plucked, how far each is from its target, how long it rings.
 *
 * Each pluck is fitted as decaying sines that follow the law of a stiff string, f_n = n f0 sqrt(1 + B n^2) (Fletcher 1964), over the
 * strings that still ring. The pitch is that of the first partial, f0 sqrt(1 + B): with it a string answers a bowed note. It is the
 * settled one: the glide at the beginning of a strong pluck is fitted and left out. Where the string swings in two planes of
 * slightly different pitch, it is their mean, weighted with energy.
 *
 * @throws AnalysisError `recording-empty`, `recording-silent`, `recording-not-finite`, and `value-out-of-range` for a
 * recording of more than ten minutes
 * @example
 * ```ts
 * const targets = stringTargets(instrument).filter(({ role }) => role === "sympathetic");
 * const reading = readSympathetic(openWav(source), { targets, a4Hz: 440 });
 * reading.strings[0].deviationCents; // -7.3
 * ```
 */
export function readSympathetic(recording: AudioRecording, options: SympatheticOptions): SympatheticReading {
  const progress = options.onProgress ?? (() => {});
  const sound = listenToPlucks(recording, (share) => progress(LISTENING_SHARE * share));
  const targetsHz = options.targets?.map(({ targetHz }) => targetHz) ?? [];
  const heard = hearPlucks(sound.channels, targetsHz, (share) =>
    progress(LISTENING_SHARE + (1 - LISTENING_SHARE) * share),
  );
  progress(1);
  const targets = options.targets ?? notesOfPlucks(heard.plucks, options.a4Hz);
  const { perTarget, unmatched, equal } = assignPlucks(heard.plucks, targets, options.order);
  const between = variationBetween(
    perTarget.map((plucks, t) =>
      plucks.map(({ frequencyHz, deviationCents }) => ({
        value: cents(frequencyHz, targets[t].targetHz),
        deviation: deviationCents,
      })),
    ),
  );
  const strings = targets.map((target, t) =>
    readPluckedString(target, options.targets !== null, perTarget[t], between),
  );
  const strays = unmatched.map(({ onsetSeconds, frequencyHz }) => {
    const { note, targetHz } = nearestNoteTarget(frequencyHz, options.a4Hz);
    return { onsetSeconds, frequencyHz, note, deviationCents: cents(frequencyHz, targetHz) };
  });
  const names = equal.map(({ members, by }) => ({ names: members.map((t) => targets[t].name), by }));
  return {
    sampleRateHz: recording.sampleRateHz,
    channelCount: recording.channelCount,
    encoding: recording.encoding,
    durationSeconds: recording.durationSeconds,
    strings,
    strays,
    pluckSpreadCents: between.degreesOfFreedom > 0 ? Math.sqrt(between.variance) : null,
    findings: [...sound.findings, ...sympatheticFindings(strings, strays, heard.others, names)],
  };
}
