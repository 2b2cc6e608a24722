import { LOW_REGISTER_EDGE_HZ } from "../body/bandEdges.js";
import { AnalysisError } from "../errors.js";
import type { Instrument, StringTarget } from "../instrument/Instrument.js";
import { instrumentRanges } from "../instrument/instrumentRanges.js";
import { stringTargets, type TargetOptions } from "../instrument/stringTargets.js";
import { targetNames } from "../instrument/targetNames.js";
import { checkLowEdge } from "./checkLowEdge.js";
import type { MeasureDocument } from "./measureDocumentSchema.js";

/** What is chosen for a take besides its instrument; what is not given is as the instrument says, or as usual. */
export interface TakeChoice extends TargetOptions {
  /** The instrument is a built-in tuning. */
  readonly isTuning: boolean;
  /** Names of equal strings in the order in which they were recorded. */
  readonly order?: readonly string[] | undefined;
  /** Names of the strings that sound together throughout. */
  readonly sounding?: readonly string[] | undefined;
  /** Name of the one string that can't be moved. */
  readonly anchor?: string | undefined;
  /** Where the low register ends, in hertz. */
  readonly lowEdgeHz?: number | undefined;
}

/** The strings to measure against, and the settings as a document holds them. */
export interface TakeTargets {
  readonly instrument: Instrument | null;
  /** Null where no instrument is named: each passage is read against the nearest note. */
  readonly targets: readonly StringTarget[] | null;
  readonly settings: MeasureDocument["settings"];
}

/**
 * What a take is measured against.
 *
 * @param instrument - null reads each passage against the nearest equal-tempered note
 * @throws AnalysisError for a pitch, a tonic, a capo or an edge that won't do, and for names that the instrument does not have
 */
export function takeTargets(instrument: Instrument | null, choice: TakeChoice): TakeTargets {
  const a4Hz = choice.a4Hz ?? instrument?.a4Hz ?? 440;
  if (instrument === null) checkA4(a4Hz);
  checkLowEdge(choice.lowEdgeHz);
  const targets = instrument && stringTargets(instrument, { ...choice, a4Hz });
  const names = (option: "order" | "sounding", given: readonly string[] | undefined) =>
    given === undefined ? null : targetNames(option, given, targets ?? []);
  const order = names("order", choice.order);
  const sounding = names("sounding", choice.sounding);
  const [anchor = null] =
    choice.anchor === undefined ? [] : targetNames("anchor", [choice.anchor], targets ?? []);
  return {
    instrument,
    targets,
    settings: {
      a4Hz,
      tonic: choice.tonic ?? instrument?.tonic ?? null,
      temperament: instrument?.temperament ?? null,
      tuning: choice.isTuning ? (instrument?.name ?? null) : null,
      capo: Object.fromEntries(choice.capo ?? []),
      order,
      sounding,
      anchor,
      lowEdgeHz: choice.lowEdgeHz ?? LOW_REGISTER_EDGE_HZ,
    },
  };
}

function checkA4(given: number): void {
  const [allowedMinimum, allowedMaximum] = instrumentRanges.a4Hz;
  if (given >= allowedMinimum && given <= allowedMaximum) return;
  throw new AnalysisError("value-out-of-range", { name: "a4Hz", given, allowedMinimum, allowedMaximum });
}
