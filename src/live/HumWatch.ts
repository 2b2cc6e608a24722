import type { Finding } from "../audio/Finding.js";
import { type MainsHum, mainsHum } from "../audio/mainsHum.js";
import { stretchSpectrum } from "../audio/stretchSpectrum.js";
import { measurePassage } from "../strings/measurePassage.js";
import { cents } from "../units/cents.js";
import type { RecentBand } from "./RecentBand.js";
import type { PitchRun } from "./soundNow.js";

/** A shorter pause does not show hum, one of twice this shows that there is none. */
const LEAST_SECONDS = 1;
const LONGEST_SECONDS = 4;
/** What rings on after a string has ended is left out. */
const RING_SECONDS = 0.3;
/** Hum this far below the strings is there to know, not to worry about. */
const HARMLESS_DB = 50;

/** Pitches that the tracker finds in mains hum: the mains frequency, or twice that where the rectifier's hum is stronger. */
const HUM_HZ = [50, 60, 100, 120];
/** The mains keep within 0.2 Hz of 50 (7 cents). */
const NEAR_CENTS = 8;
/** In some seconds the mains waver by a tenth of a cent or two; a bowed string does by more than this. */
const STEADY_CENTS = 0.3;
const MARGIN_SECONDS = 0.09;

/** What a run of one pitch that may be hum is. */
export type HumVerdict = "hum" | "string" | "too-short";

/** Looks for mains hum in the pauses, and keeps it from passing for a string. */
export class HumWatch {
  private readonly band: RecentBand;
  private hum: MainsHum | null = null;

  constructor(band: RecentBand) {
    this.band = band;
  }

  /** The lines of hum as they were last seen; empty where there is none. */
  get frequenciesHz(): readonly number[] {
    return this.hum?.frequenciesHz ?? [];
  }

  /** Listens to a pause that goes on. */
  listen(startSeconds: number, endSeconds: number): void {
    const from = Math.max(startSeconds + RING_SECONDS, endSeconds - LONGEST_SECONDS);
    if (endSeconds - from < LEAST_SECONDS) return;
    const found = this.humIn(from, endSeconds);
    if (found !== null || endSeconds - from >= 2 * LEAST_SECONDS) this.hum = found;
  }

  /** A steady pitch just where hum has it may be hum: its spectrum says so once it is long enough. */
  judge(run: PitchRun): HumVerdict {
    if (!HUM_HZ.some((humHz) => Math.abs(cents(run.frequencyHz, humHz)) < NEAR_CENTS)) return "string";
    if (run.endSeconds - run.startSeconds < LEAST_SECONDS) return this.hum === null ? "too-short" : "hum";
    const startSeconds = Math.max(run.startSeconds, run.endSeconds - LONGEST_SECONDS);
    const found = this.humIn(startSeconds, run.endSeconds);
    if (found === null || this.wavers(run, startSeconds)) return "string";
    this.hum = found;
    return "hum";
  }

  private wavers({ frequencyHz, endSeconds }: PitchRun, startSeconds: number): boolean {
    const { recording, survey } = this.band.stretch(startSeconds, endSeconds);
    const passage = {
      startSeconds: MARGIN_SECONDS,
      endSeconds: recording.durationSeconds - MARGIN_SECONDS,
      soundStartSeconds: 0,
      soundEndSeconds: recording.durationSeconds,
      frequencyHz,
    };
    const read = measurePassage(recording, survey, passage, []);
    if (read === null || "togetherHz" in read) return false;
    return (read.steadiness.unsteadinessCents ?? 0) > STEADY_CENTS;
  }

  /** @param stringLevelDb - level of the strings heard so far; null where there are none */
  findings(stringLevelDb: number | null): Finding[] {
    if (this.hum === null) return [];
    const { humHz, levelDb, strongestHz, frequenciesHz } = this.hum;
    const isHarmless = stringLevelDb !== null && levelDb < stringLevelDb - HARMLESS_DB;
    const values = { humHz, levelDb, strongestHz, lineCount: frequenciesHz.length };
    return [{ code: "mains-hum", severity: isHarmless ? "info" : "warning", values }];
  }

  private humIn(startSeconds: number, endSeconds: number): MainsHum | null {
    const { band } = this;
    const channels = band.slice(Math.round(startSeconds * band.rateHz), Math.round(endSeconds * band.rateHz));
    const spectrum = stretchSpectrum([channels], band.rateHz);
    return spectrum === null ? null : mainsHum(spectrum);
  }
}
