import type { MeasureDocument } from "./measureDocumentSchema.js";

/** True where some string was measured: only such a take is worth a line in a log. */
export function isMeasured({ strings }: Pick<MeasureDocument["takes"][number], "strings">): boolean {
  return strings.some(({ status }) => status === "measured");
}
