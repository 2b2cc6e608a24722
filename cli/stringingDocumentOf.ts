import {
  AnalysisError,
  errorSentence,
  type Instrument,
  otherInstrument,
  readInstrument,
  readStringing,
  type StringingDocument,
  stringingDocument,
  stringTargets,
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
  const file = choice.instrument;
  const strung = (one: Instrument) =>
    guarded(file, () => ({ instrument: one, targets: stringTargets(one, { a4Hz: a4, tonic }) }));
  const isChanged = otherLength !== undefined || retune !== undefined;
  const other =
    choice.against !== undefined
      ? read(choice.against)
      : isChanged
        ? guarded(file, () =>
            otherInstrument(instrument, { lengthMm: otherLength ?? null, notes: retune ?? new Map() }),
          )
        : null;
  const words = [
    ...(otherLength === undefined ? [] : [`melody strings of ${otherLength} mm`]),
    ...[...(retune ?? [])].map(([name, note]) => `${name} tuned to ${note}`),
  ].join(", ");
  return stringingDocument({
    toolVersion: packageVersion(),
    instrument: instrument.name,
    against: other === null ? null : choice.against === undefined ? `the same with ${words}` : other.name,
    settings: {
      a4Hz: a4 ?? instrument.a4Hz,
      tonic: tonic ?? instrument.tonic,
      tensionNewton: tension ?? null,
      otherLengthMm: otherLength ?? null,
      retune: Object.fromEntries(retune ?? []),
    },
    reading: readStringing(strung(instrument), tension ?? null, other === null ? null : strung(other)),
  });
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
