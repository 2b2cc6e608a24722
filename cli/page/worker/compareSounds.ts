import {
  AnalysisError,
  compareDocument,
  compareSides,
  errorSentence,
  measureTake,
  type TakeReading,
} from "../../../src/index.js";
import { chooseTargets } from "./chooseTargets.js";
import { drawPage } from "./drawPage.js";
import type { Reply, Request } from "./Messages.js";
import { openSound } from "./openSound.js";
import { toolVersion } from "./toolVersion.js";

/** Measures the takes of all sides and compares them. A take that can't be read is left out and told. */
export async function compareSounds(
  { sides, targets: asked, equalGain }: Extract<Request, { kind: "compare" }>,
  tell: (reply: Reply) => void,
): Promise<void> {
  const { instrument, targets, settings } = chooseTargets(asked);
  const takeCount = sides.reduce((sum, { takes }) => sum + takes.length, 0);
  const failed: { file: string; error: AnalysisError | null }[] = [];
  let done = 0;
  const read = sides.map(({ name, takes }) => {
    const readings: TakeReading[] = [];
    const files: string[] = [];
    for (const sound of takes) {
      try {
        const reading = measureTake(openSound(sound), {
          targets,
          a4Hz: settings.a4Hz,
          lowEdgeHz: settings.lowEdgeHz,
          onProgress: (share) => tell({ kind: "progress", share: (done + share) / takeCount }),
        });
        if (reading.sounds.length === 0) failed.push({ file: sound.name, error: null });
        else {
          readings.push(reading);
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
  const choice = { equalGain, microphone: null };
  const { anchor: _, ...common } = settings;
  const document = compareDocument({
    toolVersion,
    instrument: instrument?.name ?? null,
    settings: { ...common, ...choice },
    comparison: compareSides(read, { equalGain: choice.equalGain, lowEdgeHz: settings.lowEdgeHz }),
    files: read.map(({ files }) => files),
    failed,
  });
  tell({ kind: "compared", document });
  tell({ kind: "drawn", page: await drawPage((pages) => pages.comparePage(document)) });
}
