import type { CompareDocument } from "../comparison/compareDocumentSchema.js";
import { printable } from "./printable.js";

/** What a compared measure is called in a table. */
export function measureLabel({ measure, string }: CompareDocument["measures"][number]): string {
  const of = string === null ? "" : `${printable(string)}: `;
  const numbered = /^(octave|partial)(\d+)Db$/.exec(measure);
  if (numbered !== null) {
    return numbered[1] === "octave" ? `${of}octave band ${numbered[2]} Hz` : `${of}partial ${numbered[2]}`;
  }
  return `${of}${labels[measure] ?? measure}`;
}

const labels: Readonly<Record<string, string>> = {
  lowRegisterDb: "low part",
  lowLevelDb: "level of the low part",
  centroidHz: "middle of the energy",
  lowReachHz: "low reach of the body",
};
