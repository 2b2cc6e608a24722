import { displayWidth } from "./displayWidth.js";
import { shorten } from "./shorten.js";
import { wrapText } from "./wrapText.js";

/** One column of a text table. */
export interface TextColumn {
  /** Lines of the heading, top to bottom; shorter headings stand at the bottom. */
  readonly heading: readonly string[];
  /** Text stands left, numbers stand right. */
  readonly align: "left" | "right";
}

const gap = "  ";

/**
 * Sets rows under headings, each column as wide as it needs. Where the whole is wider than `width`, the first
 * column (names) is cut, to no less than eight columns.
 *
 * @returns the lines, without spaces at their ends
 */
export function textTable(
  columns: readonly TextColumn[],
  rows: readonly (readonly string[])[],
  width: number,
): string[] {
  const headingHeight = Math.max(...columns.map((column) => column.heading.length));
  const widths = columns.map((column, index) =>
    Math.max(...column.heading.map(displayWidth), ...rows.map((row) => displayWidth(row[index] ?? ""))),
  );
  const total = widths.reduce((sum, one) => sum + one, 0) + gap.length * (columns.length - 1);
  widths[0] = Math.max(Math.min(widths[0]!, 8), widths[0]! - Math.max(0, total - width));

  const line = (cells: readonly string[]) =>
    columns
      .map((column, index) => {
        const cell = index === 0 ? shorten(cells[0] ?? "", widths[0]!) : (cells[index] ?? "");
        const space = " ".repeat(widths[index]! - displayWidth(cell));
        return column.align === "left" ? cell + space : space + cell;
      })
      .join(gap)
      .trimEnd();

  const headings = Array.from({ length: headingHeight }, (_, row) =>
    line(columns.map((column) => column.heading[row - headingHeight + column.heading.length] ?? "")),
  );
  const rule = widths
    .map((one) => "-".repeat(one))
    .join(gap)
    .trimEnd();
  return [...headings, rule, ...rows.map(line)];
}

/** A table before it is set as text or as HTML. */
export interface TableData {
  readonly columns: readonly TextColumn[];
  readonly rows: readonly (readonly string[])[];
}

/** The same with the sentences that stand under it. */
export interface NotedTable extends TableData {
  readonly notes: readonly string[];
}

/** A table and its sentences as lines; nothing where there is no row. */
export function notedTableLines({ columns, rows, notes }: NotedTable, width: number): string[] {
  if (rows.length === 0) return [];
  return [...textTable(columns, rows, width), "", ...notes.flatMap((note) => wrapText(note, width, "  "))];
}
