/** Quiet to begin with: what was recorded close to an instrument can be loud on headphones. */
export const FIRST_VOLUME = 0.2;
/** Fades that keep the ear from a click. */
const FADE_SECONDS = 0.04;
const TONE_SECONDS = 6;
/** Some partials, falling off as a bowed string's do: a bare sine is hard to compare a string with. */
const TONE_PARTIALS = 8;
/** A tone is as loud as a string recorded at a usual level. */
const TONE_LEVEL = 0.25;

/** Plays one thing at a time: a passage of a recording, or the tone a string should have. */
export class Player {
  #context: AudioContext | null = null;
  #volume: GainNode | null = null;
  #playing: { readonly source: AudioScheduledSourceNode; readonly fade: GainNode } | null = null;
  #level = FIRST_VOLUME;

  /** @param level - 0 to 1 */
  setVolume(level: number): void {
    this.#level = level;
    this.#volume?.gain.setTargetAtTime(level, this.#context!.currentTime, FADE_SECONDS);
  }

  playSamples(channels: readonly Float32Array<ArrayBuffer>[], sampleRateHz: number, onEnd: () => void): void {
    const { context } = this.#opened();
    const buffer = context.createBuffer(channels.length, Math.max(1, channels[0]?.length ?? 0), sampleRateHz);
    for (const [c, samples] of channels.entries()) buffer.copyToChannel(samples, c);
    const source = new AudioBufferSourceNode(context, { buffer });
    this.#play(source, buffer.duration, 1, onEnd);
  }

  playTone(frequencyHz: number, onEnd: () => void): void {
    const { context } = this.#opened();
    const sine = Float32Array.from({ length: TONE_PARTIALS + 1 }, (_, n) => (n === 0 ? 0 : 1 / n));
    const periodicWave = context.createPeriodicWave(new Float32Array(sine.length), sine);
    const source = new OscillatorNode(context, { frequency: frequencyHz, periodicWave });
    this.#play(source, TONE_SECONDS, TONE_LEVEL, onEnd);
  }

  stop(): void {
    const playing = this.#playing;
    this.#playing = null;
    if (playing === null || this.#context === null) return;
    playing.source.onended = null;
    const now = this.#context.currentTime;
    playing.fade.gain.cancelScheduledValues(now);
    playing.fade.gain.setTargetAtTime(0, now, FADE_SECONDS / 3);
    playing.source.stop(now + 2 * FADE_SECONDS);
  }

  close(): void {
    this.stop();
    void this.#context?.close();
    this.#context = null;
  }

  #opened(): { readonly context: AudioContext; readonly volume: GainNode } {
    this.#context ??= new AudioContext();
    if (this.#volume === null || this.#volume.context !== this.#context) {
      this.#volume = new GainNode(this.#context, { gain: this.#level });
      this.#volume.connect(this.#context.destination);
    }
    void this.#context.resume();
    return { context: this.#context, volume: this.#volume };
  }

  #play(source: AudioScheduledSourceNode, seconds: number, level: number, onEnd: () => void): void {
    this.stop();
    const { context, volume } = this.#opened();
    const fade = new GainNode(context, { gain: 0 });
    const now = context.currentTime;
    fade.gain.setValueAtTime(0, now);
    fade.gain.linearRampToValueAtTime(level, now + FADE_SECONDS);
    fade.gain.setValueAtTime(level, now + Math.max(FADE_SECONDS, seconds - FADE_SECONDS));
    fade.gain.linearRampToValueAtTime(0, now + Math.max(2 * FADE_SECONDS, seconds));
    source.connect(fade).connect(volume);
    source.onended = () => {
      this.#playing = null;
      onEnd();
    };
    this.#playing = { source, fade };
    source.start(now);
    source.stop(now + seconds);
  }
}
