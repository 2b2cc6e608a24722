import type { Finding } from "../audio/Finding.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import type { HarmonicFit } from "../partials/HarmonicFit.js";
import { isNearHum } from "../partials/isNearHum.js";
import { seriesShare } from "../partials/seriesShare.js";
import { unexplainedLine } from "../partials/unexplainedLine.js";
import { secondOpinionHz } from "../pitch/secondOpinionHz.js";
import type { AverageSpectrum } from "../signal/averageSpectrum.js";
import { cents } from "../units/cents.js";

/** Another sound this close to the string's own tone may be another string; further down it is only there. */
const SEVERAL_STRINGS_DB = -12;
const OTHER_SOUND_DB = -26;
/** Two methods agree on the octave when they are closer than this. */
const SAME_NOTE_CENTS = 100;
/** No string of any tuning lies lower, so a second opinion below this is not one. */
const LOWEST_STRING_HZ = 45;
/** The lower octave is tenable when lines of its own hold this share, the upper one when what it lacks holds no more. */
const TENABLE_LOWER_SHARE = 10 ** -2.6;
const TENABLE_UPPER_SHARE = 10 ** -1.5;
const LEAST_STRAYED = 4;
const STRAYED_SHARE = 0.28;
/** Shorter passages give a wide interval or none. */
const SHORT_SECONDS = 2;
/** Beyond this the string speaks unsteadily: 3 cents of wheel swing give 2.1 (common practice, no source). */
const UNSTEADY_CENTS = 6;

/** What is odd about a passage, as findings without words. */
export function passageFindings(
  segment: AnalysisSegment,
  spectrum: AverageSpectrum,
  fit: HarmonicFit,
  unsteadinessCents: number,
  otherHz: number | null,
  humFrequenciesHz: readonly number[],
): Finding[] {
  const findings: Finding[] = [];
  const add = (code: Finding["code"], severity: Finding["severity"], values: Finding["values"]) =>
    findings.push({ code, severity, values });
  const frequencyHz = fit.frequencyHz;

  if (otherHz !== null) add("octave-doubt", "warning", { frequencyHz, otherHz });
  else {
    // The other method takes long, and is asked only where the spectrum leaves another octave at all.
    const tenable = tenableOctavesHz(spectrum, fit);
    const second = tenable.length > 0 ? secondOpinionHz(segment.samples, segment.sampleRateHz) : null;
    if (second !== null && tenable.some((hz) => Math.abs(cents(second, hz)) < SAME_NOTE_CENTS)) {
      add("octave-doubt", "info", { frequencyHz, otherHz: second });
    }
  }

  const total = fit.partials.reduce((sum, { power }) => sum + power, 0);
  const line = unexplainedLine(spectrum, [frequencyHz], total, unsteadinessCents);
  if (line !== null && line.levelDb > OTHER_SOUND_DB && !isNearHum(line.frequencyHz, humFrequenciesHz)) {
    const several = line.levelDb > SEVERAL_STRINGS_DB;
    add(several ? "several-strings" : "other-sound", several ? "warning" : "info", {
      frequencyHz: line.frequencyHz,
      levelDb: line.levelDb,
    });
  }

  const strayed = strayedPartial(fit);
  if (strayed !== null && !findings.some(({ code }) => code === "several-strings")) {
    add("several-strings", "warning", {
      frequencyHz: strayed.number * frequencyHz,
      levelDb: 10 * Math.log10(strayed.power / total),
    });
  }

  const nearHum = fit.partials.find(({ number }) => isNearHum(number * frequencyHz, humFrequenciesHz));
  if (nearHum !== undefined) {
    const partialHz = nearHum.number * frequencyHz;
    const humHz = humFrequenciesHz.reduce((a, b) =>
      Math.abs(b - partialHz) < Math.abs(a - partialHz) ? b : a,
    );
    add("hum-near-partial", "info", { humHz, partial: nearHum.number });
  }
  const durationSeconds = fit.endSeconds - fit.startSeconds;
  if (durationSeconds < SHORT_SECONDS) add("short-passage", "warning", { durationSeconds });
  return findings;
}

/**
 * The strongest partial that moves on a course of its own, where so many do that they belong to another string. Of single
 * notes, real and sampled, at most 5 partials stray and never a third of them; of two strings an octave apart, half.
 */
function strayedPartial({ strayedPartials, followedCount, partials }: HarmonicFit) {
  const share = strayedPartials.length / Math.max(1, strayedPartials.length + followedCount);
  if (strayedPartials.length < LEAST_STRAYED || share < STRAYED_SHARE) return null;
  return strayedPartials.map((number) => partials[number - 1]).reduce((a, b) => (b.power > a.power ? b : a));
}

/**
 * Pitches one to two octaves (or a twelfth) away that the lines of the spectrum leave possible. Only with one of these does a
 * second opinion count: by itself it is mostly a slip, since the second method has no spectrum to go by.
 */
function tenableOctavesHz(spectrum: AverageSpectrum, fit: HarmonicFit): number[] {
  const noise = fit.partials[0]?.noiseDensity ?? 0;
  const { frequencyHz } = fit;
  return [2, 3, 4].flatMap((factor) => {
    const between = (n: number) => n % factor !== 0;
    const lowerHz = frequencyHz / factor;
    const hasLower =
      lowerHz >= LOWEST_STRING_HZ &&
      seriesShare(spectrum, lowerHz, noise, between).share > TENABLE_LOWER_SHARE;
    const hasUpper = seriesShare(spectrum, frequencyHz, noise, between).share < TENABLE_UPPER_SHARE;
    return [...(hasLower ? [lowerHz] : []), ...(hasUpper ? [frequencyHz * factor] : [])];
  });
}

/** The finding for a string that does not hold its pitch; null where it does. */
export function unsteadyFinding(unsteadinessCents: number | null): Finding | null {
  if (unsteadinessCents === null || unsteadinessCents <= UNSTEADY_CENTS) return null;
  return { code: "unsteady", severity: "warning", values: { unsteadinessCents } };
}
