import { decimationFactor } from "../signal/Decimator.js";
import { powerToDb } from "../units/decibels.js";
import type { AudioRecording } from "./AudioRecording.js";
import { bandLimit } from "./bandLimit.js";
import { channelFindings } from "./channelFindings.js";
import { decodingFindings } from "./decodingFindings.js";
import type { Finding } from "./Finding.js";
import { findPauses, type TimeSpan } from "./findPauses.js";
import { fullRateSpectrum } from "./fullRateSpectrum.js";
import { gainControl } from "./gainControl.js";
import { highPass } from "./highPass.js";
import { type MainsHum, mainsHum } from "./mainsHum.js";
import type { RecordingSurvey } from "./RecordingSurvey.js";
import { readNotes } from "./readNotes.js";
import { type PauseSound, readPauses } from "./readPauses.js";
import { sampleFindings } from "./sampleFindings.js";
import { type StretchSpectrum, stretchSpectrum } from "./stretchSpectrum.js";

/** The noise in the pauses, 44.7 to 2818.4 Hz, power mean of the channels. Null where it can't be had. */
interface PauseNoise {
  /** Total length of the pauses that were listened to. */
  readonly pauseSeconds: number;
  /** Relative to a full-scale sine (0 dB). */
  readonly levelDb: number | null;
  /** Mean level of the notes in the same band. */
  readonly noteLevelDb: number | null;
  readonly noteToNoiseDb: number | null;
}

/** What the recording checks say. */
export interface RecordingCheck {
  readonly findings: readonly Finding[];
  /** The lines of mains hum that were found, ascending; empty where there is none. */
  readonly humFrequenciesHz: readonly number[];
  readonly noise: PauseNoise;
}

/** The band of all low-register measures: octave bands 63 Hz to 2 kHz (IEC 61260-1). */
const BAND_FROM_HZ = 44.668;
const BAND_TO_HZ = 2818.38;
/** No file holds noise below this (24-bit rounding: -158 dB at 96 kHz); what is left of a constant does not count. */
const SILENCE_DB = -165;
/** A window this many times stronger than the median one holds a knock, not the noise of the room. */
const KNOCK_POWER = 10;
/** Below this the weaker partials drown (common practice, no source). */
const LEAST_NOTE_TO_NOISE_DB = 30;
/** Hum this far below the notes is there to know, not to worry about. */
const HARMLESS_HUM_DB = 50;
/** A codec or resampler that ends below this may touch what is measured up to 2818 Hz. */
const HARMLESS_LIMIT_HZ = 5000;

/**
 * Checks a recording: what the samples, the channels and the pauses between notes say about its quality.
 *
 * Reads at most about a minute of pauses and 16 s of notes from the recording, and 6 s of notes at the full sample rate; everything else comes from the survey.
 *
 * @param notes - the stretches in which strings sound, in any order
 * @example
 * ```ts
 * const survey = surveyRecording(recording);
 * const { findings } = checkRecording(recording, survey, [{ startSeconds: 1, endSeconds: 4.5 }]);
 * findings.find((finding) => finding.code === "mains-hum")?.values.humHz; // 50
 * ```
 */
export function checkRecording(
  recording: AudioRecording,
  survey: RecordingSurvey,
  notes: readonly TimeSpan[],
): RecordingCheck {
  const rateHz = recording.sampleRateHz / decimationFactor(recording.sampleRateHz);
  const pauses = readPauses(recording, survey, findPauses(survey, notes));
  const quiet = pauses.map(({ channels, quietFrom }) =>
    channels.map((channel) => channel.subarray(quietFrom)),
  );
  const spectrum = quiet.length === 0 ? null : stretchSpectrum(quiet, rateHz, KNOCK_POWER);
  const noise = noiseOf(quiet, spectrum, readNotes(recording, survey, notes), rateHz);
  const audible = noise.levelDb === null ? null : spectrum;
  const hum = audible === null ? null : mainsHum(audible);
  return {
    findings: [
      ...decodingFindings(recording.decodingNotes),
      ...sampleFindings(survey),
      ...channelFindings(survey),
      noiseFinding(noise),
      ...humFindings(hum, noise),
      ...highPassFindings(survey, audible, hum, noise),
      ...bandLimitFindings(recording, notes),
      ...gainFindings(audible === null ? [] : pauses, rateHz),
    ],
    humFrequenciesHz: hum?.frequenciesHz ?? [],
    noise,
  };
}

