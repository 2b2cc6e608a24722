import type { MeasureDocument } from "../../reading/measureDocumentSchema.js";
import { checkedTake } from "../checkText.js";
import { printable } from "../printable.js";
import { csvText } from "./csvText.js";

/** What was found in every recording as a table for a spreadsheet: one row a finding, one for a recording without any. */
export function checkCsv({ takes, failed }: MeasureDocument): string {
  return csvText([
    ["file", "verdict", "severity", "code", "message"],
    ...takes.flatMap((take) => {
      const { verdict, findings } = checkedTake(take);
      const file = printable(take.file);
      if (findings.length === 0) return [[file, verdict, null, null, null]];
      return findings.map(({ severity, code, message }) => [file, verdict, severity, code, message]);
    }),
    ...failed.map(({ file, code, message }) => [printable(file), "unreadable", "problem", code, message]),
  ]);
}
