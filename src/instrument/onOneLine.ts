import type { ToStringOptions } from "yaml";

/** Values are never broken over lines, however long: who wrote the file decides about its lines. */
export const onOneLine: ToStringOptions = {
  lineWidth: 0,
  blockQuote: false,
  doubleQuotedMinMultiLineLength: Number.MAX_SAFE_INTEGER,
};
