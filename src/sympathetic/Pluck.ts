import type { DampedMode } from "./DampedMode.js";
import type { PluckReading } from "./PluckReading.js";

/** A pluck with what the reading of the next one needs. */
export interface Pluck extends PluckReading {
  /** Power a quarter of a second later against that at first. */
  readonly holdShare: number;
  readonly modes: readonly DampedMode[];
}
