/** Rows of drawings that a sheet of paper holds. */
const ROWS_A_SHEET = 6;

/** The rows of a tall chart, parted so that each part fits on a sheet: in order, and about alike in number. */
export function inGroups<Row>(rows: readonly Row[]): Row[][] {
  const groups = Math.ceil(rows.length / ROWS_A_SHEET);
  const start = (group: number) => Math.round((group * rows.length) / groups);
  return Array.from({ length: groups }, (_, group) => rows.slice(start(group), start(group + 1)));
}
