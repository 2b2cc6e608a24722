import type { AudioRecording } from "../../src/audio/AudioRecording.js";
import { readAnalysisBand } from "../../src/audio/readAnalysisBand.js";
import { surveyRecording } from "../../src/audio/surveyRecording.js";
import { decimationFactor } from "../../src/signal/Decimator.js";
import { resampled } from "./resampled.js";

/** Sound kept on both sides of a cut, so that the frames at its ends are whole. */
export const EDGE_SECONDS = 0.2;
/** A shorter segment is lengthened to this, about its middle: the notes sound on. */
const LEAST_SECONDS = 2;

/** Where in a recording a note stands, and about what pitch it has. */
export interface NotePlace {
  readonly name: string;
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly nominalHz: number;
  /** Within 20 cents of its pitch. */
  readonly roughHz: number;
}

/** The steady part of one note, its first channel, decimated. */
export interface NoteCut {
  readonly name: string;
  readonly nominalHz: number;
  readonly roughHz: number;
  readonly sampleRateHz: number;
  /** Length without the edges. */
  readonly seconds: number;
  readonly samples: Float32Array;
}

/** Cuts a note out of its recording, at the rate that the analysis has it, or at another one. */
export function noteCut(recording: AudioRecording, place: NotePlace, rateHz: number | null): NoteCut {
  const { name, nominalHz, roughHz } = place;
  const lacking = Math.max(0, LEAST_SECONDS - (place.endSeconds - place.startSeconds));
  const startSeconds = place.startSeconds - lacking / 2;
  const endSeconds = place.endSeconds + lacking / 2;
  const ownRateHz = recording.sampleRateHz / decimationFactor(recording.sampleRateHz);
  const [samples] = readAnalysisBand(recording, surveyRecording(recording), {
    startSeconds: startSeconds - EDGE_SECONDS,
    endSeconds: endSeconds + EDGE_SECONDS,
  });
  const sampleRateHz = rateHz ?? ownRateHz;
  return {
    name,
    nominalHz,
    roughHz,
    sampleRateHz,
    seconds: endSeconds - startSeconds,
    samples: resampled(samples, ownRateHz, sampleRateHz),
  };
}
