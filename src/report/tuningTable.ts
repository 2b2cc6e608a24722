import type { StringTarget } from "../instrument/Instrument.js";
import { printable } from "./printable.js";
import type { TableData } from "./textTable.js";

/** One tuning to list: its name and where its strings should stand. */
export interface ListedTuning {
  readonly name: string;
  readonly targets: readonly StringTarget[];
}

/** The strings of a tuning with their notes and frequencies. */
export function tuningTable({ targets }: ListedTuning): TableData {
  return {
    columns: [
      { heading: ["string"], align: "left" },
      { heading: ["kind"], align: "left" },
      { heading: ["note"], align: "left" },
      { heading: ["Hz"], align: "right" },
    ],
    rows: targets.map(({ name, role, note, targetHz }) => [
      printable(name),
      role,
      printable(note),
      targetHz.toFixed(3),
    ]),
  };
}
