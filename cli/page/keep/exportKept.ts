import { documentJson } from "../../../src/index.js";
import { CONTENTS, type Contents } from "./Contents.js";
import type { Kept } from "./Kept.js";
import { type ArchivedFile, packZip } from "./packZip.js";

/** All that is kept as one archive, each thing in it a file that can be used by itself. */
export function exportKept({ instruments, takes, readings, logs }: Kept): Promise<Blob> {
  const files: ArchivedFile[] = [];
  const add = (folder: string, ending: string, content: (index: number) => Blob) => {
    return <One extends { readonly id: string; readonly name: string; readonly keptAt: number }>(
      { id, name, keptAt }: One,
      index: number,
    ) => {
      const path = `${folder}/${index + 1} ${fileName(name, ending)}`;
      files.push({ path, content: content(index) });
      return { id, name, keptAt, path };
    };
  };
  const contents: Contents = {
    tool: "gurdybench",
    keptVersion: 1,
    instruments: instruments.map(add("instruments", ".yaml", (i) => new Blob([instruments[i]!.yaml]))),
    takes: takes.map(add("takes", "", (i) => takes[i]!.blob)),
    readings: readings
      .map(add("readings", ".json", (i) => new Blob([documentJson(readings[i]!.document)])))
      .map((entry, i) => ({ ...entry, notes: readings[i]!.notes })),
    logs: logs.map(add("logs", "", (i) => new Blob([logs[i]!.text]))),
  };
  return packZip([{ path: CONTENTS, content: new Blob([JSON.stringify(contents, null, 2)]) }, ...files]);
}

/** A name that every system takes, with the ending. */
function fileName(name: string, ending: string): string {
  const safe = name.replaceAll(/[^\p{L}\p{N} ._()-]/gu, "_").slice(0, 80);
  return safe.toLowerCase().endsWith(ending) ? safe : `${safe}${ending}`;
}
