import type { TrompetteOptions } from "./TrompetteReading.js";

/**
 * The trompette string and those that may sound along with it, as `readTrompette` wants them: all other drones and trompettes.
 *
 * @param chosen - one of the targets; null where none is named
 * @param targets - all strings of the instrument (`StringTarget` has what is asked of one, frequencies in hertz); null where there is none
 * @example
 * ```ts
 * readTrompette(recording, trompetteStrings(targets[2], targets));
 * ```
 */
export function trompetteStrings<
  T extends { readonly name: string; readonly targetHz: number; readonly role: string },
>(chosen: T | null, targets: readonly T[] | null): Pick<TrompetteOptions, "string" | "others"> {
  const named = ({ name, targetHz }: T) => ({ name, frequencyHz: targetHz });
  return {
    string: chosen === null ? null : named(chosen),
    others: (targets ?? [])
      .filter((one) => one !== chosen && (one.role === "drone" || one.role === "trompette"))
      .map(named),
  };
}
