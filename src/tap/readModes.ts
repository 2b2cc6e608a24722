import { sampleSpread } from "../statistics/sampleSpread.js";
import { tQuantile } from "../statistics/tQuantile.js";
import type { FreeRinging } from "./followBack.js";
import { judgePoles } from "./judgePoles.js";
import { modeDecay } from "./modeDecay.js";
import { type PoleErrors, poleErrors } from "./poleErrors.js";
import { polesByTap } from "./polesByTap.js";
import { strengthAgainst } from "./strengthAgainst.js";
import type { LeftOutVibration, ModeReading, TapModeValues, TapValue } from "./TapReading.js";
import { tapAmplitudes } from "./tapAmplitudes.js";

/** What a fit says of the body. */
export interface ReadModes {
  readonly modes: readonly ModeReading[];
  readonly leftOut: readonly LeftOutVibration[];
  /** See `PoleErrors`. */
  readonly roomShare: number;
}

/** A mode is found in a tap where its amplitude is this many standard errors. */
const LEAST_OVER_NOISE = 4;

/** Makes readings of the vibrations that are modes; the others are named with the reason. */
export function readModes(ringing: FreeRinging, filter: Float64Array): ReadModes {
  const { fit, data } = ringing;
  const { poles } = fit;
  const errors = poleErrors(fit, data);
  const { amplitudes, overNoise } = tapAmplitudes(ringing, filter);
  const isFound = overNoise.map((tap) =>
    Array.from(tap, (ratio, k) => ratio > LEAST_OVER_NOISE * Math.sqrt(errors.poles[k]!.noise)),
  );
  const tapsFound = poles.map((_, k) => isFound.filter((tap) => tap[k]).length);
  const kinds = judgePoles(poles, errors.poles, tapsFound, data.windows.length);
  const byTap = polesByTap(
    fit,
    data,
    errors.poles.map(({ noise }) => noise),
  );
  const order = [...poles.keys()].sort((a, b) => poles[a]!.frequencyHz - poles[b]!.frequencyHz);
  const modes = order.filter((k) => kinds[k] === "mode");
  const ofMode = (k: number) => amplitudes.map((tap) => tap[k]!);
  const power = (k: number) => ofMode(k).reduce((sum, value) => sum + value * value, 0);
  const reference = modes.reduce((best, k) => (best < 0 || power(k) > power(best) ? k : best), -1);
  const own = (k: number): (TapModeValues | null)[] =>
    byTap.map((tap, j) => {
      const pole = isFound[j]![k] ? tap[k] : null;
      if (!pole) return null;
      const strengthDb = 20 * Math.log10(amplitudes[j]![k]! / amplitudes[j]![reference]!);
      return { frequencyHz: pole.frequencyHz, q: (Math.PI * pole.frequencyHz) / pole.decay, strengthDb };
    });
  return {
    modes: modes.map((k) =>
      modeOf(poles[k]!, errors, k, {
        strength: strengthAgainst(
          ofMode(k),
          ofMode(reference),
          k === reference ? 0 : errors.reckonedRoomShare,
        ),
        byTap: own(k),
        tapsFound: tapsFound[k]!,
        others: poles.filter((_, l) => l !== k && kinds[l] === "mode"),
      }),
    ),
    leftOut: order.flatMap((k): LeftOutVibration[] => {
      const kind = kinds[k]!;
      const { frequencyHz, decay } = poles[k]!;
      if (kind === "mode") return [];
      return [{ frequencyHz, q: decay > 0 ? (Math.PI * frequencyHz) / decay : null, reason: kind }];
    }),
    roomShare: errors.roomShare,
  };
}

interface ModeParts {
  readonly strength: ReturnType<typeof strengthAgainst>;
  readonly byTap: readonly (TapModeValues | null)[];
  readonly tapsFound: number;
  readonly others: readonly { frequencyHz: number; decay: number }[];
}

function modeOf(
  { frequencyHz, decay }: { frequencyHz: number; decay: number },
  { poles, freedom }: PoleErrors,
  k: number,
  { strength, byTap, tapsFound, others }: ModeParts,
): ModeReading {
  const { lnFrequency, lnQ } = poles[k]!;
  const q = (Math.PI * frequencyHz) / decay;
  const t = tQuantile(0.975, freedom);
  const { bandwidthHz, decaySeconds, t60Seconds } = modeDecay(frequencyHz, q);
  const spreadOf = (value: (one: TapModeValues) => number) =>
    sampleSpread(byTap.flatMap((one) => (one === null ? [] : [value(one)]))).standardDeviation;
  const around = (value: number, lnError: number, spread: number | null): TapValue => ({
    value,
    interval95: [value * Math.exp(-t * lnError), value * Math.exp(t * lnError)],
    spread,
  });
  const widthOf = (one: { decay: number }) => one.decay / Math.PI;
  return {
    frequencyHz: around(
      frequencyHz,
      lnFrequency,
      spreadOf((one) => one.frequencyHz),
    ),
    q: around(
      q,
      lnQ,
      spreadOf((one) => one.q),
    ),
    bandwidthHz,
    decaySeconds,
    // T60 is ln 1000 over the decay, and ln Q and ln T60 differ by ln f, which is known far better.
    t60Seconds: around(
      t60Seconds,
      lnQ,
      spreadOf((one) => modeDecay(one.frequencyHz, one.q).t60Seconds),
    ),
    strengthDb: {
      value: strength.value,
      interval95: strength.interval95,
      spread: spreadOf((one) => one.strengthDb),
    },
    tapsFound,
    isOverlapping: others.some(
      (other) => Math.abs(other.frequencyHz - frequencyHz) < Math.max(widthOf({ decay }), widthOf(other)),
    ),
    byTap,
    errors: { lnFrequency, lnQ, strengthDb: strength.standardError },
  };
}
