import {
  AnalysisError,
  compareKeyboards,
  errorSentence,
  keyboardDocument,
  printable,
  type ReadScale,
  readKeyboard,
  scaleOptions,
  type TakeTargets,
  targetNames,
} from "../../../src/index.js";
import { chooseTargets } from "./chooseTargets.js";
import { drawPage } from "./drawPage.js";
import type { NamedSound, Reply, Request } from "./Messages.js";
import { openSound } from "./openSound.js";
import { toolVersion } from "./toolVersion.js";

/** Reads the scale of one string, and that of another beside it, with the settings that the command would take. */
export async function readScale(
  { sound, targets: asked, string, lengthMm, other }: Extract<Request, { kind: "keyboard" }>,
  tell: (reply: Reply) => void,
): Promise<void> {
  const chosen = chooseTargets(asked);
  const soundCount = other === null ? 1 : 2;
  const read = (one: NamedSound, name: string, before: number) =>
    scaleOf(one, name, lengthMm, chosen, (share) =>
      tell({ kind: "progress", share: (before + share) / soundCount }),
    );
  const scale = read(sound, string, 0);
  const beside = other && otherScale(other.sound, () => read(other.sound, other.string, 1), tell);
  const { a4Hz, tonic, temperament, tuning, capo } = chosen.settings;
  const document = keyboardDocument({
    toolVersion,
    instrument: chosen.instrument?.name ?? null,
    settings: { a4Hz, tonic, temperament, tuning, capo },
    scale,
    other:
      beside === null
        ? undefined
        : { scale: beside, comparison: compareKeyboards(scale.reading, beside.reading) },
  });
  tell({ kind: "keyed", document });
  tell({ kind: "drawn", page: await drawPage((pages) => pages.keyboardPage(document)) });
}

function scaleOf(
  sound: NamedSound,
  given: string,
  lengthMm: number | null,
  { instrument, targets, settings }: TakeTargets,
  onProgress: (share: number) => void,
): ReadScale {
  const all = targets ?? [];
  const [name] = targetNames("string", [given], all);
  const target = all.find((one) => one.name === name)!;
  const { options, openMidi } = scaleOptions(target, { instrument, targets: all, settings, lengthMm });
  return { file: sound.name, reading: readKeyboard(openSound(sound), { ...options, onProgress }), openMidi };
}

/** What can't be read of the other string is told, and does not stop the first one. */
function otherScale(
  { name }: NamedSound,
  read: () => ReadScale,
  tell: (reply: Reply) => void,
): ReadScale | null {
  try {
    const scale = read();
    if (scale.reading.keys.length > 0) return scale;
    const sentence = `${printable(name)}: no key of ${printable(scale.reading.string)} was heard.`;
    tell({ kind: "failed", sentence });
  } catch (error) {
    if (!(error instanceof AnalysisError)) throw error;
    tell({ kind: "failed", sentence: errorSentence(error, name) });
  }
  return null;
}
