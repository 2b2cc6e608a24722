import { isTakeNotes } from "./isTakeNotes.js";
import type { TakeNotes } from "./Kept.js";

/** The file of an archive that says what else is in it. */
export const CONTENTS = "contents.json";

/** One thing in the archive. */
export interface ContentsEntry {
  readonly id: string;
  readonly name: string;
  readonly keptAt: number;
  readonly path: string;
}

/** What stands in that file. */
export interface Contents {
  readonly tool: "gurdybench";
  readonly keptVersion: 1;
  readonly instruments: readonly ContentsEntry[];
  readonly takes: readonly ContentsEntry[];
  readonly readings: readonly (ContentsEntry & { readonly notes?: TakeNotes })[];
  /** Missing in what was saved by an older page. */
  readonly logs?: readonly ContentsEntry[];
}

/** @returns null where the text is none of ours */
export function readContents(text: string): Contents | null {
  let value: Partial<Contents>;
  try {
    value = JSON.parse(text);
  } catch {
    return null;
  }
  if (value?.tool !== "gurdybench" || value.keptVersion !== 1) return null;
  const lists = [value.instruments, value.takes, value.readings, value.logs ?? []];
  if (!lists.every((list) => Array.isArray(list) && list.every(isEntry))) return null;
  const hasNotes = value.readings?.every(({ notes }) => notes === undefined || isTakeNotes(notes));
  return hasNotes ? (value as Contents) : null;
}

function isEntry(value: unknown): value is ContentsEntry {
  const { id, name, keptAt, path } = (value ?? {}) as Partial<Record<keyof ContentsEntry, unknown>>;
  return [id, name, path].every((one) => typeof one === "string") && Number.isFinite(keptAt);
}
