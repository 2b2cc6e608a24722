import { findPoles } from "./findPoles.js";
import { restOf } from "./restOf.js";

/** More steady lines than this are not looked for. */
const MOST_LINES = 10;
const ROUNDS = 2;
/** Shorter pieces don't tell a line from noise. */
const LEAST_SECONDS = 0.12;

/**
 * Pieces of noise without the steady lines in them (hum, a fan): those are no noise to be made white, for a filter that does
 * so takes the modes beside them away as well.
 */
export function withoutLines(pieces: readonly Float64Array[], rateHz: number): Float64Array[] {
  return pieces.map((piece) => {
    if (piece.length < LEAST_SECONDS * rateHz) return piece;
    let rest = piece;
    // The lines themselves are in the noise that they are judged by at first.
    for (let round = 0; round < ROUNDS; round++) {
      const level = Math.sqrt(rest.reduce((sum, value) => sum + value * value, 0) / rest.length);
      if (!(level > 0)) return rest;
      const data = { rateHz, windows: [rest.map((value) => value / level)] };
      const fit = findPoles(data, [], MOST_LINES);
      if (fit === null || fit.poles.length === 0) return rest;
      rest = restOf(fit, data)[0]!.map((value) => value * level);
    }
    return rest;
  });
}
