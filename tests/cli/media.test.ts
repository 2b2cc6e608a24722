import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type MeasureDocument, measureDocumentSchema } from "../../src/index.js";
import { bowedTake } from "./bowedTake.js";
import { type BuiltCommand, buildCommand } from "./buildCommand.js";
import { hasEncoder, hasFfmpeg, makeWithFfmpeg } from "./ffmpegHere.js";

const timeout = 120_000;
const folder = mkdtempSync(join(tmpdir(), "gurdybench-media-"));
const path = (name: string) => join(folder, name);
let command: BuiltCommand;

beforeAll(async () => {
  command = await buildCommand();
  // Seeds and pitches are others than those of the trials that the tolerances below come from.
  writeFileSync(path("take.wav"), bowedTake([98.35, 195.7], 40_417));
}, timeout);
afterAll(() => {
  command.remove();
  rmSync(folder, { recursive: true, force: true });
});

function run(args: readonly string[], env: NodeJS.ProcessEnv = process.env) {
  const [program, ...first] = command.start;
  return spawnSync(program, [...first, ...args], { cwd: folder, env, encoding: "utf8", timeout });
}

type Take = MeasureDocument["takes"][number];

function measured(...names: readonly string[]): Take[] {
  const { stdout, stderr, status } = run(["measure", ...names, "--json", "--tuning", "alto"]);
  expect({ stderr, status }).toEqual({ stderr: "", status: 0 });
  return measureDocumentSchema.parse(JSON.parse(stdout)).takes;
}

describe.skipIf(!hasFfmpeg)("a recording that was compressed without loss", () => {
  it("gives what the WAV gives, to the last digit", { timeout }, () => {
    makeWithFfmpeg("-i", path("take.wav"), "-c:a", "flac", path("take.flac"));
    makeWithFfmpeg("-i", path("take.wav"), "-c:a", "alac", path("alac.m4a"));
    makeWithFfmpeg("-i", path("take.wav"), "-c:a", "flac", path("take.oga"));
    makeWithFfmpeg("-i", path("take.wav"), "-c:a", "pcm_s16le", path("take.mov"));
    const [wav, ...others] = measured("take.wav", "take.flac", "alac.m4a", "take.oga", "take.mov");
    expect(wav!.encoding).toEqual({ container: "WAV", codec: "PCM" });
    expect(wav!.strings.filter(({ status }) => status === "measured")).toHaveLength(2);
    expect(others.map(({ encoding }) => encoding)).toEqual([
      { container: "FLAC", codec: "FLAC" },
      { container: "MP4", codec: "ALAC" },
      { container: "OGG", codec: "FLAC" },
      { container: "MP4", codec: "PCM" },
    ]);
    for (const { file, encoding, ...reading } of others) {
      expect({ file: wav!.file, encoding: wav!.encoding, ...reading }).toEqual(wav);
    }
  });

  it("so do 24 bits and two channels", { timeout }, () => {
    const stereo = [
      "-filter_complex",
      "[0:a]volume=0.37[a];[0:a]volume=0.61[b];[a][b]join=channel_layout=stereo",
    ];
    makeWithFfmpeg("-i", path("take.wav"), ...stereo, "-c:a", "pcm_s24le", path("wide.wav"));
    makeWithFfmpeg("-i", path("wide.wav"), "-c:a", "flac", path("wide.flac"));
    const [wav, flac] = measured("wide.wav", "wide.flac");
    expect(flac!.channelCount).toBe(2);
    expect({ ...flac, file: "", encoding: null }).toEqual({ ...wav, file: "", encoding: null });
  });

  it.each([
    ["measure"],
    ["check"],
    ["wheel"],
    ["trompette", "--string", "G2"],
    ["keyboard", "--string", "G3"],
    ["sympathetic", "--all"],
    ["tap"],
  ])("is read by %s", { timeout }, (name, ...options) => {
    const tuning = name === "check" || name === "tap" ? [] : ["--tuning", "alto"];
    const text = (file: string) => {
      const { status, stdout, stderr } = run([name, file, ...tuning, ...options]);
      return { status, text: `${stdout}${stderr}`.replaceAll(file, "TAKE").replace(", FLAC,", ",") };
    };
    const wav = text("take.wav");
    expect(text("take.flac")).toEqual(wav);
    expect(wav.text).not.toContain("is not a WAV file");
  });

  it("is read by compare, on either side", { timeout }, () => {
    const { status, stdout, stderr } = run([
      "compare",
      "--a",
      "take.wav",
      "--b",
      "take.flac",
      "--tuning",
      "alto",
      "--json",
    ]);
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    const { measures, findings } = JSON.parse(stdout);
    expect(measures.length).toBeGreaterThan(0);
    for (const { difference } of measures) expect(difference).toBe(0);
    expect(findings.map(({ code }: { code: string }) => code)).not.toContain("codecs-differ");
  });
});

