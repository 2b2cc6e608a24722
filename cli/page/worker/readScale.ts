import {
  AnalysisError,
  keyboardDocument,
  keyLadder,
  parseNoteName,
  parsePitchClass,
  readKeyboard,
  type StringTarget,
  targetNames,
} from "../../../src/index.js";
import { chooseTargets } from "./chooseTargets.js";
import { drawPage } from "./drawPage.js";
import type { Reply, Request } from "./Messages.js";
import { openSound } from "./openSound.js";
import { toolVersion } from "./toolVersion.js";

/** Keys that are looked for where the instrument does not say how many there are. */
const USUAL_KEYS = 24;

/** Reads a scale on one string, with the settings that the command would take. */
export async function readScale(
  { sound, targets: asked, string: given, lengthMm }: Extract<Request, { kind: "keyboard" }>,
  tell: (reply: Reply) => void,
): Promise<void> {
  const { instrument, targets, settings } = chooseTargets(asked);
  const [name] = targetNames("string", [given], targets ?? []);
  const target = (targets ?? []).find((one) => one.name === name);
  if (target === undefined) throw new AnalysisError("string-unknown", { option: "string", given, known: "" });
  const string = instrument?.strings.find((one) => one.name === target.name);
  const openMidi = parseNoteName(target.note).midi;
  const tonicDegree = settings.tonic === null ? openMidi : parsePitchClass(settings.tonic).semitonesOverC;
  // Without a tonic there is nothing to build another temperament on, and targets are equal-tempered.
  const temperament = settings.tonic === null ? "equal" : (instrument?.temperament ?? "equal");
  const named = (one: StringTarget) => ({ name: one.name, frequencyHz: one.targetHz });
  const reading = readKeyboard(openSound(sound), {
    string: target.name,
    openTargetHz: target.targetHz,
    ladderCents: keyLadder(temperament, openMidi - tonicDegree, string?.keys ?? USUAL_KEYS),
    lengthMm: lengthMm ?? string?.lengthMm ?? null,
    drones: (targets ?? []).filter(({ role }) => role === "drone" || role === "trompette").map(named),
    otherStrings: (targets ?? []).filter((one) => one.role === "melody" && one !== target).map(named),
    onProgress: (share) => tell({ kind: "progress", share }),
  });
  const { a4Hz, tonic, temperament: chosen, tuning, capo } = settings;
  const document = keyboardDocument({
    toolVersion,
    instrument: instrument?.name ?? null,
    settings: { a4Hz, tonic, temperament: chosen, tuning, capo },
    scale: { file: sound.name, reading, openMidi },
  });
  tell({ kind: "keyed", document });
  tell({ kind: "drawn", page: await drawPage((pages) => pages.keyboardPage(document)) });
}
