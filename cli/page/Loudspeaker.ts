/** Rise and fall, so that nothing clicks. */
const FADE_SECONDS = 0.05;
/** Of the tone: enough for a small loudspeaker, which gives nothing of a low fundamental. */
const PARTIALS = 12;

/** Plays one sound at a time. Each is brought to one peak, so that a passage and a tone come out alike. */
export class Loudspeaker {
  #context: AudioContext | null = null;
  #gain: GainNode | null = null;
  #sounding: AudioScheduledSourceNode | null = null;
  #loudness: number;

  /** @param loudness - from 0 to 1 */
  constructor(loudness: number) {
    this.#loudness = loudness;
  }

  setLoudness(loudness: number): void {
    this.#loudness = loudness;
    if (this.#context !== null)
      this.#gain?.gain.setTargetAtTime(loudness, this.#context.currentTime, FADE_SECONDS);
  }

  playSamples(samples: Float32Array<ArrayBuffer>, sampleRateHz: number, onEnd: () => void): void {
    const context = this.#ready();
    const buffer = context.createBuffer(1, Math.max(1, samples.length), sampleRateHz);
    const peak = samples.reduce((most, one) => Math.max(most, Math.abs(one)), 1e-6);
    buffer.copyToChannel(
      samples.map((one) => (Number.isFinite(one) ? one / peak : 0)),
      0,
    );
    const source = context.createBufferSource();
    source.buffer = buffer;
    this.#start(source, onEnd);
  }

  playTone(frequencyHz: number, onEnd: () => void): void {
    const context = this.#ready();
    const sines = Float32Array.from({ length: PARTIALS + 1 }, (_, n) => (n === 0 ? 0 : 1 / n));
    const source = context.createOscillator();
    source.setPeriodicWave(context.createPeriodicWave(new Float32Array(PARTIALS + 1), sines));
    source.frequency.value = frequencyHz;
    this.#start(source, onEnd);
  }

  stop(): void {
    const { currentTime = 0 } = this.#context ?? {};
    this.#gain?.gain.setTargetAtTime(0, currentTime, FADE_SECONDS / 3);
    this.#sounding?.stop(currentTime + FADE_SECONDS);
    this.#sounding = null;
    this.#gain = null;
  }

  #ready(): AudioContext {
    this.stop();
    this.#context ??= new AudioContext();
    void this.#context.resume();
    return this.#context;
  }

  #start(source: AudioScheduledSourceNode, onEnd: () => void): void {
    const context = this.#ready();
    const gain = context.createGain();
    gain.gain.setValueAtTime(0, context.currentTime);
    gain.gain.linearRampToValueAtTime(this.#loudness, context.currentTime + FADE_SECONDS);
    source.connect(gain).connect(context.destination);
    source.onended = () => {
      gain.disconnect();
      if (this.#sounding === source) {
        this.#sounding = null;
        onEnd();
      }
    };
    source.start();
    this.#gain = gain;
    this.#sounding = source;
  }
}
