import {
  AnalysisError,
  errorSentence,
  measureDocumentSchema,
  readLog,
  sniffMedia,
  takeAnswer,
} from "../../../src/index.js";
import { blobByteSource } from "./blobByteSource.js";
import { chooseTargets } from "./chooseTargets.js";
import { compareSounds } from "./compareSounds.js";
import { cutPassage } from "./cutPassage.js";
import { drawPage } from "./drawPage.js";
import type { Reply, Request } from "./Messages.js";
import { measureSound } from "./measureSound.js";
import { readHistoryLog } from "./readHistoryLog.js";
import { readMore } from "./readMore.js";
import { readScale } from "./readScale.js";

// The thread that reads: it works off one request after another; the page ends it where one is no longer wanted.
const tell = (reply: Reply) => self.postMessage(reply);

self.onmessage = async ({ data }: MessageEvent<Request>) => {
  try {
    await answer(data);
  } catch (error) {
    const told = toldOf(error);
    tell({ kind: "failed", sentence: errorSentence(told, nameIn(data, told)) });
  }
  tell({ kind: "done" });
};

async function answer(request: Request): Promise<void> {
  switch (request.kind) {
    case "look":
      tell({ kind: "looked", needsDecoding: sniffMedia(blobByteSource(request.sound.blob)) !== null });
      return;
    case "instrument": {
      const { instrument, targets } = chooseTargets(request.targets);
      tell({
        kind: "instrument",
        name: instrument?.name ?? "",
        strings: (targets ?? []).map((target, i) => ({
          ...target,
          capo: instrument?.strings[i]?.capo ?? [],
        })),
      });
      return;
    }
    case "reword":
      tell({ kind: "reworded", readings: request.documents.map(reworded) });
      return;
    case "history":
      return readHistoryLog(request, tell);
    case "log": {
      const { takes, problems } = readLog(request.text);
      tell({ kind: "logged", takeCount: takes.length, problemCount: problems.length });
      return;
    }
    case "draw": {
      const { document } = request;
      tell({ kind: "drawn", page: await drawPage((pages) => pages.measurePage(document, [])) });
      return;
    }
    case "passage":
      tell({ kind: "passage", ...cutPassage(request) });
      return;
    case "measure":
      return measureSound(request, tell);
    case "more":
      return readMore(request, tell);
    case "compare":
      return compareSounds(request, tell);
    case "keyboard":
      return readScale(request, tell);
  }
}

function reworded(given: unknown) {
  const { success, data: document } = measureDocumentSchema.safeParse(given);
  const take = document?.takes[0];
  return success && take !== undefined ? { document, answer: takeAnswer(take, document) } : null;
}

function toldOf(error: unknown): AnalysisError {
  if (error instanceof AnalysisError) return error;
  // The file has gone, or was changed since it was picked.
  if (error instanceof DOMException)
    return new AnalysisError("file-unusable", { reason: "unreadable", sizeBytes: null, limitBytes: null });
  return new AnalysisError("unexpected-fault", { fault: error instanceof Error ? error.name : "unknown" });
}

/** What the sentence about it is to name: some faults are of another file than the recording. */
function nameIn(request: Request, fault: AnalysisError): string | undefined {
  if (fault.is("instrument-invalid") || fault.is("length-unknown")) return "The instrument";
  if (fault.is("microphone-invalid") && request.kind === "compare") return request.microphone?.name;
  if ("sound" in request) return request.sound.name;
  return "first" in request ? request.first.sound.name : undefined;
}
