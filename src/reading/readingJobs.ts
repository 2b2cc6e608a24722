import type { AudioRecording } from "../audio/AudioRecording.js";
import { checkRecording, type RecordingCheck } from "../audio/checkRecording.js";
import type { TimeSpan } from "../audio/findPauses.js";
import type { RecordingSurvey } from "../audio/RecordingSurvey.js";
import type { StringTarget } from "../instrument/Instrument.js";
import type { SteadyPassage } from "../pitch/SteadyPassage.js";
import type { MeasuredPassage, MixedPassage } from "../strings/MeasuredPassage.js";
import type { MixtureReading } from "../strings/MixedStrings.js";
import { measurePassage } from "../strings/measurePassage.js";
import { readMixturePiece } from "../strings/readMixturePiece.js";
import { readWheelPassage, type TurningPassage, type WheelOptions } from "../wheel/readWheelPassage.js";
import type { WheelPassage } from "../wheel/WheelReading.js";

/** What all jobs of a take know. */
export interface ReadingContext {
  readonly recording: AudioRecording;
  readonly survey: RecordingSurvey;
  readonly targets: readonly StringTarget[] | null;
}

/** A piece of a stretch (see `mixturePieces`), and how it is to be read. */
interface MixtureCall {
  readonly piece: TimeSpan;
  readonly given: readonly number[] | null;
  readonly withTwins: boolean;
  readonly humFrequenciesHz: readonly number[];
}

/**
 * The long calculations of a take, which don't depend on each other. What goes in and what comes out is plain data, so that another
 * thread may do them.
 */
export const readingJobs = {
  check: ({ recording, survey }: ReadingContext, sounding: readonly TimeSpan[]): RecordingCheck =>
    checkRecording(recording, survey, sounding),
  mixture: (
    { recording, survey, targets }: ReadingContext,
    { piece, given, withTwins, humFrequenciesHz }: MixtureCall,
  ): MixtureReading =>
    readMixturePiece(recording, survey, piece, targets ?? [], given, humFrequenciesHz, withTwins),
  passage: (
    { recording, survey }: ReadingContext,
    {
      passage,
      humFrequenciesHz,
    }: { readonly passage: SteadyPassage; readonly humFrequenciesHz: readonly number[] },
  ): MeasuredPassage | MixedPassage | null => measurePassage(recording, survey, passage, humFrequenciesHz),
  wheel: (
    _context: ReadingContext,
    { passage, options }: { readonly passage: TurningPassage; readonly options: WheelOptions },
  ): WheelPassage => readWheelPassage(passage, options),
};

export type JobKind = keyof typeof readingJobs;
/** What a job of a kind is given besides its context, and what it gives. */
export type JobCall<K extends JobKind> = Parameters<(typeof readingJobs)[K]>[1];
export type JobResult<K extends JobKind> = ReturnType<(typeof readingJobs)[K]>;
