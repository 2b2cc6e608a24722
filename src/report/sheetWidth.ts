/** Narrower than this, prose falls apart; a terminal is seldom so narrow. */
const LEAST_COLUMNS = 36;

/** Columns that a sheet is set in: those of the terminal, 80 where they are not known. Tables may be wider. */
export function sheetWidth(columns: number | undefined): number {
  return Math.max(LEAST_COLUMNS, columns ?? 80);
}
