// biome-ignore-all lint/a11y/noRedundantRoles: style makes cards of a table, and some browsers then drop what its elements mean
import type { ComponentChildren } from "preact";

/** A column of a table: texts stand left, numbers right. */
export interface Column {
  readonly heading: string;
  readonly align: "left" | "right";
  /** Takes the whole width of a card on a phone. */
  readonly isWide?: boolean;
}

interface DataTableProps {
  readonly caption: string;
  readonly columns: readonly Column[];
  readonly rows: readonly { readonly key: string; readonly cells: readonly ComponentChildren[] }[];
  /** For tables that are looked at from where both hands work. */
  readonly isLarge?: boolean;
}

/**
 * A table whose rows are set as cards on a phone. The roles are written out, since not every browser keeps them when style makes something
 * else of a table.
 */
export function DataTable({ caption, columns, rows, isLarge = false }: DataTableProps) {
  const classOf = (c: number) =>
    [columns[c]?.align === "right" ? "number" : "", columns[c]?.isWide ? "whole" : ""].join(" ").trim();
  return (
    <table role="table" class={`cards${isLarge ? " large" : ""}`}>
      <caption>{caption}</caption>
      <thead role="rowgroup">
        <tr role="row">
          {columns.map(({ heading }, c) => (
            <th key={heading} role="columnheader" scope="col" class={classOf(c)}>
              {heading}
            </th>
          ))}
        </tr>
      </thead>
      <tbody role="rowgroup">
        {rows.map(({ key, cells }) => (
          <tr key={key} role="row">
            {cells.map((cell, c) =>
              c === 0 ? (
                <th
                  key={columns[c]?.heading}
                  role="rowheader"
                  scope="row"
                  class={classOf(c)}
                  // A name says what it is; a number needs its unit.
                  data-label={columns[c]?.align === "right" ? columns[c].heading : undefined}
                >
                  {cell}
                </th>
              ) : (
                <td key={columns[c]?.heading} role="cell" class={classOf(c)} data-label={columns[c]?.heading}>
                  {cell}
                </td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
