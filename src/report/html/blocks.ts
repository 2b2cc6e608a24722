import type { Chart } from "../charts/Chart.js";
import type { NotedTable, TableData } from "../textTable.js";
import type { ReportBlock, ReportFinding } from "./ReportPage.js";

/** Columns at which no sentence is wrapped: on a page the browser does that. */
export const WIDE = 1_000_000;

/** Sentences of a sheet, each as a paragraph. */
export function blocksOfText(lines: readonly string[]): ReportBlock[] {
  return cleaned(lines).map((text) => ({ kind: "text", text }));
}

/** Sentences of a sheet as a list; nothing where there are none. */
export function listBlock(lines: readonly string[]): ReportBlock[] {
  const items = cleaned(lines).map((line) => line.replace(/^- /, ""));
  if (items.length === 0) return [];
  const isNumbered = items.every((item, i) => item.startsWith(`${i + 1}. `));
  return [
    {
      kind: "list",
      isNumbered,
      items: isNumbered ? items.map((item) => item.slice(item.indexOf(" ") + 1)) : items,
    },
  ];
}

/** A table of a sheet. */
export function tableBlock(caption: string, { columns, rows }: TableData): ReportBlock {
  return {
    kind: "table",
    caption,
    columns: columns.map(({ heading, align }) => ({ heading: heading.join(" "), align })),
    rows,
  };
}

/** A table and the sentences under it; nothing where it has no row. */
export function notedBlocks(caption: string, { notes, ...data }: NotedTable): ReportBlock[] {
  return data.rows.length === 0 ? [] : [tableBlock(caption, data), ...blocksOfText(notes)];
}

/** Findings, gravest first; nothing where there are none. */
export function findingBlocks(findings: readonly ReportFinding[]): ReportBlock[] {
  const sorted = (["problem", "warning", "info"] as const).flatMap((severity) =>
    findings.filter((one) => one.severity === severity),
  );
  return sorted.length === 0 ? [] : [{ kind: "findings", findings: sorted }];
}

export function chartBlock(chart: Chart): ReportBlock {
  return { kind: "chart", chart };
}

function cleaned(lines: readonly string[]): string[] {
  return lines
    .map((line) => line.replaceAll("\u00a0", " ").trim().replaceAll(/ {2,}/g, " "))
    .filter((line) => line !== "");
}
