import {
  AnalysisError,
  findTuning,
  type Instrument,
  instrumentRanges,
  lowRegisterEdgeHz,
  type MeasureDocument,
  readInstrument,
  type StringTarget,
  stringTargets,
} from "../../../src/index.js";
import type { TargetsAsked } from "./Messages.js";

/** The strings to measure against, and the settings as the command would write them into its document. */
export interface ChosenTargets {
  readonly instrument: Instrument | null;
  readonly targets: readonly StringTarget[] | null;
  readonly settings: MeasureDocument["settings"];
}

/** @throws AnalysisError for an instrument, a pitch or a tonic that can't be used */
export function chooseTargets({ from, a4Hz: given, tonic }: TargetsAsked): ChosenTargets {
  const instrument =
    from.kind === "nothing"
      ? null
      : from.kind === "tuning"
        ? findTuning(from.name)
        : readInstrument(from.yaml);
  const a4Hz = given ?? instrument?.a4Hz ?? 440;
  const [allowedMinimum, allowedMaximum] = instrumentRanges.a4Hz;
  if (!(a4Hz >= allowedMinimum && a4Hz <= allowedMaximum))
    throw new AnalysisError("value-out-of-range", {
      name: "a4Hz",
      given: a4Hz,
      allowedMinimum,
      allowedMaximum,
    });
  // A tonic is of use only where strings are named.
  const asked = instrument === null ? null : tonic;
  return {
    instrument,
    targets: instrument && stringTargets(instrument, { a4Hz, tonic: asked ?? undefined }),
    settings: {
      a4Hz,
      tonic: asked ?? instrument?.tonic ?? null,
      temperament: instrument?.temperament ?? null,
      tuning: from.kind === "tuning" ? (instrument?.name ?? null) : null,
      capo: {},
      order: null,
      sounding: null,
      anchor: null,
      lowEdgeHz: lowRegisterEdgeHz,
    },
  };
}