/**
 * Name, encoder with its settings, what the file is then, and by how much a level in the octaves that are measured may be off, in dB. Trials
 * with three other takes of four strings at 48 to 192 kilobits a second, all four codecs: pitch within 0.004 cent; partials down to
 * -30 dB against their string within 0.5 dB at 128, 0.03 in the mean; MP3 0.45 dB weaker as a whole, by that encoder's own choice.
 */
const lossy: readonly (readonly [string, readonly string[], string, string])[] = [
  ["take.m4a", ["aac", "-b:a", "128k"], "MP4", "AAC"],
  ["early.m4a", ["aac", "-b:a", "128k", "-movflags", "+faststart"], "MP4", "AAC"],
  ["take.mp3", ["libmp3lame", "-b:a", "128k"], "MP3", "MP3"],
  ["take.ogg", ["libvorbis", "-b:a", "128k"], "OGG", "Vorbis"],
  ["take.opus", ["libopus", "-b:a", "128k"], "OGG", "Opus"],
];

describe("a recording that was compressed with loss", () => {
  it.for(lossy)(
    "is read, pitch all but untouched, and told as such: %s, %s",
    { timeout },
    ([name, encoder, container, codec], { skip }) => {
      skip(!hasEncoder(encoder[0]!), `ffmpeg with ${encoder[0]} is not installed`);
      makeWithFfmpeg("-i", path("take.wav"), "-c:a", ...encoder, path(name));
      const [wav, take] = measured("take.wav", name);
      expect(take!.encoding).toEqual({ container, codec });
      expect(take!.findings.find(({ code }) => code === "lossy-codec")).toMatchObject({
        severity: "warning",
        values: { container, codec },
      });
      expect(take!.findings.map(({ code }) => code)).not.toContain("media-damaged");
      expect(take!.findings.map(({ code }) => code)).not.toContain("size-unset");
      expect(wav!.findings.map(({ code }) => code)).not.toContain("lossy-codec");
      // Encoders put up to 0.05 s of silence at the ends: so much earlier or later does a passage begin.
      expect(Math.abs(take!.durationSeconds - wav!.durationSeconds)).toBeLessThan(0.1);
      for (const [i, string] of wav!.strings.entries()) {
        const other = take!.strings[i]!;
        expect(other.status).toBe(string.status);
        if (string.status !== "measured") continue;
        // Ten times the worst of the trials, for another 0.05 s of a string that wavers by half a cent.
        expect(Math.abs(other.deviationCents! - string.deviationCents!)).toBeLessThan(0.04);
        expect(Math.abs(other.levelDb! - string.levelDb!)).toBeLessThan(0.6);
        const gap = string.partials
          .filter(({ levelDb }) => levelDb !== null && levelDb > -30)
          .map(({ number, levelDb }) => {
            const same = other.partials.find((one) => one.number === number);
            return Math.abs(same!.levelDb! - levelDb!);
          });
        expect(gap.length).toBeGreaterThan(5);
        // Twice the worst of the trials.
        expect(Math.max(...gap)).toBeLessThan(1);
      }
    },
  );

  it.skipIf(!hasEncoder("mpeg4"))("is read out of a video, the picture left alone", { timeout }, () => {
    const picture = ["-f", "lavfi", "-i", "color=c=red:size=32x32:duration=14:rate=5"];
    makeWithFfmpeg(...picture, "-i", path("take.wav"), "-c:v", "mpeg4", "-c:a", "aac", path("video.mp4"));
    const [take] = measured("video.mp4");
    expect(take!.encoding).toEqual({ container: "MP4", codec: "AAC" });
    expect(take!.findings.map(({ code }) => code)).not.toContain("media-damaged");
    expect(take!.strings.filter(({ status }) => status === "measured")).toHaveLength(2);
  });

  it.skipIf(!hasFfmpeg)("on one side only makes a comparison unfair", { timeout }, () => {
    makeWithFfmpeg("-i", path("take.wav"), "-c:a", "aac", path("fair.m4a"));
    const { stdout } = run(["compare", "--a", "take.wav", "--b", "fair.m4a", "--tuning", "alto", "--json"]);
    expect(JSON.parse(stdout).findings.map(({ code }: { code: string }) => code)).toContain("codecs-differ");
  });
});

