import type { MeasureDocument, TakeAnswer } from "../../../src/index.js";
import { CONTENTS, type ContentsEntry, readContents } from "./Contents.js";
import type { Kept } from "./Kept.js";
import { unpackZip } from "./unpackZip.js";

/** A document that is one of ours, with its sentences; null where it is not. */
export type Reworded = { readonly document: MeasureDocument; readonly answer: TakeAnswer } | null;

/**
 * What an archive that was saved here holds.
 *
 * @param reword - checks documents and words them anew
 * @returns null where it is none of ours, or damaged
 */
export async function importKept(
  archive: Blob,
  reword: (documents: readonly unknown[]) => Promise<readonly Reworded[]>,
): Promise<Kept | null> {
  const files = new Map((await unpackZip(archive))?.map(({ path, content }) => [path, content]));
  const contents = readContents((await files.get(CONTENTS)?.text()) ?? "");
  if (contents === null) return null;
  const { instruments, takes, readings, logs = [] } = contents;
  const blobs = [...instruments, ...takes, ...readings, ...logs].map(({ path }) => files.get(path));
  if (blobs.includes(undefined)) return null;
  const blobOf = ({ path }: ContentsEntry) => files.get(path)!;
  const named = ({ id, name, keptAt }: ContentsEntry) => ({ id, name, keptAt });
  let documents: unknown[];
  try {
    documents = await Promise.all(readings.map(async (one) => JSON.parse(await blobOf(one).text())));
  } catch {
    return null;
  }
  const reworded = await reword(documents);
  if (reworded.length !== readings.length) return null;
  return {
    instruments: await Promise.all(
      instruments.map(async (one) => ({ ...named(one), yaml: await blobOf(one).text() })),
    ),
    takes: takes.map((one) => {
      const { name, keptAt } = one;
      return { ...named(one), blob: new File([blobOf(one)], name, { lastModified: keptAt }) };
    }),
    readings: readings.flatMap((one, i) => {
      const known = reworded[i];
      return known ? [{ ...named(one), ...known, ...(one.notes && { notes: one.notes }) }] : [];
    }),
    logs: await Promise.all(logs.map(async (one) => ({ ...named(one), text: await blobOf(one).text() }))),
  };
}
