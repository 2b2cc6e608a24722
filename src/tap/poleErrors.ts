import { backSolved, cholesky, forwardSolved } from "../statistics/cholesky.js";
import type { DecayWindows } from "./DecayWindows.js";
import type { PoleFit } from "./fitPoles.js";
import { NOISE_FREEDOM, noiseBeside, soundAt } from "./noiseBeside.js";
import { restOf } from "./restOf.js";
import { roomShare } from "./roomShare.js";

/** How surely a pole is known. */
export interface PoleError {
  readonly lnFrequency: number;
  readonly lnQ: number;
  /** Of each window's amplitude, as a share of what noise of variance 1 gives. */
  readonly noise: number;
}

/** Standard errors of all poles, and what does not follow their law. */
export interface PoleErrors {
  readonly poles: readonly PoleError[];
  /** Degrees of freedom of the noise that they are judged by. */
  readonly freedom: number;
  /** What the room (or whatever else) adds against the sound, as a ratio of powers; 0 where none is to be seen. */
  readonly roomShare: number;
  /** What is reckoned with: that, and no less than the policy has it. */
  readonly reckonedRoomShare: number;
}

/** The fit itself takes in most of what the room does near a mode, and shows this share of it (simulated, 15 to 45 dB down). */
const SHOWN_SHARE = 0.3;
/** A room less than 40 dB down can't be had, and its part may be hidden in the noise: our policy. */
const LEAST_ROOM_SHARE = 1e-4;

/**
 * Standard errors of poles: the inverse of the information (the Cramer-Rao bound), times the noise as it is beside each mode, and
 * with the room's part.
 *
 * The room is the same after every tap, so it does not show in the spread over taps, and the fit adapts to it. Taken
 * as a random factor on the sound, of the share that is left over by the fit, it moves each pole as noise of that share of the whole sound
 * at the pole's place would. Simulated coverage of the 95 % intervals, rooms 15 to 45 dB down: DEVELOPERS.md.
 */
export function poleErrors(fit: PoleFit, data: DecayWindows): PoleErrors {
  const size = 2 * fit.poles.length;
  const factor = cholesky(fit.information, size);
  const share = roomShare(restOf(fit, data), data);
  const beside = noiseBeside(fit, data);
  const sound = soundAt(fit, data);
  const room = Math.max(LEAST_ROOM_SHARE, share / SHOWN_SHARE);
  const poles = fit.poles.map(({ frequencyHz, decay }, k) => {
    const noise = beside[k]! + (room * sound[k]!) / 2;
    const deviation = (index: number) => {
      if (factor === null) return Number.POSITIVE_INFINITY;
      const unit = new Float64Array(size);
      unit[index] = 1;
      return Math.sqrt(noise * backSolved(factor, forwardSolved(factor, unit))[index]!) * data.rateHz;
    };
    return {
      lnFrequency: deviation(2 * k + 1) / (2 * Math.PI * frequencyHz),
      lnQ: deviation(2 * k) / Math.max(decay, Number.MIN_VALUE),
      noise: beside[k]!,
    };
  });
  return { poles, freedom: NOISE_FREEDOM, roomShare: share / SHOWN_SHARE, reckonedRoomShare: room };
}
