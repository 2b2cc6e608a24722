import type { StringingDocument } from "../stringing/stringingDocumentSchema.js";
import { type StringingChoice, strungBeside } from "../stringing/strungBeside.js";
import { stringingDocument } from "./stringingDocument.js";

/**
 * The document of `stringing` for what was asked.
 *
 * @throws AnalysisError as `strungBeside`
 */
export function stringingOf(choice: StringingChoice, toolVersion: string): StringingDocument {
  const { instrument, otherLengthMm, retune, tensionNewton, a4Hz, tonic } = choice;
  const changes = [
    ...(otherLengthMm === null ? [] : [`melody strings of ${otherLengthMm} mm`]),
    ...[...retune].map(([name, note]) => `${name} tuned to ${note}`),
  ];
  return stringingDocument({
    toolVersion,
    instrument: instrument.name,
    against: choice.against?.name ?? (changes.length === 0 ? null : `the same with ${changes.join(", ")}`),
    settings: {
      a4Hz: a4Hz ?? instrument.a4Hz,
      tonic: tonic ?? instrument.tonic,
      tensionNewton,
      otherLengthMm,
      retune: Object.fromEntries(retune),
    },
    reading: strungBeside(choice),
  });
}
