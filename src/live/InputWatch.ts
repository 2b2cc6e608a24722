import type { Finding } from "../audio/Finding.js";
import { PlateauDetector } from "../audio/PlateauDetector.js";
import { quietFinding } from "../audio/quietFinding.js";
import { LARGEST_SAMPLE } from "../audio/withoutNonFinite.js";
import { amplitudeToDb } from "../units/decibels.js";

/** Watches the samples themselves, at full rate: how loud they are, whether tops are cut, whether they can be sound at all. */
export class InputWatch {
  private readonly sampleRateHz: number;
  private readonly detectors: readonly PlateauDetector[];
  private readonly sums: Float64Array;
  private readonly peaks: number[] = [];
  private readonly peakSteps: number;
  private largest = 0;
  private frameCount = 0;
  private clippedCount = 0;
  private lastClippedSeconds = 0;
  private nonFiniteCount = 0;
  private firstNonFiniteSeconds = 0;

  /** @param peakSteps - the peak is that of so many of the last steps */
  constructor(sampleRateHz: number, channelCount: number, peakSteps: number) {
    this.sampleRateHz = sampleRateHz;
    this.peakSteps = peakSteps;
    this.detectors = Array.from({ length: channelCount }, () => new PlateauDetector());
    this.sums = new Float64Array(channelCount);
  }

  /** @returns how many values of the step can't be sound */
  add(step: readonly Float32Array[]): number {
    const startSeconds = this.frameCount / this.sampleRateHz;
    this.frameCount += step[0].length;
    let peak = 0;
    let nonFinite = 0;
    for (const [c, samples] of step.entries()) {
      this.detectors[c].add(samples, LARGEST_SAMPLE);
      let lowest = Number.POSITIVE_INFINITY;
      let highest = Number.NEGATIVE_INFINITY;
      for (const value of samples) {
        if (!(Math.abs(value) <= LARGEST_SAMPLE)) {
          nonFinite++;
          continue;
        }
        this.sums[c] += value;
        if (value < lowest) lowest = value;
        if (value > highest) highest = value;
      }
      const mean = this.sums[c] / this.frameCount;
      if (highest >= lowest) {
        peak = Math.max(peak, highest - mean, mean - lowest);
        this.largest = Math.max(this.largest, highest, -lowest);
      }
    }
    this.peaks.push(peak);
    if (this.peaks.length > this.peakSteps) this.peaks.shift();
    if (this.nonFiniteCount === 0) this.firstNonFiniteSeconds = startSeconds;
    this.nonFiniteCount += nonFinite;
    const clipped = this.clipped();
    if (clipped.count !== this.clippedCount) this.lastClippedSeconds = this.frameCount / this.sampleRateHz;
    this.clippedCount = clipped.count;
    return nonFinite;
  }

  /** Largest sample of the last steps, 1 at full scale. */
  get peak(): number {
    return Math.max(0, ...this.peaks);
  }

  /** @param isSounding - whether a string sounds: without one a low level is no fault, but digital silence is */
  findings(isSounding: boolean): Finding[] {
    const findings: Finding[] = [];
    const samples = this.frameCount * this.detectors.length;
    if (this.nonFiniteCount > 0) {
      const values = {
        count: this.nonFiniteCount,
        share: this.nonFiniteCount / samples,
        firstSeconds: this.firstNonFiniteSeconds,
      };
      findings.push({ code: "not-finite", severity: "warning", values });
    }
    const { count, sampleCount, first } = this.clipped();
    if (count > 0) {
      const values = {
        count,
        firstSeconds: first / this.sampleRateHz,
        lastSeconds: this.lastClippedSeconds,
        share: sampleCount / samples,
        limitDb: amplitudeToDb(this.largest),
      };
      findings.push({ code: "clipping", severity: "warning", values });
    }
    const isKnown = this.peaks.length === this.peakSteps;
    const quiet = isKnown && (isSounding || this.peak === 0) ? quietFinding(this.peak) : null;
    return quiet === null ? findings : [...findings, quiet];
  }

  private clipped(): { count: number; sampleCount: number; first: number } {
    const found = this.detectors.map((detector) => detector.finish()).filter(({ count }) => count > 0);
    return {
      count: found.reduce((sum, { count }) => sum + count, 0),
      sampleCount: found.reduce((sum, { sampleCount }) => sum + sampleCount, 0),
      first: found.length === 0 ? 0 : Math.min(...found.map(({ first }) => first)),
    };
  }
}
