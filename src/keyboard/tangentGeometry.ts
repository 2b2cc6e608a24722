/** How far and which way a tangent's edge is to go. */
export interface TangentMove {
  readonly moveMm: number;
  readonly towards: "nut" | "bridge" | null;
}

/** A tangent that is turned on its shaft moves its edge by no more than this (common practice, no source). */
export const LARGEST_TURN_MM = 3;

/** 1200 / ln 2, so that a small change of length as a share of it, times this, is cents. */
const CENTS_PER_RATIO = 1200 / Math.LN2;

/** Length from tangent to bridge that sounds so many cents over the open string: L 2^(-c/1200). */
export function soundingLengthMm(lengthMm: number, centsOverOpen: number): number {
  return lengthMm * 2 ** (-centsOverOpen / 1200);
}

/** By how many cents a stopped string rises where its sounding length shrinks by a millimetre: 1731.23 / length. */
export function centsPerMm(soundingLength: number): number {
  return CENTS_PER_RATIO / soundingLength;
}

/**
 * The move of a tangent's edge that makes a key right: where it is sharp its sounding length must grow, so the edge goes
 * towards the nut. Exact for a string whose pitch goes as 1 over its length.
 *
 * @param wantedCents - of the key over the open string
 * @param deviationCents - of the key from that, sharp positive
 */
export function tangentMove(lengthMm: number, wantedCents: number, deviationCents: number): TangentMove {
  const growsMm =
    soundingLengthMm(lengthMm, wantedCents) - soundingLengthMm(lengthMm, wantedCents + deviationCents);
  return { moveMm: Math.abs(growsMm), towards: growsMm === 0 ? null : growsMm > 0 ? "nut" : "bridge" };
}

/** Shift of the nut, positive towards the bridge, that raises the open string alone by so many cents. */
export function nutShiftMm(lengthMm: number, cents: number): number {
  return lengthMm * (1 - 2 ** (-cents / 1200));
}

/**
 * Shift of the bridge, positive away from the nut, that takes off a pattern of `cents` (2^(n/12) - 1) over the open string,
 * the open string being tuned again: the sounding length of key n grows by it as much as the open one's, but is 2^(n/12)
 * times shorter. To first order.
 */
export function bridgeShiftMm(lengthMm: number, cents: number): number {
  return cents / centsPerMm(lengthMm);
}
