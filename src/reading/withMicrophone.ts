import { lowRegister } from "../body/lowRegister.js";
import type { MicrophoneResponse } from "../body/MicrophoneResponse.js";
import { microphoneDb } from "../body/microphoneDb.js";
import { oddToEvenDb } from "../body/oddToEvenDb.js";
import { tristimulus } from "../body/tristimulus.js";
import type { StringReading } from "../strings/StringReading.js";
import { powerToDb } from "../units/decibels.js";
import type { TakeReading } from "./TakeReading.js";
import { takeBody } from "./takeBody.js";
import { takeLowRegister } from "./takeLowRegister.js";

/**
 * The reading as a microphone without a response of its own would have given it: the response is taken off every partial's
 * level, and everything made of levels is made anew. Pitch stays, and so do signal-to-noise ratios, since the noise of
 * the room came through the same microphone. Levels of single passages are not corrected but left out.
 *
 * @param lowEdgeHz - where the low register ends
 */
export function withMicrophone(
  take: TakeReading,
  response: MicrophoneResponse,
  lowEdgeHz?: number,
): TakeReading {
  const sounds = take.sounds.map((sound) => ({
    ...sound,
    partials: sound.partials.map(({ frequencyHz, power }) => ({
      frequencyHz,
      power: power * 10 ** (-microphoneDb(response, frequencyHz) / 10),
    })),
  }));
  const strings = take.strings.map((string) => corrected(string, response, lowEdgeHz));
  return {
    ...take,
    strings,
    body: takeBody([strings], lowEdgeHz),
    sounds,
    lowRegister: takeLowRegister(sounds, lowEdgeHz),
  };
}

function corrected(string: StringReading, response: MicrophoneResponse, lowEdgeHz?: number): StringReading {
  const powers = string.partials.map(({ frequencyHz, fullScaleDb }) =>
    fullScaleDb === null ? null : 10 ** ((fullScaleDb - microphoneDb(response, frequencyHz)) / 10),
  );
  const total = powers.reduce<number>((sum, power) => sum + (power ?? 0), 0);
  if (!(total > 0)) return string;
  // What had no level for its shared partials has none now.
  const isWhole = string.levelDb !== null;
  const amplitudes = powers.map((power) => Math.sqrt(power ?? 0));
  const register = lowRegister(
    string.partials.flatMap(({ frequencyHz }, i) => {
      const power = powers[i];
      return power === null ? [] : [{ frequencyHz, power }];
    }),
    lowEdgeHz,
  );
  return {
    ...string,
    levelDb: isWhole ? powerToDb(total) : null,
    partials: string.partials.map((partial, i) => {
      const power = powers[i];
      return power === null
        ? partial
        : { ...partial, levelDb: powerToDb(power / total), fullScaleDb: powerToDb(power) };
    }),
    lowRegisterDb: isWhole ? register.lowRegisterDb : null,
    octaveBandsDb: isWhole ? register.octaveBandsDb : null,
    centroidHz: isWhole ? register.centroidHz : null,
    tristimulus: isWhole ? tristimulus(amplitudes) : null,
    oddToEvenDb: isWhole ? oddToEvenDb(amplitudes.map((amplitude) => amplitude ** 2)) : null,
    frameCentroidHz: null,
    harmonicToNoiseDb: null,
    perPassage: string.perPassage.map((passage) => ({ ...passage, levelDb: null, harmonicToNoiseDb: null })),
  };
}
