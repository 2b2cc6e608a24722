// Runs where the browser hands out the microphone's samples: collects them, and hands them on as they are.

/** What the browser gives this room besides the language. */
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(
  name: string,
  processor: new () => AudioWorkletProcessor & { process(inputs: Float32Array[][]): boolean },
): void;

/** The browser gives 128 frames at a time; so many together are sent, some 20 times a second. */
const BLOCK_FRAMES = 2048;

class Capture extends AudioWorkletProcessor {
  #block: Float32Array[] = [];
  #filled = 0;

  process([input]: Float32Array[][]): boolean {
    const length = input?.[0]?.length ?? 0;
    // No input yet: the microphone is still waking up.
    if (input === undefined || length === 0) return true;
    if (this.#block.length !== input.length) this.#begin(input.length);
    if (this.#filled + length > BLOCK_FRAMES) this.#send();
    for (const [c, samples] of input.entries()) this.#block[c]!.set(samples, this.#filled);
    this.#filled += length;
    return true;
  }

  #begin(channelCount: number): void {
    this.#block = Array.from({ length: channelCount }, () => new Float32Array(BLOCK_FRAMES));
    this.#filled = 0;
  }

  #send(): void {
    const channels = this.#block.map((samples) => samples.slice(0, this.#filled));
    this.#begin(channels.length);
    this.port.postMessage(
      channels,
      channels.map(({ buffer }) => buffer),
    );
  }
}

registerProcessor("capture", Capture);
