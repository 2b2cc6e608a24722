/** A cell: numbers stay numbers, texts are texts whatever they begin with; null is an empty cell. */
export type CsvCell = number | string | null;

/**
 * Rows as comma-separated values (RFC 4180), with a byte order mark so that spreadsheets read names in any script.
 *
 * A text that a spreadsheet would run as a formula (it begins with `=`, `+`, `-`, `@`, a tab or a line end) gets an apostrophe in front.
 */
export function csvText(rows: readonly (readonly CsvCell[])[]): string {
  return `\uFEFF${rows.map((row) => `${row.map(cellText).join(",")}\r\n`).join("")}`;
}

function cellText(cell: CsvCell): string {
  if (cell === null) return "";
  if (typeof cell === "number") return Number.isFinite(cell) ? String(cell) : "";
  const harmless = /^[\s]*[=+\-@\t\r\n]/.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}
