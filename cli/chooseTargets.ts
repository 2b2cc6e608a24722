import {
  AnalysisError,
  checkLowEdge,
  errorSentence,
  findTuning,
  type Instrument,
  instrumentRanges,
  lowRegisterEdgeHz,
  type MeasureDocument,
  readInstrument,
  type StringTarget,
  stringTargets,
  targetNames,
} from "../src/index.js";
import { readTextFile } from "./files/readTextFile.js";
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
export interface ChosenTargets {
  readonly instrument: Instrument | null;
  readonly instrumentName: string | null;
  readonly targets: readonly StringTarget[] | null;
  readonly settings: MeasureDocument["settings"];
  /** Counted by eye; null where not given. */
  readonly turnsPerSecond: number | null;
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
      const needing = (["tonic", "capo", "order", "sounding", "anchor"] as const).filter(
        (name) => choice[name] !== undefined,
      );
      if (needing.length > 0) {
        throw new UsageError(
          `--${needing.join(", --")} can only be used with --instrument FILE or --tuning NAME.`,
        );
      }
      checkA4(a4Hz);
    }
    checkLowEdge(choice.lowEdge);
    const targets = instrument && stringTargets(instrument, { a4Hz, tonic: choice.tonic, capo: choice.capo });
    const order = choice.order && namesOf("order", choice.order, targets ?? []);
    const sounding = choice.sounding && namesOf("sounding", choice.sounding, targets ?? []);
    const anchor = choice.anchor === undefined ? [] : targetNames("anchor", [choice.anchor], targets ?? []);
    return {
      instrument,
      instrumentName: instrument?.name ?? null,
      targets,
      turnsPerSecond: choice.turnsPerSecond ?? null,
      settings: {
        a4Hz,
        tonic: choice.tonic ?? instrument?.tonic ?? null,
        temperament: instrument?.temperament ?? null,
        tuning: choice.tuning === undefined ? null : (instrument?.name ?? null),
        capo: Object.fromEntries(choice.capo ?? []),
        order: order ?? null,
        sounding: sounding ?? null,
        anchor: anchor[0] ?? null,
        lowEdgeHz: choice.lowEdge ?? lowRegisterEdgeHz,
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
