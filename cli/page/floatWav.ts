const HEAD_BYTES = 44;
const SAMPLE_BYTES = 4;
const FLOAT_TAG = 3;

/** Samples as a WAV file of 32-bit floating point, in which nothing of them is lost. */
export function floatWav(channels: readonly Float32Array[], sampleRateHz: number): Blob {
  const frameCount = channels[0]?.length ?? 0;
  const frameBytes = SAMPLE_BYTES * channels.length;
  const head = new DataView(new ArrayBuffer(HEAD_BYTES));
  const write = (offset: number, text: string) => {
    for (let i = 0; i < text.length; i++) head.setUint8(offset + i, text.charCodeAt(i));
  };
  write(0, "RIFF");
  head.setUint32(4, HEAD_BYTES - 8 + frameCount * frameBytes, true);
  write(8, "WAVEfmt ");
  head.setUint32(16, 16, true);
  head.setUint16(20, FLOAT_TAG, true);
  head.setUint16(22, channels.length, true);
  head.setUint32(24, sampleRateHz, true);
  head.setUint32(28, sampleRateHz * frameBytes, true);
  head.setUint16(32, frameBytes, true);
  head.setUint16(34, 8 * SAMPLE_BYTES, true);
  write(36, "data");
  head.setUint32(40, frameCount * frameBytes, true);
  const samples = new Float32Array(frameCount * channels.length);
  for (const [c, channel] of channels.entries())
    for (let i = 0; i < frameCount; i++) samples[i * channels.length + c] = channel[i]!;
  return new Blob([head, samples], { type: "audio/wav" });
}
