import { signed } from "./signed.js";

/** An interval as `+2.1 to +2.9`. */
export function intervalText(interval: readonly [number, number], digits: number): string {
  return `${signed(interval[0], digits)} to ${signed(interval[1], digits)}`;
}
