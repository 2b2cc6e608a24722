import type {
  CompareDocument,
  HistoryDocument,
  KeyboardDocument,
  MeasureDocument,
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

/** Readings of the set-up besides strings, comparison and keyboard. */
export type MoreKind = "wheel" | "trompette" | "sympathetic" | "tap" | "stringing";

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
    }
  /** One of the other readings; stringing needs no sound. */
  | {
      readonly kind: "more";
      readonly what: MoreKind;
      readonly sound: NamedSound | null;
      readonly targets: TargetsAsked;
      /** The string that buzzes, for `trompette`. */
      readonly string: string | null;
    }
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
    };

/** A string as the instrument has it. */
export interface KnownString {
  readonly name: string;
  readonly role: string;
  readonly note: string;
  readonly targetHz: number;
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
