/** What is loaded only where the command line asks for it, since loading it shows in the time of a short take. */
export interface LateParts {
  /** What draws pages, with the chart library; null where no page is asked for. */
  readonly pages: typeof import("../src/pages.js") | null;
  /** Reads instrument files; null where none is named. */
  readonly readInstrument: typeof import("../src/index.js").readInstrument | null;
}
