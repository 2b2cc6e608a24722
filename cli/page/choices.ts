import type { TargetsAsked } from "./worker/Messages.js";

/** What is chosen for the readings, as it stands in the form. */
export interface Choice extends TargetsAsked {
  /** Kept beside a tuning that was chosen for a while. */
  readonly yaml: string;
}

/** Notes that drones are commonly pure to. */
export const tonics = ["C", "D", "Eb", "E", "F", "G", "A", "Bb", "B"] as const;
