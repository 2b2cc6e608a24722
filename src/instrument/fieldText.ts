import { isScalar, isSeq } from "yaml";

/** A number as people write it; anything else YAML reads as a number (`0x1B8`, `4.4e2`) is shown as its value. */
const plainNumber = /^-?\d+(\.\d+)?$/;

/** What a form shows of an entry: a number as it is written, a list with commas, nothing for what is not there. */
export function fieldText(node: unknown): string {
  if (isSeq(node)) return node.items.map(fieldText).join(", ");
  if (!isScalar(node)) return node === null || node === undefined ? "" : JSON.stringify(node);
  const { value, source } = node;
  if (value === null || value === undefined) return "";
  return typeof value === "number" && source !== undefined && plainNumber.test(source)
    ? source
    : String(value);
}
