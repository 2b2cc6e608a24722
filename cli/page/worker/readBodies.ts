import {
  AnalysisError,
  errorSentence,
  measureOptionsOf,
  measureTake,
  type ReadTaps,
  readTaps,
  type TakeTargets,
  type TapDocument,
  type TapDocumentInput,
  tapDocument,
} from "../../../src/index.js";
import type { NamedBody, NamedSound, Reply } from "./Messages.js";
import { openSound } from "./openSound.js";
import { toolVersion } from "./toolVersion.js";

/** Bodies that were tapped, and the first of them bowed. */
export interface AskedBodies {
  readonly first: NamedBody;
  readonly other: NamedBody | null;
  readonly bowed: NamedSound | null;
}

/**
 * Reads taps on a body, on another beside it, and the first one bowed where that is given. What can't be read of the latter two is told, and
 * does not stop the rest.
 *
 * @throws AnalysisError where the first take can't be read
 */
export function readBodies(
  { first, other, bowed }: AskedBodies,
  chosen: TakeTargets,
  tell: (reply: Reply) => void,
): TapDocument {
  const failed: { file: string; error: AnalysisError }[] = [];
  const orTold = <Read>({ name: file }: NamedSound, read: () => Read): Read | null => {
    try {
      return read();
    } catch (error) {
      if (!(error instanceof AnalysisError)) throw error;
      failed.push({ file, error });
      tell({ kind: "failed", sentence: errorSentence(error, file) });
      return null;
    }
  };
  const soundCount = 1 + Number(other !== null) + Number(bowed !== null);
  let done = 0;
  const counted = <Read>(read: (onProgress: (share: number) => void) => Read): Read => {
    const before = done++;
    return read((share) => tell({ kind: "progress", share: (before + share) / soundCount }));
  };
  const taps = ({ sound, name }: NamedBody): ReadTaps =>
    counted((onProgress) => ({
      file: sound.name,
      name: name ?? sound.name,
      reading: readTaps(openSound(sound), { onProgress }),
    }));
  const one = taps(first);
  const beside = other && orTold(other.sound, () => taps(other));
  return tapDocument({
    toolVersion,
    takes: beside === null ? [one] : [one, beside],
    failed,
    hasOther: beside !== null,
    bowed: bowed && orTold(bowed, () => counted((onProgress) => bowedOf(bowed, chosen, onProgress))),
  });
}

function bowedOf(
  sound: NamedSound,
  chosen: TakeTargets,
  onProgress: (share: number) => void,
): NonNullable<TapDocumentInput["bowed"]> {
  const { anchor: _, lowEdgeHz: __, ...settings } = chosen.settings;
  const reading = measureTake(openSound(sound), { ...measureOptionsOf(chosen), onProgress });
  return { file: sound.name, instrument: chosen.instrument?.name ?? null, settings, reading };
}
