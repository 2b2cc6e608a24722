import {
  AnalysisError,
  compareDocument,
  compareSides,
  errorSentence,
  measureOptionsOf,
  measureTake,
  readMicrophoneResponse,
  type TakeReading,
  withMicrophone,
  withMicrophoneFinding,
} from "../../../src/index.js";
import { chooseTargets } from "./chooseTargets.js";
import { drawPage } from "./drawPage.js";
import type { Reply, Request } from "./Messages.js";
import { openSound } from "./openSound.js";
import { repeatedSound } from "./repeatedSound.js";
import { toolVersion } from "./toolVersion.js";

/** Measures the takes of all sides and compares them. A take that can't be read is left out and told. */
export async function compareSounds(
  { sides, targets: asked, equalGain, microphone }: Extract<Request, { kind: "compare" }>,
  tell: (reply: Reply) => void,
): Promise<void> {
  const chosen = chooseTargets(asked);
  const repeated = repeatedSound(sides.flatMap(({ takes }) => takes));
  if (repeated !== null) {
    tell({ kind: "failed", sentence: repeated });
    return;
  }
  const { instrument, settings } = chosen;
  const { lowEdgeHz } = settings;
  const response = microphone && readMicrophoneResponse(microphone.text);
  const takeCount = sides.reduce((sum, { takes }) => sum + takes.length, 0);
  const failed: { file: string; error: AnalysisError | null }[] = [];
  let done = 0;
  const read = sides.map(({ name, takes }) => {
    const readings: TakeReading[] = [];
    const files: string[] = [];
    for (const sound of takes) {
      try {
        const reading = measureTake(openSound(sound), {
          ...measureOptionsOf(chosen),
          onProgress: (share) => tell({ kind: "progress", share: (done + share) / takeCount }),
        });
        if (reading.sounds.length === 0) failed.push({ file: sound.name, error: null });
        else {
          readings.push(response === null ? reading : withMicrophone(reading, response, lowEdgeHz));
          files.push(sound.name);
        }
      } catch (error) {
        if (!(error instanceof AnalysisError)) throw error;
        failed.push({ file: sound.name, error });
      }
      done += 1;
    }
    return { name, takes: readings, files };
  });
  const empty = read.find(({ takes }) => takes.length === 0);
  if (empty !== undefined) {
    const [first] = failed;
    const why = first?.error ? ` ${errorSentence(first.error, first.file)}` : "";
    tell({ kind: "failed", sentence: `No take of ${empty.name} could be used.${why}` });
    return;
  }
  const choice = { equalGain, microphone: microphone?.name ?? null };
  const { anchor: _, ...common } = settings;
  const document = compareDocument({
    toolVersion,
    instrument: instrument?.name ?? null,
    settings: { ...common, ...choice },
    comparison: withMicrophoneFinding(compareSides(read, { equalGain, lowEdgeHz }), response),
    files: read.map(({ files }) => files),
    failed,
  });
  tell({ kind: "compared", document });
  tell({
    kind: "drawn",
    page: await drawPage((pages) =>
      pages.comparePage(document, microphone === null ? [] : [microphone.name]),
    ),
  });
}
