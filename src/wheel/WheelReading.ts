/** One of the waves that a swing is made of. */
export interface SwingHarmonic {
  /** Waves a turn of the wheel: 1, 2, 3 or 4. */
  readonly number: number;
  /** Peak. */
  readonly amount: number;
  readonly interval95: readonly [number, number];
  /** Where in the turn it is highest, in degrees of the turn; the same again every 360 / number. */
  readonly highestDegrees: number;
  readonly highestInterval95Degrees: readonly [number, number];
}

/** One place round the wheel. */
export interface TurnPlace {
  /** Middle of the place, in degrees of the turn. */
  readonly degrees: number;
  /** Against the mean of the turn. */
  readonly mean: number;
  readonly interval95: readonly [number, number];
}

/** How pitch (in cents) or level (in decibels) of a string moves. */
export interface Swing {
  /** Peak (half of peak to peak) of what comes round with the wheel; null where none is shown. */
  readonly swing: number | null;
  /** 95 % interval of the swing; where none is shown, from 0 to what could have been missed. */
  readonly interval95: readonly [number, number];
  /** The waves that are shown, strongest first. */
  readonly harmonics: readonly SwingHarmonic[];
  /** 24 places round the wheel; empty in fewer than three whole turns. */
  readonly turn: readonly TurnPlace[];
  /** Standard deviation of what is slower than a turn, and of what is quicker and doesn't come round. */
  readonly drift: number;
  readonly jitter: number;
}

/** One string at the wheel. */
export interface StringWheel {
  readonly name: string;
  readonly pitch: Swing;
  readonly level: Swing;
}

/** Turn rates that explain what was heard, and what speaks for each. */
export interface TurnCandidate {
  readonly turnsPerSecond: number;
  readonly isTaken: boolean;
  /** Cycles of the strongest wave in one such turn. */
  readonly strongestWave: number;
  /**
   * `given`: counted by eye; `sub-wave`: waves that only fit this rate are shown; `no-sub-wave`: nothing is shown that the
   * faster rate would not explain; `strongest`: the rate of the strongest wave; `too-fast`: faster than a crank is turned.
   */
  readonly reason: "given" | "sub-wave" | "no-sub-wave" | "strongest" | "too-fast";
  /** Of the waves that would tell this rate from the faster one, by chance alone; null where it was not tested. */
  readonly probability: number | null;
}

/** Swings of two strings against each other. */
export interface PhaseDifference {
  readonly first: string;
  readonly second: string;
  readonly quantity: "pitch" | "level";
  /** The wave compared. */
  readonly harmonic: number;
  /** How much later in the turn the second is highest, in degrees of the turn, within half a wave either way. */
  readonly laterDegrees: number;
  readonly interval95Degrees: readonly [number, number];
  /** What the numbers allow: the same moment, not the same moment, or too wide to say. */
  readonly verdict: "together" | "apart" | "unclear";
}

/** A swing over all strings of a passage. */
export interface CommonSwing {
  /** Root mean square over the strings that show one; null where none does. */
  readonly swing: number | null;
  readonly interval95: readonly [number, number] | null;
  /** Share of the strongest wave that all strings have at the same moment, 0 to 1; null for fewer than two strings. */
  readonly togetherShare: number | null;
}

/** Why no turn was read. */
export type WheelRefusal = "too-short" | "no-swing" | "not-followed";

/** What one passage says about the wheel. */
export interface WheelPassage {
  readonly startSeconds: number;
  readonly endSeconds: number;
  /** Mean over the passage; null where no swing that keeps time is shown. */
  readonly turnsPerSecond: number | null;
  readonly turnsInterval95: readonly [number, number] | null;
  /** Standard deviation of the rate as a share of it. */
  readonly rateSpread: number | null;
  /** Chance of a line as strong as the strongest where nothing keeps time; null where nothing was looked at. */
  readonly falseAlarmProbability: number | null;
  readonly refusal: WheelRefusal | null;
  readonly candidates: readonly TurnCandidate[];
  readonly strings: readonly StringWheel[];
  readonly pitch: CommonSwing;
  readonly level: CommonSwing;
  readonly differences: readonly PhaseDifference[];
  /** What the strings' phases speak for. */
  readonly cause: "all-at-once" | "one-after-another" | "some-of-each" | "unclear" | "one-string";
}

/** What a take says about the wheel. */
export interface WheelReading {
  /** Medians over the passages in which each is shown; null where none is. */
  readonly turnsPerSecond: number | null;
  readonly pitchSwingCents: number | null;
  readonly levelSwingDb: number | null;
  readonly passages: readonly WheelPassage[];
}
