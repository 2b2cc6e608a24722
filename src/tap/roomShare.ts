import { sharedFft } from "../signal/sharedFft.js";
import type { DecayWindows } from "./DecayWindows.js";

/** Weight on the windows, per second: what rings long after the tap is mostly noise. */
const WEIGHT_DECAY = 6;
const FROM_HZ = 60;
const TO_HZ = 2600;
const BANDS = 16;
/** Bands whose sound stands less than this many times over the noise say nothing. */
const LEAST_OVER_NOISE = 10;
/** Bands that hold no mode hold the feet of those that others hold. */
const LEAST_OF_STRONGEST = 10 ** (-25 / 10);

/**
 * What the fit leaves of the taps against what was heard, as a ratio of powers: the mean over the bands in which the taps are strong. Noise, whose power
 * is known, is taken off. The rest is what does not follow the law of decaying vibrations: the room, modes too dense to be told.
 *
 * @param rest - what the fit leaves of each window
 */
export function roomShare(rest: readonly Float64Array[], data: DecayWindows): number {
  const heard = bandPowers(data.windows, data.rateHz);
  const left = bandPowers(rest, data.rateHz);
  const strongest = Math.max(...heard.power);
  const shares = [...heard.power].flatMap((power, b) => {
    const noise = heard.noise[b]!;
    const chance = noise * (1 + 2 / Math.sqrt(heard.cells[b]! * data.windows.length));
    return power > Math.max(LEAST_OVER_NOISE * noise, LEAST_OF_STRONGEST * strongest)
      ? [Math.max(0, left.power[b]! - chance) / (power - noise)]
      : [];
  });
  return shares.reduce((sum, one) => sum + one, 0) / Math.max(1, shares.length);
}

/** Powers, those of noise of variance 1, and how many independent values make up each. */
function bandPowers(windows: readonly Float64Array[], rateHz: number) {
  const length = windows[0]!.length;
  const fft = sharedFft(2 ** Math.ceil(Math.log2(length)));
  const values = new Float64Array(fft.size);
  const out = new Float64Array(2 * fft.size);
  const power = new Float64Array(BANDS);
  const noise = new Float64Array(BANDS);
  const cells = Float64Array.from({ length: BANDS }, (_, b) => {
    const edge = (index: number) => FROM_HZ * (TO_HZ / FROM_HZ) ** (index / BANDS);
    return Math.max(1, ((edge(b + 1) - edge(b)) * Math.PI) / WEIGHT_DECAY);
  });
  const keep = Math.exp(-WEIGHT_DECAY / rateHz);
  const ofNoise = (1 - keep ** (2 * length)) / (1 - keep * keep);
  for (const window of windows) {
    values.fill(0);
    for (let n = 0; n < length; n++) values[n] = window[n]! * keep ** n;
    fft.real(out, values);
    for (let i = 1; i < fft.size / 2; i++) {
      const band = Math.floor(
        (BANDS * Math.log((i * rateHz) / fft.size / FROM_HZ)) / Math.log(TO_HZ / FROM_HZ),
      );
      if (band < 0 || band >= BANDS) continue;
      power[band]! += out[2 * i]! ** 2 + out[2 * i + 1]! ** 2;
      noise[band]! += ofNoise;
    }
  }
  return { power, noise, cells };
}
