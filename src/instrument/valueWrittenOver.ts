import { Document, isSeq, Scalar } from "yaml";
import { onOneLine } from "./onOneLine.js";

/**
 * The text with another value in the place of one that stands in it, all else to the letter as it was. Null where that can't be told to go
 * well: an empty value, or one over several lines.
 */
export function valueWrittenOver(yamlText: string, before: Scalar, value: string | number): string | null {
  const [start, end] = before.range ?? [0, 0];
  const old = yamlText.slice(start, end);
  if (old === "" || /[\r\n]/.test(old)) return null;
  const scalar = new Scalar(value);
  if (typeof value === "string" && before.type?.startsWith("QUOTE")) scalar.type = before.type;
  const written = writtenWithinList(scalar);
  return written === null ? null : yamlText.slice(0, start) + written + yamlText.slice(end);
}

/** Within brackets more has to be quoted than outside: what is right there is right everywhere. */
function writtenWithinList(scalar: Scalar): string | null {
  const document = new Document([scalar]);
  if (isSeq(document.contents)) document.contents.flow = true;
  const printed = document.toString({ ...onOneLine, flowCollectionPadding: false }).trimEnd();
  return printed.includes("\n") ? null : printed.slice(1, -1);
}
