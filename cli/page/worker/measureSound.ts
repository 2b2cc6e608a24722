import {
  type MeasureDocument,
  measureDocument,
  measureOptionsOf,
  measureTake,
  type PicturedTake,
  spectrogramOf,
  takeAnswer,
} from "../../../src/index.js";
import { chooseTargets } from "./chooseTargets.js";
import { drawPage } from "./drawPage.js";
import type { Reply, Request } from "./Messages.js";
import { openSound } from "./openSound.js";
import { toolVersion } from "./toolVersion.js";

/** Measures one take: the document, which is that of the command, with its sentences; then the page with its charts. */
export async function measureSound(
  { sound, targets: asked }: Extract<Request, { kind: "measure" }>,
  tell: (reply: Reply) => void,
): Promise<void> {
  const chosen = chooseTargets(asked);
  const { instrument, settings } = chosen;
  const recording = openSound(sound);
  const reading = measureTake(recording, {
    ...measureOptionsOf(chosen),
    onProgress: (share) => tell({ kind: "progress", share }),
  });
  const document: MeasureDocument = measureDocument({
    toolVersion,
    instrument: instrument?.name ?? null,
    settings,
    takes: [{ file: sound.name, reading }],
  });
  tell({ kind: "measured", document, answer: takeAnswer(document.takes[0]!, document) });
  const pictured: PicturedTake = { ...reading, spectrogram: spectrogramOf(recording) };
  tell({ kind: "drawn", page: await drawPage((pages) => pages.measurePage(document, [pictured])) });
}
