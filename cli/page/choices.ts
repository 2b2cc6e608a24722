import { instrumentRanges } from "../../src/index.js";
import type { MoreTargets, TargetsAsked } from "./worker/Messages.js";

/** What is chosen for the readings, as it stands in the form. */
export interface Choice extends TargetsAsked {
  /** Kept beside a tuning that was chosen for a while. */
  readonly yaml: string;
}

/** None of the choices that few takes need. */
export const noChoices: MoreTargets = {
  capo: {},
  order: null,
  sounding: null,
  anchor: null,
  lowEdgeHz: null,
};

/** Whether an A4 may be so many hertz. */
export function isA4Hz(value: number): boolean {
  const [least, most] = instrumentRanges.a4Hz;
  return value >= least && value <= most;
}

const PLACE = "gurdybench-choice";

/** What was chosen last in this browser; the given one where nothing was, or it is none of ours. */
export function lastChoice(otherwise: Choice): Choice {
  try {
    const { from, a4Hz, tonic, yaml } = JSON.parse(localStorage.getItem(PLACE) ?? "null") as Choice;
    const isOurs =
      typeof yaml === "string" &&
      (a4Hz === null || Number.isFinite(a4Hz)) &&
      (tonic === null || typeof tonic === "string") &&
      (from.kind === "nothing" ||
        (from.kind === "tuning" && typeof from.name === "string") ||
        (from.kind === "instrument" && typeof from.yaml === "string"));
    return isOurs ? { from, a4Hz: a4Hz !== null && isA4Hz(a4Hz) ? a4Hz : null, tonic, yaml } : otherwise;
  } catch {
    return otherwise;
  }
}

/** Has it chosen again the next time; a browser that keeps nothing forgets it. */
export function rememberChoice(choice: Choice): void {
  try {
    localStorage.setItem(PLACE, JSON.stringify(choice));
  } catch {
    // Nothing depends on it.
  }
}

/** Notes that drones are commonly pure to. */
export const tonics = ["C", "D", "Eb", "E", "F", "G", "A", "Bb", "B"] as const;