function noiseOf(
  quiet: readonly (readonly Float32Array[])[],
  spectrum: StretchSpectrum | null,
  notes: readonly (readonly Float32Array[])[],
  rateHz: number,
): PauseNoise {
  const noteSpectrum = notes.length === 0 ? null : stretchSpectrum(notes, rateHz);
  const levelDb = spectrum === null ? null : bandLevelDb(spectrum);
  const noteLevelDb = noteSpectrum === null ? null : bandLevelDb(noteSpectrum);
  const samples = quiet.reduce((sum, channels) => sum + channels[0].length, 0);
  return {
    pauseSeconds: spectrum === null ? 0 : samples / rateHz,
    levelDb,
    noteLevelDb,
    noteToNoiseDb: levelDb === null || noteLevelDb === null ? null : noteLevelDb - levelDb,
  };
}

function bandLevelDb({ density, binHz }: StretchSpectrum): number | null {
  let power = 0;
  for (let b = Math.ceil(BAND_FROM_HZ / binHz); b * binHz <= BAND_TO_HZ; b++) power += density[b] * binHz;
  const levelDb = powerToDb(power / 0.5);
  return levelDb > SILENCE_DB ? levelDb : null;
}

function unknownReason({ pauseSeconds }: PauseNoise): string {
  return pauseSeconds > 0 ? "silence" : "no-pause";
}

function noiseFinding(noise: PauseNoise): Finding {
  const { levelDb, noteToNoiseDb, pauseSeconds } = noise;
  if (levelDb === null) {
    return {
      code: "noise-unknown",
      severity: "info",
      values: { pauseSeconds, reason: unknownReason(noise) },
    };
  }
  const values = { levelDb, pauseSeconds, ...(noteToNoiseDb === null ? {} : { noteToNoiseDb }) };
  const isNear = noteToNoiseDb !== null && noteToNoiseDb < LEAST_NOTE_TO_NOISE_DB;
  return { code: "noise-floor", severity: isNear ? "warning" : "info", values };
}

function humFindings(hum: MainsHum | null, { noteLevelDb }: PauseNoise): Finding[] {
  if (hum === null) return [];
  const { humHz, levelDb, strongestHz, frequenciesHz } = hum;
  const isHarmless = noteLevelDb !== null && levelDb < noteLevelDb - HARMLESS_HUM_DB;
  const values = { humHz, levelDb, strongestHz, lineCount: frequenciesHz.length };
  return [{ code: "mains-hum", severity: isHarmless ? "info" : "warning", values }];
}

function highPassFindings(
  survey: RecordingSurvey,
  spectrum: StretchSpectrum | null,
  hum: MainsHum | null,
  noise: PauseNoise,
): Finding[] {
  // Rounding errors spread evenly over q wide have power q^2/12, spread evenly up to half the sample rate.
  const steps = survey.channels.map((channel) => (channel.quantum ?? 0) ** 2 / 12);
  const meanPower = steps.reduce((sum, power) => sum + power, 0) / steps.length;
  const found =
    spectrum === null
      ? unknownReason(noise)
      : highPass(spectrum, hum?.frequenciesHz ?? [], meanPower / (survey.sampleRateHz / 2));
  if (found === null) return [];
  if (typeof found === "string")
    return [{ code: "high-pass-open", severity: "info", values: { reason: found } }];
  return [{ code: "high-pass", severity: "warning", values: { ...found } }];
}

function bandLimitFindings(recording: AudioRecording, notes: readonly TimeSpan[]): Finding[] {
  const spectrum = fullRateSpectrum(recording, notes);
  const found = spectrum === null ? null : bandLimit(spectrum);
  if (found === null) return [];
  const severity = found.cutoffHz < HARMLESS_LIMIT_HZ ? "warning" : "info";
  return [{ code: "band-limit", severity, values: { ...found } }];
}

function gainFindings(pauses: readonly PauseSound[], rateHz: number): Finding[] {
  const found = gainControl(pauses, rateHz);
  if (found === null) return [];
  if (found === "open") return [{ code: "gain-control-open", severity: "info", values: {} }];
  return [{ code: "gain-control", severity: "warning", values: { ...found } }];
}
