/** Times of the analysis frames: frame m is centred on `firstSeconds + m * hopSeconds` and spans two hops. */
export interface FrameGrid {
  readonly firstSeconds: number;
  readonly hopSeconds: number;
  readonly count: number;
}

/** Aim for the hop; the true one is a whole number of periods. */
const HOP_SECONDS = 0.01;

/**
 * Frames whose hop is a whole number of periods, so that the zeros of the two-hop Hann window fall on all neighbouring
 * partials and none leaks into another.
 */
export function frameGrid(startSeconds: number, endSeconds: number, frequencyHz: number): FrameGrid {
  const hopSeconds = Math.max(1, Math.round(HOP_SECONDS * frequencyHz)) / frequencyHz;
  return {
    firstSeconds: startSeconds,
    hopSeconds,
    count: Math.max(2, Math.floor((endSeconds - startSeconds) / hopSeconds) + 1),
  };
}
