import type { StringingDocument } from "../stringing/stringingDocumentSchema.js";
import { kilograms } from "./kilograms.js";
import { printable } from "./printable.js";
import type { NotedTable, TextColumn } from "./textTable.js";

const bases = { weighed: "weighed", given: "given", diameter: "diameter" } as const;
const lacking = {
  "nothing-given": "-",
  "half-given": "half",
  "material-unknown": "what?",
} as const;

const right = (...heading: string[]): TextColumn => ({ heading, align: "right" });
const left = (...heading: string[]): TextColumn => ({ heading, align: "left" });

/** Every string, its weight and its tension. */
export function tensionTableData({ strings, settings }: StringingDocument): NotedTable {
  const isWanted = settings.tensionNewton !== null;
  return {
    columns: [
      left("string"),
      left("note"),
      right("Hz"),
      right("mm"),
      right("g/m"),
      left("from"),
      right("tension", "N (kgf)"),
      right("of", "breaking"),
      ...(isWanted ? [right("g/m for", `${settings.tensionNewton} N`)] : []),
    ],
    rows: strings.map((one) => [
      printable(one.name),
      one.note,
      one.frequencyHz.toFixed(1),
      shown(one.lengthMm, 0),
      shown(one.linearDensityGramsPerMetre, 2),
      one.densityBasis === null
        ? one.densityLacking === null
          ? "-"
          : lacking[one.densityLacking]
        : bases[one.densityBasis],
      one.tensionNewton === null ? "-" : `${one.tensionNewton.toFixed(1)} (${kilograms(one.tensionNewton)})`,
      one.breakingShare === null ? "-" : `${(100 * one.breakingShare).toFixed(0)} %`,
      ...(isWanted ? [shown(one.wantedGramsPerMetre, 2)] : []),
    ]),
    notes: [
      "mm: vibrating length. g/m: mass of a metre: weighed, given by the maker, or from diameter and material; half: only one of the two numbers is given; what?: a material not known here. of " +
        "breaking: share of the stress at which such wire breaks, where that is known.",
    ],
  };
}

/** The strings of the same names beside them; no rows where there are none. */
export function besideTableData({ comparison, strings }: StringingDocument): NotedTable {
  const tensionOf = (name: string) => strings.find((one) => one.name === name)?.tensionNewton ?? null;
  return {
    columns: [
      left("string"),
      left("note", "there"),
      right("length", "there, mm"),
      right("same string:", "N there"),
      right("", "change"),
      right("same tension:", "g/m there"),
      right("its own", "string, N"),
    ],
    rows: (comparison ?? []).map((one) => [
      printable(one.name),
      one.note,
      shown(one.lengthMm, 0),
      shown(one.sameStringNewton, 1),
      change(tensionOf(one.name), one.sameStringNewton),
      shown(one.sameTensionGramsPerMetre, 2),
      shown(one.tensionNewton, 1),
    ]),
    notes: [
      "Same string: the very string that is on here, put on there. Same tension: how heavy a string would have to be there to pull as this one does here.",
    ],
  };
}

function change(from: number | null, to: number | null): string {
  if (from === null || to === null) return "-";
  const percent = 100 * (to / from - 1);
  return `${percent >= 0 ? "+" : ""}${percent.toFixed(0)} %`;
}

function shown(value: number | null, digits: number): string {
  return value === null ? "-" : value.toFixed(digits);
}
