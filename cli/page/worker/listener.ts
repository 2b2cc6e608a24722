import {
  AnalysisError,
  errorSentence,
  findingMessage,
  type LiveReader,
  liveReader,
} from "../../../src/index.js";
import { chooseTargets } from "./chooseTargets.js";
import type { LiveReply, LiveRequest } from "./LiveMessages.js";

// The thread that listens while a take is recorded: every block it is given is heard at once.
const tell = (reply: LiveReply) => self.postMessage(reply);
let reader: LiveReader | null = null;

self.onmessage = ({ data }: MessageEvent<LiveRequest>) => {
  try {
    if (data.kind === "begin") reader = begun(data);
    else for (const reading of reader?.push(data.channels) ?? []) tellReading(reading);
  } catch (error) {
    reader = null;
    const fault = error instanceof Error ? error.name : "unknown";
    const told = error instanceof AnalysisError ? error : new AnalysisError("unexpected-fault", { fault });
    tell({ kind: "failed", sentence: errorSentence(told, "The instrument") });
  }
};

function begun({
  sampleRateHz,
  channelCount,
  targets: asked,
}: Extract<LiveRequest, { kind: "begin" }>): LiveReader {
  const { targets, settings } = chooseTargets(asked);
  return liveReader({ sampleRateHz, channelCount, targets, a4Hz: settings.a4Hz });
}

function tellReading(reading: ReturnType<LiveReader["reading"]>): void {
  const findings = reading.findings.map((finding) => ({
    code: finding.code,
    severity: finding.severity,
    message: findingMessage(finding),
  }));
  tell({ kind: "reading", reading, findings });
}
