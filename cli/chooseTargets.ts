import {
  AnalysisError,
  errorSentence,
  findTuning,
  type Instrument,
  instrumentRanges,
  type MeasureDocument,
  readInstrument,
  type StringTarget,
  stringTargets,
} from "../src/index.js";
import { readTextFile } from "./files.js";
import { UsageError } from "./UsageError.js";

/** Options that decide what each string should be. */
export interface TargetChoice {
  readonly instrument?: string;
  readonly tuning?: string;
  readonly a4?: number;
  readonly tonic?: string;
  readonly capo?: ReadonlyMap<string, number>;
  readonly order?: readonly string[];
  readonly sounding?: readonly string[];
}

/** The strings to measure against and how they were chosen. */
export interface ChosenTargets {
  readonly instrumentName: string | null;
  readonly targets: readonly StringTarget[] | null;
  readonly settings: MeasureDocument["settings"];
}

// An instrument file is a page of text; anything beyond this is another file named by mistake.
const instrumentLimitBytes = 1 << 20;

/**
 * Finds the targets that the options ask for.
 *
 * @throws UsageError with the sentence to print
 */
export function chooseTargets(choice: TargetChoice): ChosenTargets {
  try {
    const instrument = chosenInstrument(choice);
    const a4Hz = choice.a4 ?? instrument?.a4Hz ?? 440;
    if (!instrument) {
      const needing = (["tonic", "capo", "order", "sounding"] as const).filter(
        (name) => choice[name] !== undefined,
      );
      if (needing.length > 0) {
        throw new UsageError(
          `--${needing.join(", --")} can only be used with --instrument FILE or --tuning NAME.`,
        );
      }
      checkA4(a4Hz);
    }
    const targets = instrument && stringTargets(instrument, { a4Hz, tonic: choice.tonic, capo: choice.capo });
    const order = choice.order?.map((name) => nameOfTarget("order", name, targets ?? []));
    const sounding = choice.sounding?.map((name) => nameOfTarget("sounding", name, targets ?? []));
    return {
      instrumentName: instrument?.name ?? null,
      targets,
      settings: {
        a4Hz,
        tonic: choice.tonic ?? instrument?.tonic ?? null,
        temperament: instrument?.temperament ?? null,
        tuning: choice.tuning === undefined ? null : (instrument?.name ?? null),
        capo: Object.fromEntries(choice.capo ?? []),
        order: order ?? null,
        sounding: sounding ?? null,
      },
    };
  } catch (error) {
    if (error instanceof AnalysisError) throw new UsageError(errorSentence(error, choice.instrument));
    throw error;
  }
}

function chosenInstrument(choice: TargetChoice): Instrument | null {
  if (choice.instrument !== undefined) {
    return readInstrument(readTextFile(choice.instrument, instrumentLimitBytes));
  }
  return choice.tuning === undefined ? null : findTuning(choice.tuning);
}

function checkA4(given: number): void {
  const [allowedMinimum, allowedMaximum] = instrumentRanges.a4Hz;
  if (given >= allowedMinimum && given <= allowedMaximum) return;
  throw new AnalysisError("value-out-of-range", { name: "a4Hz", given, allowedMinimum, allowedMaximum });
}

/** Names are compared in one Unicode form: a terminal may compose accents differently from the file. */
function nameOfTarget(option: string, given: string, targets: readonly StringTarget[]): string {
  const found = targets.find((target) => target.name.normalize("NFC") === given.normalize("NFC"));
  if (found) return found.name;
  const known = targets.map((target) => target.name).join(", ");
  throw new AnalysisError("string-unknown", { option, given, known });
}
