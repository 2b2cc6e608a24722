import { thirdOctaveBands } from "./bandEdges.js";

/**
 * Sets of strings that hang together: two strings belong to one set where partials of both fall into the same third-octave band,
 * or where a chain of such strings joins them (components of the bipartite graph of strings and bands).
 *
 * Between two sets no band says how strong the one is against the other.
 */
export function connectedStrings(
  partials: readonly { readonly string: string; readonly frequencyHz: number }[],
): string[][] {
  let sets: { readonly strings: ReadonlySet<string>; readonly bands: ReadonlySet<number> }[] = [];
  for (const { string, frequencyHz } of partials) {
    const band = bandIndex(frequencyHz);
    if (band < 0) continue;
    const touched = sets.filter(({ strings, bands }) => strings.has(string) || bands.has(band));
    sets = [
      ...sets.filter((set) => !touched.includes(set)),
      {
        strings: new Set([...touched.flatMap(({ strings }) => [...strings]), string]),
        bands: new Set([...touched.flatMap(({ bands }) => [...bands]), band]),
      },
    ];
  }
  return sets.map(({ strings }) => [...strings]);
}

/** Index in `thirdOctaveBands` of the band that a frequency falls in; -1 for none. */
export function bandIndex(frequencyHz: number): number {
  return thirdOctaveBands.findIndex(
    ({ lowerHz, upperHz }) => frequencyHz >= lowerHz && frequencyHz < upperHz,
  );
}
