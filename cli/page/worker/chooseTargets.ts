import { findTuning, readInstrument, type TakeTargets, takeTargets } from "../../../src/index.js";
import type { TargetsAsked } from "./Messages.js";

/** @throws AnalysisError for an instrument, a pitch, a tonic or another choice that can't be used */
export function chooseTargets({ from, a4Hz, tonic, more }: TargetsAsked): TakeTargets {
  const instrument =
    from.kind === "nothing"
      ? null
      : from.kind === "tuning"
        ? findTuning(from.name)
        : readInstrument(from.yaml);
  const isNamed = instrument !== null;
  return takeTargets(instrument, {
    isTuning: from.kind === "tuning",
    a4Hz: a4Hz ?? undefined,
    lowEdgeHz: more?.lowEdgeHz ?? undefined,
    // These are of use only where strings are named.
    ...(isNamed && {
      tonic: tonic ?? undefined,
      capo: new Map(Object.entries(more?.capo ?? {})),
      order: more?.order ?? undefined,
      sounding: more?.sounding ?? undefined,
      anchor: more?.anchor ?? undefined,
    }),
  });
}
