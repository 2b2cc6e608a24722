import {
  AnalysisError,
  errorSentence,
  type Instrument,
  readInstrument,
  type StringingDocument,
  stringingOf,
} from "../src/index.js";
import { packageVersion } from "./files/packageFile.js";
import { readTextFile } from "./files/readTextFile.js";
import { UsageError } from "./UsageError.js";

/** Options of `stringing`. */
export interface StringingChoice {
  readonly instrument: string;
  readonly against?: string;
  readonly otherLength?: number;
  readonly retune?: ReadonlyMap<string, string>;
  readonly tension?: number;
  readonly a4?: number;
  readonly tonic?: string;
}

// An instrument file is a page of text; anything beyond this is another file named by mistake.
const INSTRUMENT_LIMIT_BYTES = 1 << 20;

/**
 * Reads the instrument files and works the strings out.
 *
 * @throws UsageError with the sentence to print
 */
export function stringingDocumentOf(choice: StringingChoice): StringingDocument {
  const { otherLength, retune, tension, a4, tonic } = choice;
  const instrument = read(choice.instrument);
  const against = choice.against === undefined ? null : read(choice.against);
  return guarded(choice.instrument, () =>
    stringingOf(
      {
        instrument,
        against,
        otherLengthMm: otherLength ?? null,
        retune: retune ?? new Map(),
        tensionNewton: tension ?? null,
        a4Hz: a4 ?? null,
        tonic: tonic ?? null,
      },
      packageVersion(),
    ),
  );
}

function read(path: string): Instrument {
  return guarded(path, () => readInstrument(readTextFile(path, INSTRUMENT_LIMIT_BYTES)));
}

function guarded<T>(file: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof AnalysisError) throw new UsageError(errorSentence(error, file));
    throw error;
  }
}
