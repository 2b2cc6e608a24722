import captureUrl from "./capture.ts?worker&url";

/** What a browser does to speech, and what ruins a comparison of low registers. */
const SPEECH_HELPS = ["echoCancellation", "noiseSuppression", "autoGainControl"] as const;
export type SpeechHelp = (typeof SPEECH_HELPS)[number];

/** Why there is no sound from a microphone. */
export type MicrophoneFault = "denied" | "none" | "busy" | "not-secure" | "failed";

/** A microphone that is being listened to. */
export interface OpenMicrophone {
  readonly sampleRateHz: number;
  /** What the browser does to the sound although it was asked not to. */
  readonly stillOn: readonly SpeechHelp[];
  close(): void;
}

/**
 * Asks for the microphone, without what is meant for speech, and hands on its samples as they are.
 *
 * @param onBlock - one array a channel, some 20 times a second
 * @param onLost - the microphone was pulled out, or its permission taken back
 */
export async function openMicrophone(
  onBlock: (channels: Float32Array<ArrayBuffer>[]) => void,
  onLost: () => void,
): Promise<OpenMicrophone | MicrophoneFault> {
  // Browsers hand out the microphone to pages of this computer and to https only.
  if (navigator.mediaDevices === undefined) return "not-secure";
  let stream: MediaStream;
  try {
    stream = await navigator.mediaDevices.getUserMedia({
      audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false },
    });
  } catch (error) {
    return faultOf(error);
  }
  const [track] = stream.getAudioTracks();
  // Nobody listens to it meanwhile: long buffers, so that a busy device leaves no gaps.
  const context = new AudioContext({ latencyHint: "playback" });
  const close = () => {
    track?.removeEventListener("ended", onLost);
    for (const one of stream.getTracks()) one.stop();
    void context.close();
  };
  try {
    await context.audioWorklet.addModule(captureUrl);
    await context.resume();
  } catch {
    close();
    return "failed";
  }
  const capture = new AudioWorkletNode(context, "capture", { numberOfOutputs: 0 });
  capture.port.onmessage = ({ data }: MessageEvent<Float32Array<ArrayBuffer>[]>) => onBlock(data);
  context.createMediaStreamSource(stream).connect(capture);
  track?.addEventListener("ended", onLost);
  const settings = track?.getSettings() ?? {};
  return {
    sampleRateHz: context.sampleRate,
    stillOn: SPEECH_HELPS.filter((help) => settings[help] === true),
    close,
  };
}

function faultOf(error: unknown): MicrophoneFault {
  const name = error instanceof DOMException ? error.name : "";
  if (name === "NotAllowedError" || name === "SecurityError") return "denied";
  if (name === "NotFoundError" || name === "OverconstrainedError") return "none";
  return name === "NotReadableError" || name === "AbortError" ? "busy" : "failed";
}
