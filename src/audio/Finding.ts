/** How much a finding matters: `info` to know, `warning` weakens a reading, `problem` makes one unusable. */
export type FindingSeverity = "info" | "warning" | "problem";

/** The plain-word codes of everything a recording or a string can be found to have. */
export type FindingCode =
  | "clipping"
  | "dc-offset"
  | "mains-hum"
  | "noise-floor"
  | "noise-unknown"
  | "too-quiet"
  | "too-short"
  | "high-pass"
  | "high-pass-open"
  | "band-limit"
  | "gain-control"
  | "gain-control-open"
  | "channel-silent"
  | "channel-difference"
  | "channel-polarity"
  | "not-finite"
  | "truncated"
  | "size-unset"
  | "lossy-codec"
  | "media-damaged"
  | "octave-doubt"
  | "far-off"
  | "other-sound"
  | "several-strings"
  | "unsteady"
  | "short-passage"
  | "equal-strings"
  | "unmatched-passage"
  | "hum-near-partial"
  | "unread-stretch"
  | "not-separable"
  | "unison-locked"
  | "hidden-under"
  | "twin-strings"
  | "foreign-sound"
  | "changing-sound"
  | "partly-sounding"
  | "string-moved"
  | "equal-together"
  | "no-passage"
  | "passages-disagree"
  | "order-unused"
  | "anchor-not-heard";

/**
 * Something worth telling about a take or a string, as data. The sentence for it is made in `report/`.
 *
 * `values` carries the numbers (with their unit in the key: `humHz`, `levelDb`, `firstSeconds`).
 */
export interface Finding {
  readonly code: FindingCode;
  readonly severity: FindingSeverity;
  readonly values: Readonly<Record<string, number | string>>;
}
