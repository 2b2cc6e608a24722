import type { MixtureReading } from "./MixedStrings.js";

/** What the pieces of a stretch gave, as one reading. */
export function joinedMixtures(pieces: readonly MixtureReading[]): MixtureReading {
  return {
    mixtures: pieces.flatMap(({ mixtures }) => mixtures),
    twins: pieces.flatMap(({ twins }) => twins),
    foreign: pieces.flatMap(({ foreign }) => foreign),
    moves: pieces.flatMap(({ moves }) => moves),
    changing: pieces.flatMap(({ changing }) => changing),
  };
}
