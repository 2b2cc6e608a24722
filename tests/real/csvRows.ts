import { readFileSync } from "node:fs";

/** Rows of a CSV file as records named by its head; cells may be quoted, but hold no line break and no quote. */
export function csvRows(path: string): Record<string, string>[] {
  const [head, ...rows] = readFileSync(path, "utf8").trim().split(/\r?\n/).map(cells);
  return rows.map((row) => Object.fromEntries(head!.map((name, i) => [name, row[i] ?? ""])));
}

function cells(line: string): string[] {
  return [...line.matchAll(/(?:^|,)(?:"([^"]*)"|([^,]*))/g)].map(
    ([, quoted, plain]) => quoted ?? plain ?? "",
  );
}
