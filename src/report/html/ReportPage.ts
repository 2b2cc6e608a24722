import type { Chart } from "../charts/Chart.js";

/** One part of a section. Texts are plain; the page makes HTML of them. */
export type ReportBlock =
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "list"; readonly items: readonly string[]; readonly isNumbered?: boolean }
  | {
      readonly kind: "table";
      readonly caption: string;
      readonly columns: readonly ReportColumn[];
      readonly rows: readonly (readonly string[])[];
    }
  | { readonly kind: "chart"; readonly chart: Chart }
  | { readonly kind: "findings"; readonly findings: readonly ReportFinding[] };

/** A column of a table: texts stand left, numbers right. */
export interface ReportColumn {
  readonly heading: string;
  readonly align: "left" | "right";
}

/** A finding with its sentence. */
export interface ReportFinding {
  readonly severity: "info" | "warning" | "problem";
  readonly message: string;
}

/** One section of a page, under its heading; left out where it has no blocks. */
export interface ReportSection {
  readonly heading: string;
  readonly blocks: readonly ReportBlock[];
}

/** A page to look at and to hand over. */
export interface ReportPage {
  readonly title: string;
  /** What it is about, in small type under the title: instrument, pitch, files. */
  readonly subtitle: string;
  /** The answer, a sentence or a few. */
  readonly answer: readonly string[];
  readonly sections: readonly ReportSection[];
}
