import type { MixedStrings, MixtureReading, StringMove } from "../strings/MixedStrings.js";

/** Mixtures that stand against a reading as one string, and the strings that moved in them. */
export interface SureReading {
  readonly mixtures: readonly MixedStrings[];
  readonly moves: readonly StringMove[];
}

/**
 * Of a joint reading what is surer than a reading as one string: two strings or more, all of which explain what they
 * should. Two strings an octave or a fifth apart may pass for the lower one alone.
 */
export function sureReading({ mixtures, moves }: MixtureReading): SureReading {
  const sure = mixtures.filter(
    ({ strings }) => strings.length >= 2 && strings.every(({ reading }) => reading.findings.length === 0),
  );
  return { mixtures: sure, moves: sure.length === 0 ? [] : moves };
}
