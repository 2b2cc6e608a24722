import { useEffect, useRef, useState } from "preact/hooks";
import { type LiveReading, wavOfBlocks } from "../../../src/index.js";
import type { LiveReply, LiveRequest, ToldFinding } from "../worker/LiveMessages.js";
import type { TargetsAsked } from "../worker/Messages.js";
import { GapWatch } from "./GapWatch.js";
import {
  type MicrophoneFault,
  type OpenMicrophone,
  openMicrophone,
  type SpeechHelp,
} from "./openMicrophone.js";

/** Twenty minutes of one channel at 48 kHz take 230 MB as they are kept here. */
const LONGEST_SECONDS = 1200;

/** What is going on at the microphone. */
export interface Recording {
  readonly state: "idle" | "asking" | "recording";
  readonly seconds: number;
  readonly reading: LiveReading | null;
  readonly findings: readonly ToldFinding[];
  /** True once a sample of this take has reached full scale. */
  readonly isClipped: boolean;
  /** Places at which sound is missing: the device was too busy. */
  readonly gapCount: number;
  readonly stillOn: readonly SpeechHelp[];
  readonly fault: MicrophoneFault | "lost" | "too-long" | null;
  /** Why nothing is read meanwhile; it is recorded all the same. */
  readonly sentence: string | null;
}

const idle: Recording = {
  state: "idle",
  seconds: 0,
  reading: null,
  findings: [],
  isClipped: false,
  gapCount: 0,
  stillOn: [],
  fault: null,
  sentence: null,
};

/** Full scale less half a step of 16 bits: nothing above it is what the microphone heard. */
const FULL_SCALE = 1 - 2 ** -16;

/**
 * Records from the microphone, and has the strings read meanwhile.
 *
 * @param onTake - a recording that was ended, as WAV
 */
export function useRecorder(onTake: (wav: Blob, seconds: number) => void) {
  const [recording, setRecording] = useState(idle);
  const blocks = useRef<Float32Array<ArrayBuffer>[][]>([]);
  const microphone = useRef<OpenMicrophone | null>(null);
  const listener = useRef<Worker | null>(null);
  const change = (next: Partial<Recording>) => setRecording((now) => ({ ...now, ...next }));

  function letGo(): void {
    microphone.current?.close();
    microphone.current = null;
    listener.current?.terminate();
    listener.current = null;
  }
  // The tab that is left must not go on listening.
  useEffect(() => letGo, []);

  async function start(targets: TargetsAsked): Promise<void> {
    blocks.current = [];
    setRecording({ ...idle, state: "asking" });
    let frames = 0;
    let isClipped = false;
    let gaps: GapWatch | null = null;
    const onBlock = (channels: Float32Array<ArrayBuffer>[]) => {
      const opened = microphone.current;
      if (opened === null) return;
      const [first] = blocks.current;
      // A microphone that changes its channels on the way has become another one.
      if (first !== undefined && first.length !== channels.length) return;
      if (first === undefined) {
        tell({ kind: "begin", sampleRateHz: opened.sampleRateHz, channelCount: channels.length, targets });
      }
      blocks.current.push(channels);
      frames += channels[0]!.length;
      isClipped ||= channels.some((samples) => samples.some((value) => Math.abs(value) >= FULL_SCALE));
      const seconds = frames / opened.sampleRateHz;
      gaps ??= new GapWatch(opened.sampleRateHz);
      gaps.push(channels[0]!);
      change({ seconds, isClipped, gapCount: gaps.count });
      tell({ kind: "block", channels });
      if (seconds >= LONGEST_SECONDS) end("too-long");
    };
    const opened = await openMicrophone(onBlock, () => end("lost"));
    if (typeof opened === "string") {
      setRecording({ ...idle, fault: opened });
      return;
    }
    microphone.current = opened;
    listener.current = listen();
    change({ state: "recording", stillOn: opened.stillOn });
  }

  function tell(request: LiveRequest): void {
    listener.current?.postMessage(request);
  }

  function listen(): Worker {
    const worker = new Worker(new URL("../worker/listener.ts", import.meta.url), { type: "module" });
    worker.onmessage = ({ data }: MessageEvent<LiveReply>) => {
      if (worker !== listener.current) return;
      if (data.kind === "failed") change({ sentence: data.sentence });
      else change({ reading: data.reading, findings: data.findings });
    };
    return worker;
  }

  function end(fault: Recording["fault"] = null): void {
    const opened = microphone.current;
    const taken = blocks.current;
    letGo();
    blocks.current = [];
    setRecording((now) => ({ ...now, state: "idle", fault }));
    if (opened === null || taken.length === 0) return;
    const frames = taken.reduce((sum, block) => sum + block[0]!.length, 0);
    const wav = new Blob(wavOfBlocks(taken, opened.sampleRateHz), { type: "audio/wav" });
    onTake(wav, frames / opened.sampleRateHz);
  }

  return { recording, start, stop: () => end() };
}
