// Files by other encoders (data/README.md): decoded samples against the formula they were made from.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { memoryByteSource } from "../../src/wav/memoryByteSource.js";
import { openWav } from "../../src/wav/openWav.js";
import { thrownBy } from "./thrownBy.js";

const bytesOf = (name: string) => readFileSync(new URL(`data/${name}`, import.meta.url));
const open = (name: string) => openWav(memoryByteSource(bytesOf(name)));
const truth = (channel: number, frame: number) =>
  0.9 * Math.sin((2 * Math.PI * (channel + 1) * (frame + 0.5)) / 64);

// One step of the integer format, because ffmpeg truncates from floating point where the others round; half a unit
// in the last place of a 32-bit float below 1 (2^-25) comes on top. sox passes everything through 32-bit integers.
const step = (bits: number) => () => 2 ** (1 - bits) + 2 ** -25;
// G.711: sixteen steps to an octave at the top of a segment make a step at most 1/16 of the value, at most 2^-11 near
// zero (the smallest A-law step is 2^-11, of mu-law 2^-12). An encoder may truncate, then a whole step is off.
const g711 = (value: number) => Math.abs(value) / 16 + 2 ** -11;

const FILES: [file: string, rateHz: number, channels: number, tolerance: (value: number) => number][] = [
  ["ffmpeg-u8-mono.wav", 8000, 1, step(8)],
  ["ffmpeg-s16-stereo.wav", 44_100, 2, step(16)],
  ["ffmpeg-s24-stereo-extensible.wav", 96_000, 2, step(24)],
  ["ffmpeg-s32-mono-extensible.wav", 192_000, 1, step(32)],
  ["ffmpeg-f32-stereo.wav", 48_000, 2, step(32)],
  ["ffmpeg-f64-mono.wav", 48_000, 1, step(32)],
  ["ffmpeg-s16-six-extensible.wav", 48_000, 6, step(16)],
  ["ffmpeg-s24-stereo-rf64.wav", 48_000, 2, step(24)],
  ["ffmpeg-alaw-mono.wav", 8000, 1, g711],
  ["ffmpeg-mulaw-mono.wav", 8000, 1, g711],
  ["ffmpeg-s16-mono-pipe.wav", 48_000, 1, step(16)],
  ["sndfile-f32-stereo-extensible.wav", 48_000, 2, step(32)],
  ["sndfile-f64-mono-extensible.wav", 48_000, 1, step(32)],
  ["sndfile-s24-mono-extensible.wav", 48_000, 1, step(24)],
  ["sndfile-alaw-stereo-extensible.wav", 48_000, 2, g711],
  ["sndfile-mulaw-stereo-extensible.wav", 48_000, 2, g711],
  ["sndfile-s24-stereo-rf64.wav", 48_000, 2, step(24)],
  ["sndfile-f32-mono-rf64.wav", 48_000, 1, step(32)],
  ["sndfile-s24-stereo-rifx.wav", 48_000, 2, step(24)],
  ["sndfile-f64-mono-rifx.wav", 48_000, 1, step(32)],
  ["sox-s16-mono-rifx.wav", 48_000, 1, step(16)],
  ["sox-u8-mono.wav", 48_000, 1, step(8)],
  ["sox-alaw-mono.wav", 48_000, 1, g711],
  ["sox-s16-mono-pipe.wav", 48_000, 1, step(16)],
  ["sox-s24-stereo-extensible-rifx.wav", 48_000, 2, step(24)],
  ["sox-f32-stereo-rifx.wav", 48_000, 2, step(32)],
  ["sox-s32-stereo-extensible.wav", 48_000, 2, step(32)],
];

describe("files by ffmpeg, libsndfile and sox", () => {
  it.each(FILES)("%s holds the samples it was made from", (file, rateHz, channelCount, tolerance) => {
    const recording = open(file);
    expect(recording).toMatchObject({ sampleRateHz: rateHz, channelCount, frameCount: 64 });
    expect(recording.durationSeconds).toBe(64 / rateHz);
    const channels = recording.read(0, 64);
    expect(channels.map((channel) => channel.length)).toEqual(Array(channelCount).fill(64));
    const worst = channels.flatMap((samples, channel) =>
      [...samples].map((sample, frame) => {
        const value = truth(channel, frame);
        return Math.abs(sample - value) / tolerance(value);
      }),
    );
    expect(Math.max(...worst)).toBeLessThanOrEqual(1);
  });

  it.each([
    ["ffmpeg-s16-mono-pipe.wav", 0xffffffff],
    ["sox-s16-mono-pipe.wav", 0x7ffff000],
  ])("%s: the placeholder size is noted", (file, promisedBytes) => {
    expect(open(file).decodingNotes).toEqual([
      { code: "wav-size-unset", values: { byteOffset: 44, promisedBytes, foundBytes: 128 } },
    ]);
  });

  it("has nothing to note about files that were closed properly", () => {
    const notes = FILES.filter(([file]) => !file.endsWith("pipe.wav")).flatMap(
      ([file]) => open(file).decodingNotes,
    );
    expect(notes).toEqual([]);
  });

  // wFormatTag numbers: RFC 2361.
  it.each([
    ["ffmpeg-ima-adpcm.wav", 0x11, "IMA ADPCM"],
    ["ffmpeg-ms-adpcm.wav", 0x02, "Microsoft ADPCM"],
    ["sndfile-gsm610.wav", 0x31, "GSM 6.10"],
  ])("%s is refused by name", (file, formatTag, codec) => {
    expect(thrownBy(() => open(file))).toEqual({
      code: "wav-codec-unsupported",
      details: { byteOffset: 20, formatTag, codec },
    });
  });
});
