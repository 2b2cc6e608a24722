import type { PartialLevel } from "../partials/PartialLevel.js";
import type { StringPartial } from "./StringPartial.js";

/**
 * The partials of a string as the body curve takes them: those that are shared or lost in noise left out.
 *
 * @param take - which take, where there are several
 */
export function stringPartials(
  { name, partials }: { readonly name: string; readonly partials: readonly PartialLevel[] },
  take?: string,
): StringPartial[] {
  return partials.flatMap(({ number, frequencyHz, fullScaleDb, signalToNoiseDb }) =>
    fullScaleDb === null
      ? []
      : [
          {
            string: name,
            number,
            frequencyHz,
            levelDb: fullScaleDb,
            signalToNoiseDb,
            ...(take !== undefined && { take }),
          },
        ],
  );
}
