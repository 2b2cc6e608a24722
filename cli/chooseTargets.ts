import {
  AnalysisError,
  errorSentence,
  findTuning,
  type Instrument,
  type StringTarget,
  type TakeTargets,
  takeTargets,
  targetNames,
} from "../src/index.js";
import { readTextFile } from "./files/readTextFile.js";
import type { LateParts } from "./LateParts.js";
import { UsageError } from "./UsageError.js";

/** Options that decide what each string should be. */
export interface TargetChoice {
  readonly instrument?: string;
  readonly tuning?: string;
  readonly a4?: number;
  readonly tonic?: string;
  readonly capo?: ReadonlyMap<string, number>;
  /** As typed: each text one name or several with commas between them. */
  readonly order?: readonly string[];
  readonly sounding?: readonly string[];
  readonly anchor?: string;
  readonly lowEdge?: number;
  readonly turnsPerSecond?: number;
}

/** The strings to measure against and how they were chosen. */
export interface ChosenTargets extends TakeTargets {
  readonly instrumentName: string | null;
  /** Counted by eye; null where not given. */
  readonly turnsPerSecond: number | null;
}

// An instrument file is a page of text; anything beyond this is another file named by mistake.
const instrumentLimitBytes = 1 << 20;

/**
 * Finds the targets that the options ask for.
 *
 * @param readInstrument - there where the options name an instrument file
 * @throws UsageError with the sentence to print
 */
export function chooseTargets(
  choice: TargetChoice,
  readInstrument: LateParts["readInstrument"],
): ChosenTargets {
  try {
    const instrument = chosenInstrument(choice, readInstrument);
    if (!instrument) {
      const needing = (["tonic", "capo", "order", "sounding", "anchor"] as const).filter(
        (name) => choice[name] !== undefined,
      );
      if (needing.length > 0) {
        throw new UsageError(
          `--${needing.join(", --")} can only be used with --instrument FILE or --tuning NAME.`,
        );
      }
    }
    const { a4: a4Hz, tonic, capo, anchor, lowEdge: lowEdgeHz } = choice;
    const common = { a4Hz, tonic, capo, anchor, lowEdgeHz, isTuning: choice.tuning !== undefined };
    const { targets } = takeTargets(instrument, common);
    const order = choice.order && namesOf("order", choice.order, targets ?? []);
    const sounding = choice.sounding && namesOf("sounding", choice.sounding, targets ?? []);
    return {
      ...takeTargets(instrument, { ...common, order, sounding }),
      instrumentName: instrument?.name ?? null,
      turnsPerSecond: choice.turnsPerSecond ?? null,
    };
  } catch (error) {
    if (error instanceof AnalysisError) throw new UsageError(errorSentence(error, choice.instrument));
    throw error;
  }
}

function chosenInstrument(
  choice: TargetChoice,
  readInstrument: LateParts["readInstrument"],
): Instrument | null {
  if (choice.instrument !== undefined) {
    return readInstrument!(readTextFile(choice.instrument, instrumentLimitBytes));
  }
  return choice.tuning === undefined ? null : findTuning(choice.tuning);
}

/**
 * The names of an option that takes several, given with commas between them or by repeating the option. A text that is
 * as a whole the name of a string is that name: this is how a name with a comma in it is given.
 */
export function namesOf(
  option: string,
  given: readonly string[],
  targets: readonly StringTarget[],
): string[] {
  const known = new Set(targets.map(({ name }) => name.normalize("NFC")));
  const names = given.flatMap((text) =>
    known.has(text.normalize("NFC")) ? [text] : text.split(",").map((name) => name.trim()),
  );
  try {
    return targetNames(option, names, targets);
  } catch (error) {
    if (!(error instanceof AnalysisError && error.is("string-unknown"))) throw error;
    if (!targets.some(({ name }) => name.includes(","))) throw error;
    throw new UsageError(
      `${errorSentence(error)} A name with a comma in it is given by itself: --${option} "A, b" --${option} C.`,
    );
  }
}
