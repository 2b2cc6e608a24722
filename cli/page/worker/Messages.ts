import type {
  CompareDocument,
  HistoryDocument,
  KeyboardDocument,
  MeasureDocument,
  StringTarget,
  TakeAnswer,
} from "../../../src/index.js";
import type { ReportBlock, ReportPage } from "../../../src/pages.js";

/** What the strings should be, as it was chosen. */
export interface TargetsAsked {
  readonly from:
    | { readonly kind: "nothing" }
    | { readonly kind: "tuning"; readonly name: string }
    | { readonly kind: "instrument"; readonly yaml: string };
  /** Null where the instrument says, or 440. */
  readonly a4Hz: number | null;
  readonly tonic: string | null;
  /** Choices that few takes need; none of them where it is missing. */
  readonly more?: MoreTargets;
}

/** What else the commands can be told of a take, strings by their names; null where nothing is said. */
export interface MoreTargets {
  /** Semitones by which strings are raised. */
  readonly capo: Readonly<Record<string, number>>;
  /** Equal strings, as they were recorded one after another. */
  readonly order: readonly string[] | null;
  /** The only ones that sound, together. */
  readonly sounding: readonly string[] | null;
  /** The one that can't be moved. */
  readonly anchor: string | null;
  readonly lowEdgeHz: number | null;
}

/** A recording by its name. */
export interface NamedSound {
  readonly name: string;
  readonly blob: Blob;
  /** What the browser decoded of it, as WAV; null where the recording is WAV itself. */
  readonly decoded: Blob | null;
}

/** One side of a comparison. */
export interface AskedSide {
  readonly name: string;
  readonly takes: readonly NamedSound[];
}

/** A body that was tapped; without a name it is called by its recording. */
export interface NamedBody {
  readonly sound: NamedSound;
  readonly name: string | null;
}

/** What is asked of an instrument's strings; null where nothing is said. */
export interface StringingAsked {
  /** Another instrument beside it, as its file would say it. */
  readonly against: string | null;
  readonly otherLengthMm: number | null;
  /** Other notes, by the names of their strings. */
  readonly retune: Readonly<Record<string, string>>;
  readonly tensionNewton: number | null;
}

/** A microphone's response, as its file has it. */
export interface AskedMicrophone {
  readonly name: string;
  readonly text: string;
}

/** Readings of the set-up besides strings, comparison and keyboard, and what is chosen for them. */
export type MoreAsked =
  | { readonly what: "wheel"; readonly sound: NamedSound; readonly turnsPerSecond: number | null }
  | {
      readonly what: "trompette";
      readonly sound: NamedSound;
      /** The string that buzzes. */
      readonly string: string | null;
      readonly turnsPerSecond: number | null;
    }
  | {
      readonly what: "sympathetic";
      readonly sound: NamedSound;
      /** Strings that were plucked, by their names; null for the sympathetic ones, or all where there is none. */
      readonly strings: readonly string[] | null;
    }
  | {
      readonly what: "tap";
      readonly first: NamedBody;
      readonly other: NamedBody | null;
      readonly bowed: NamedSound | null;
    }
  | ({ readonly what: "stringing" } & StringingAsked);

/** What the page asks of the thread that reads. */
export type Request =
  | { readonly kind: "look"; readonly sound: NamedSound }
  | { readonly kind: "instrument"; readonly targets: TargetsAsked }
  | { readonly kind: "measure"; readonly sound: NamedSound; readonly targets: TargetsAsked }
  | {
      readonly kind: "compare";
      readonly sides: readonly AskedSide[];
      readonly targets: TargetsAsked;
      readonly equalGain: boolean;
      readonly microphone: AskedMicrophone | null;
    }
  | ({ readonly kind: "more"; readonly targets: TargetsAsked } & MoreAsked)
  /** Documents of readings that come from outside: are they ours, and what are their sentences? */
  | { readonly kind: "reword"; readonly documents: readonly unknown[] }
  /** What a log of takes says over time. */
  | {
      readonly kind: "history";
      /** Its name. */
      readonly log: string;
      readonly text: string;
      /** Null for all strings. */
      readonly strings: readonly string[] | null;
      /** A day; null for all of them. */
      readonly since: string | null;
    }
  /** Whether a file is a log of takes. */
  | { readonly kind: "log"; readonly text: string }
  /** Draws the charts of a reading that was kept; what only its recording shows is not there. */
  | { readonly kind: "draw"; readonly document: MeasureDocument }
  /** A stretch of a recording, to be heard. */
  | {
      readonly kind: "passage";
      readonly sound: NamedSound;
      readonly startSeconds: number;
      readonly endSeconds: number;
    }
  | {
      readonly kind: "keyboard";
      readonly sound: NamedSound;
      readonly targets: TargetsAsked;
      readonly string: string;
      readonly lengthMm: number | null;
      /** The scale of another string of the same keys. */
      readonly other: { readonly sound: NamedSound; readonly string: string } | null;
    };

/** A string as the instrument has it. */
export interface KnownString extends StringTarget {
  /** Semitones that it can be raised by. */
  readonly capo: readonly number[];
}

/** A block of a page with its charts drawn. */
export type DrawnBlock =
  | Exclude<ReportBlock, { readonly kind: "chart" }>
  | {
      readonly kind: "chart";
      readonly title: string;
      readonly description: string;
      readonly wideSvg: string;
      readonly narrowSvg: string;
    };

/** A page of the report with its charts drawn. */
export interface DrawnPage extends Pick<ReportPage, "title" | "subtitle" | "answer"> {
  readonly sections: readonly { readonly heading: string; readonly blocks: readonly DrawnBlock[] }[];
}

/** What comes back, for each kind of request, on the way to its end. */
export type Reply =
  | { readonly kind: "progress"; readonly share: number }
  /** Whether the recording is another format than WAV, which the browser has to decode first. */
  | { readonly kind: "looked"; readonly needsDecoding: boolean }
  | { readonly kind: "instrument"; readonly name: string; readonly strings: readonly KnownString[] }
  | { readonly kind: "measured"; readonly document: MeasureDocument; readonly answer: TakeAnswer }
  | {
      readonly kind: "reworded";
      readonly readings: readonly ({
        readonly document: MeasureDocument;
        readonly answer: TakeAnswer;
      } | null)[];
    }
  /** The mean of the channels. */
  | { readonly kind: "passage"; readonly samples: Float32Array<ArrayBuffer>; readonly sampleRateHz: number }
  /** A document as the command prints it, and its table. */
  | { readonly kind: "made"; readonly json: string; readonly csv: string }
  | { readonly kind: "compared"; readonly document: CompareDocument }
  | { readonly kind: "keyed"; readonly document: KeyboardDocument }
  /** With the names of all strings, also those that were not asked for. */
  | { readonly kind: "historied"; readonly document: HistoryDocument; readonly strings: readonly string[] }
  | { readonly kind: "logged"; readonly takeCount: number; readonly problemCount: number }
  | { readonly kind: "drawn"; readonly page: DrawnPage }
  /** Why it can't be done, as a sentence. */
  | { readonly kind: "failed"; readonly sentence: string }
  | { readonly kind: "done" };
