import type { Finding } from "../audio/Finding.js";
import type { RecordingEncoding } from "../audio/RecordingEncoding.js";

/** A value, where it can lie, and how far single strokes differ. */
export interface StrokeMean {
  readonly mean: number;
  /** Of the mean, 95 %; null for fewer than three strokes. */
  readonly interval95: readonly [number, number] | null;
}

/** A standard deviation with its 95 % interval. */
export interface Spread {
  readonly standardDeviation: number;
  readonly interval95: readonly [number, number];
}

/** One stroke of the wrist, as the buzz shows it. */
export interface StrokeReading {
  /** Where the buzz is first heard: its first knock of half the usual amplitude or more, or where noise passes half of its rise. */
  readonly onsetSeconds: number;
  /** In 95 of 100 strokes like it the onset lies this near (from trials with known onsets). */
  readonly withinSeconds: number;
  /** True where, if anything, it is not sure which of several knocks is the first loud enough to count; else it is noise. */
  readonly isRough: boolean;
  /** Where the wheel's stroke itself begins, by the rise of the whole buzz: up to one or two knocks before the onset. */
  readonly strokeSeconds: number;
  /** In 95 of 100 strokes like it that lies this near. */
  readonly strokeWithinSeconds: number;
  /** From the onset to where the amplitude falls below half of its height, or the next stroke begins. */
  readonly durationSeconds: number;
  /** Mean power that the buzz adds above 1 kHz while it lasts, against that of the drone's own tone; null where none is left over. */
  readonly strengthDb: number | null;
  /** True where it is 6 dB or more weaker than the median stroke. */
  readonly isWeak: boolean;
}

/** A pitch with its interval. */
export interface PitchReading {
  readonly frequencyHz: number;
  /** From the target; null where none was given. */
  readonly deviationCents: number | null;
  /** 95 % interval, as cents about `frequencyHz`: lower and upper end. */
  readonly interval95Cents: readonly [number, number] | null;
}

/** Why the pitch of the string can't be read apart. */
export type PitchRefusal = "shared-partials" | "not-followed" | "too-short";

/** Why strokes a turn can't be told. */
export type TurnRefusal = "no-strokes" | "no-silence" | "no-swing";

/**
 * `strokes`: it buzzes in strokes; `continuous`: the sound above 1 kHz outweighs the drone's tone all the time; `none`: it does not
 * buzz; `unclear`: sudden sounds that may be strokes, see `doubt`.
 */
export type BuzzState = "strokes" | "continuous" | "none" | "unclear";

/** What a take says about the buzzing bridge. */
export interface TrompetteReading {
  readonly durationSeconds: number;
  readonly sampleRateHz: number;
  readonly channelCount: number;
  /** How its file holds it; not there for samples that come from no file. */
  readonly encoding?: RecordingEncoding | undefined;
  /** The string's name; null where none was named. */
  readonly string: string | null;
  readonly targetHz: number | null;
  /** Other strings of the instrument that sound along. */
  readonly sounding: readonly string[];
  readonly state: BuzzState;
  /** Why it is unclear; null where it is not. */
  readonly doubt: StrokeDoubt | null;
  /** The band in which the buzz was looked for, in hertz. */
  readonly band: readonly [number, number] | null;
  /** Time in which a string sounded and was looked at; and of it that in which nothing buzzes. */
  readonly soundingSeconds: number;
  readonly silentSeconds: number;
  readonly strokes: readonly StrokeReading[];
  /** What strengths are against: the drone alone, or all strings that sound. */
  readonly strengthAgainst: "own-tone" | "all-strings";
  readonly strengthDb: StrokeMean | null;
  readonly strengthSpreadDb: Spread | null;
  readonly durationMeanSeconds: StrokeMean | null;
  /** Of neighbouring strokes, pauses of more than two and a half of them left out. */
  readonly strokesPerSecond: number | null;
  /** Of the wheel's strokes about the middle between their neighbours, drift of the pace taken out. */
  readonly timingSpreadSeconds: Spread | null;
  /** Where a stroke would have been due and none was found. */
  readonly missedSeconds: readonly number[];
  readonly turnsPerSecond: number | null;
  readonly turnsInterval95: readonly [number, number] | null;
  /** `counted`: given by the caller; `silent-part`: from the swing of the drone where it does not buzz. */
  readonly turnsBasis: "counted" | "silent-part" | null;
  readonly turnRefusal: TurnRefusal | null;
  readonly strokesPerTurn: number | null;
  readonly silentPitch: PitchReading | null;
  readonly buzzingPitch: PitchReading | null;
  /** Buzzing less silent, stroke by stroke against the silence beside it. */
  readonly differenceCents: StrokeMean | null;
  readonly pitchRefusal: PitchRefusal | null;
  /** Where it is unclear: the sudden sounds of one colour. */
  readonly possibleSeconds: readonly number[];
  /** Sudden sounds that were not taken for strokes. */
  readonly otherSounds: readonly { readonly seconds: number; readonly reason: OtherSoundReason }[];
  /** Power above 1 kHz where nothing buzzes, over that of everything below. */
  readonly upperShareDb: number | null;
  readonly findings: readonly TrompetteFinding[];
}

/**
 * `note`: something with a pitch began; `knock`: over at once; `unlike`: its colour is not that of the other strokes; `alone`: one of three at
 * most that could be strokes by themselves, among many notes or knocks.
 */
export type OtherSoundReason = "note" | "knock" | "unlike" | "alone";

/** Why sudden sounds of one colour may be no strokes: too few, or as notes, knocks or chance sounds are. */
export type StrokeDoubt = "few" | "notes" | "knocks" | "no-pace";

/** The plain-word codes of what a trompette take can be found to have, besides those of the recording. */
export type TrompetteFindingCode =
  | "no-string"
  | "no-buzz"
  | "continuous-buzz"
  | "unclear-sounds"
  | "little-silence"
  | "missed-strokes"
  | "weak-strokes"
  | "uneven-strokes"
  | "unsure-onsets"
  | "other-sounds"
  | "strings-along"
  | "pitch-not-read"
  | "turns-unknown"
  | "upper-band-missing"
  | "no-target";

/** Something to tell about a take, as data: of the recording, or of the buzz. */
export type TrompetteFinding = Finding | TrompetteOwnFinding;

/** Of the buzz itself. */
export interface TrompetteOwnFinding {
  readonly code: TrompetteFindingCode;
  readonly severity: Finding["severity"];
  readonly values: Readonly<Record<string, number | string>>;
}

/** A string that may sound and the pitch it should have. */
export interface NamedTarget {
  readonly name: string;
  readonly frequencyHz: number;
}

/** How a take is to be read. */
export interface TrompetteOptions {
  /** The trompette string; null where nothing is named, then the take's own pitch is taken. */
  readonly string: NamedTarget | null;
  /** Other strings of the instrument that may sound along. */
  readonly others?: readonly NamedTarget[];
  /** Turns of the wheel a second, counted by eye. */
  readonly turnsPerSecond?: number;
  /** Called now and then with the share done, 0 to 1. */
  readonly onProgress?: (doneShare: number) => void;
}