describe("a batch with files that can't be decoded", () => {
  it.skipIf(!hasFfmpeg)("has a sentence for each, and measures the others", { timeout }, () => {
    makeWithFfmpeg("-i", path("take.wav"), "-c:a", "aac", path("good.m4a"));
    makeWithFfmpeg("-i", path("take.wav"), "-c:a", "aac", "-movflags", "+faststart", path("front.m4a"));
    makeWithFfmpeg("-i", path("take.wav"), "-c:a", "flac", path("good.flac"));
    makeWithFfmpeg("-i", path("take.wav"), "-c:a", "flac", path("good.oga"));
    const good = readFileSync(path("good.m4a"));
    writeFileSync(path("broken-off.m4a"), good.subarray(0, good.length >> 1));
    writeFileSync(path("playlist.m4a"), "#EXTM3U\nfile:///etc/hostname\n");
    writeFileSync(path("zeros.flac"), Buffer.concat([Buffer.from("fLaC"), Buffer.alloc(5000)]));
    writeFileSync(path("named.wav"), good);
    for (const name of ["front.m4a", "good.flac", "good.oga"]) {
      const bytes = readFileSync(path(name));
      writeFileSync(path(name.replace(/^\w+/, "half")), bytes.subarray(0, bytes.length >> 1));
    }
    const bad = ["broken-off.m4a", "playlist.m4a", "zeros.flac"];
    const half = ["half.m4a", "half.flac", "half.oga"];
    const { status, stdout, stderr } = run(["measure", ...bad, "take.wav", "named.wav", ...half, "--json"]);
    expect(status).toBe(1);
    const lines = stderr.trim().split("\n");
    expect(lines[0]).toContain("broken-off.m4a is M4A (MP4), but its index is missing");
    expect(lines[1]).toContain('playlist.m4a is not a WAV file: it begins with "#EXT"');
    expect(lines[2]).toMatch(/zeros\.flac is FLAC, but (ffmpeg could not decode it|holds no sound)/);
    expect(lines).toHaveLength(3);
    const { takes, failed } = measureDocumentSchema.parse(JSON.parse(stdout));
    expect(failed.map(({ file }) => file)).toEqual(bad);
    expect(takes.map(({ file }) => file)).toEqual(["take.wav", "named.wav", ...half]);
    for (const take of takes) {
      const isDamaged = take.findings.some(({ code }) => code === "media-damaged");
      expect({ file: take.file, isDamaged }).toEqual({
        file: take.file,
        isDamaged: half.includes(take.file),
      });
    }
  });

  it("says how to go on where ffmpeg is not installed", { timeout }, () => {
    // Two frames of MP3, by hand: nothing is needed to make them.
    const frame = Buffer.alloc(417);
    frame.set([0xff, 0xfb, 0x90, 0xc0]);
    writeFileSync(path("phone.mp3"), Buffer.concat([frame, frame]));
    const env = { ...process.env, PATH: folder };
    const alone = run(["measure", "phone.mp3"], env);
    expect({ status: alone.status, stdout: alone.stdout }).toEqual({ status: 3, stdout: "" });
    expect(alone.stderr).toMatch(/^gurdybench: phone\.mp3 is MP3, .* ffmpeg, .*not installed.* WAV .*\.\n$/);
    const batch = run(["check", "phone.mp3", "take.wav"], env);
    expect(batch.status).toBe(1);
    expect(batch.stdout).toContain("take.wav");
  });
});
