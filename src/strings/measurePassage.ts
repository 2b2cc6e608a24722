import type { AudioRecording } from "../audio/AudioRecording.js";
import type { RecordingSurvey } from "../audio/RecordingSurvey.js";
import { readAnalysisBand } from "../audio/readAnalysisBand.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { FIT_MARGIN_SECONDS, fitHarmonics } from "../partials/fitHarmonics.js";
import type { HarmonicFit } from "../partials/HarmonicFit.js";
import { noiseBetweenPartials } from "../partials/noiseBetweenPartials.js";
import { type PartialsElsewhere, partialsElsewhere } from "../partials/partialsElsewhere.js";
import { seriesCheck } from "../partials/seriesCheck.js";
import { withoutHum } from "../partials/withoutHum.js";
import type { SteadyPassage } from "../pitch/SteadyPassage.js";
import { type AverageSpectrum, averageSpectrum } from "../signal/averageSpectrum.js";
import { decimationFactor } from "../signal/Decimator.js";
import { frameCentroidHz } from "../signal/frameCentroidHz.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import { totalOf } from "../signal/totalOf.js";
import type { MeasuredPassage, MixedPassage } from "./MeasuredPassage.js";
import { movementAlone } from "./movementAlone.js";
import { otherChannelFinding } from "./otherChannelFinding.js";
import { passageFindings } from "./passageFindings.js";
import { pitchSteadiness } from "./pitchSteadiness.js";

const SPECTRUM_SECONDS = 0.5;
/** The tone between 44.7 Hz and the top octave band is what the low-register measures are about. */
const NOISE_FROM_HZ = 44.668;
/** A channel 30 dB weaker than the strongest has nothing to tell. */
const LEAST_CHANNEL_SHARE = 1e-3;

/** Channel with its spectrum; the pitch comes from the channel that stands furthest above its noise. */
interface Channel {
  readonly segment: AnalysisSegment;
  readonly spectrum: AverageSpectrum;
}

/**
 * Measures the string that sounds in a steady passage.
 *
 * The octave is checked on the spectrum of the whole passage, then the harmonic fit is made on the channel with the
 * best signal-to-noise; levels are the power mean of the channels, which are never added as samples.
 *
 * @param humFrequenciesHz - lines of mains hum found in the pauses: partials beside them don't steer the pitch
 * @returns null where no string can be followed in it
 */
export function measurePassage(
  recording: AudioRecording,
  survey: RecordingSurvey,
  passage: SteadyPassage,
  humFrequenciesHz: readonly number[],
): MeasuredPassage | MixedPassage | null {
  const channels = readChannels(recording, survey, passage);
  const roughHz = passage.frequencyHz;
  const best = channels.reduce((a, b) => (toneOverNoise(b, roughHz) > toneOverNoise(a, roughHz) ? b : a));
  // Hum beside a drone passes for a series of its own, an octave down.
  const lines = withoutHum(best.spectrum, humFrequenciesHz);
  const check = seriesCheck(lines, roughHz, noiseBetweenPartials(lines, roughHz, 3) ?? 0);
  const { startSeconds, endSeconds } = passage;
  if (check.togetherHz !== null) return { startSeconds, endSeconds, togetherHz: check.togetherHz };
  const fit = fitHarmonics(
    best.segment,
    startSeconds,
    endSeconds,
    check.frequencyHz,
    humFrequenciesHz,
    best.spectrum,
  );
  if (fit === null) return null;

  const inChannel = channels.map((channel) => channelPartials(channel, best, fit));
  const partials = fit.partials.map(({ number, signalToNoise }, n) => ({
    number,
    signalToNoise,
    power: inChannel.reduce((sum, { powers }) => sum + powers[n], 0) / channels.length,
  }));
  const noise = channels.map(({ spectrum }) => noisePower(spectrum, fit.frequencyHz, partials.length));
  const known = noise.filter((power) => power !== null);
  const steadiness = pitchSteadiness(fit);
  const { segment, spectrum } = best;
  const findings = passageFindings(
    segment,
    spectrum,
    fit,
    steadiness.unsteadinessCents,
    check.otherHz,
    humFrequenciesHz,
  );
  const isTold = findings.some(({ code }) => code === "several-strings");
  // A string that stands in another channel alone is not heard in the one that was read.
  const elsewhere = channels
    .flatMap((channel, c) =>
      channel === best || !isStrongEnough(channel, channels)
        ? []
        : (otherChannelFinding(
            channel.spectrum,
            fit,
            inChannel[c],
            steadiness.unsteadinessCents,
            humFrequenciesHz,
          ) ?? []),
    )
    .sort((a, b) => Number(b.values.levelDb) - Number(a.values.levelDb));
  return {
    startSeconds,
    endSeconds,
    frequencyHz: fit.frequencyHz,
    steadiness,
    partials,
    noisePower: known.length === 0 ? null : known.reduce((sum, power) => sum + power, 0) / known.length,
    frameCentroidHz: frameCentroidHz(best.segment.samples, best.segment.sampleRateHz),
    findings: isTold ? findings : [...findings, ...elsewhere.slice(0, 1)],
    movement: movementAlone(fit),
  };
}

function readChannels(recording: AudioRecording, survey: RecordingSurvey, passage: SteadyPassage): Channel[] {
  const sampleRateHz = recording.sampleRateHz / decimationFactor(recording.sampleRateHz);
  const first = Math.max(0, Math.round((passage.startSeconds - FIT_MARGIN_SECONDS) * sampleRateHz));
  const firstSeconds = first / sampleRateHz;
  const span = { startSeconds: firstSeconds, endSeconds: passage.endSeconds + FIT_MARGIN_SECONDS };
  const size = nextPowerOfTwo(SPECTRUM_SECONDS * sampleRateHz);
  return readAnalysisBand(recording, survey, span).map((samples) => ({
    segment: { samples, sampleRateHz, firstSeconds },
    spectrum: averageSpectrum(samples, sampleRateHz, size),
  }));
}

function toneOverNoise({ spectrum }: Channel, frequencyHz: number): number {
  const noise =
    noiseBetweenPartials(spectrum, frequencyHz, 2) ?? noiseBetweenPartials(spectrum, frequencyHz, 1);
  const total = totalOf(spectrum.density);
  return total / Math.max(noise ?? 1e-30, 1e-30);
}

function isStrongEnough({ spectrum }: Channel, channels: readonly Channel[]): boolean {
  const power = (one: AverageSpectrum) => one.density.reduce((sum, density) => sum + density, 0);
  return power(spectrum) > LEAST_CHANNEL_SHARE * Math.max(...channels.map((one) => power(one.spectrum)));
}

function channelPartials(channel: Channel, best: Channel, fit: HarmonicFit): PartialsElsewhere {
  if (channel === best) {
    return { powers: fit.partials.map(({ power }) => power), strayPower: 0, strayNumber: null };
  }
  const noise = fit.partials.map(({ number }) =>
    noiseBetweenPartials(channel.spectrum, fit.frequencyHz, number),
  );
  return partialsElsewhere(channel.segment, fit, noise);
}

/** The density between the partials, summed over the band as if it went on under them. */
function noisePower(spectrum: AverageSpectrum, frequencyHz: number, partialCount: number): number | null {
  let sum = 0;
  for (let number = 1; number <= partialCount; number++) {
    const density = noiseBetweenPartials(spectrum, frequencyHz, number);
    if (density === null) return null;
    const fromHz = number === 1 ? NOISE_FROM_HZ : (number - 0.5) * frequencyHz;
    sum += density * Math.max(0, (number + 0.5) * frequencyHz - fromHz);
  }
  return sum;
}
