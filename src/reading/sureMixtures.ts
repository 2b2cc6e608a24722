import type { MixedStrings, MixtureReading } from "../strings/MixedStrings.js";

/**
 * The joint readings that are surer than a reading as one string: two strings or more, all of which explain what they
 * should. Two strings an octave or a fifth apart may pass for the lower one alone.
 */
export function sureMixtures({ mixtures }: MixtureReading): readonly MixedStrings[] {
  return mixtures.filter(
    ({ strings }) => strings.length >= 2 && strings.every(({ reading }) => reading.findings.length === 0),
  );
}
