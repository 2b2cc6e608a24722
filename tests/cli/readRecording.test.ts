import {
  appendFileSync,
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { readRecording } from "../../cli/readRecording.js";
import { AnalysisError, type AudioRecording } from "../../src/index.js";
import { encodeWav } from "../../src/wav/encodeWav.js";
import { makePipe } from "./testFiles.js";

const folder = mkdtempSync(join(tmpdir(), "gurdybench-read-"));
const path = (name: string) => join(folder, name);
const RATE_HZ = 8000;
const SECONDS = 20;
const isRoot = process.getuid?.() === 0;

beforeEach(() => {
  rmSync(path("take.wav"), { force: true });
  const samples = Float32Array.from({ length: SECONDS * RATE_HZ }, (_, i) => 0.5 * Math.sin(i / 9));
  writeFileSync(path("take.wav"), encodeWav([samples], RATE_HZ, "16"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Reads the first second, then something happens to the file, then the rest is read. */
function readWhile(happens: () => void): number | string {
  const read = (recording: AudioRecording) => {
    const first = recording.read(0, RATE_HZ)[0]!.length;
    happens();
    return first + recording.read(RATE_HZ, recording.frameCount)[0]!.length;
  };
  return told(readRecording(path("take.wav"), read));
}

function told<T>(result: T | AnalysisError): T | string {
  if (!(result instanceof AnalysisError)) return result;
  return result.is("file-unusable") ? result.details.reason : result.code;
}

const reasonOf = (name: string) => told(readRecording(path(name), ({ frameCount }) => frameCount));

describe("a take that is not left alone while it is read", () => {
  it("is read where nothing happens, or only its name goes", () => {
    expect(readWhile(() => {})).toBe(SECONDS * RATE_HZ);
    if (process.platform !== "win32") {
      expect(readWhile(() => rmSync(path("take.wav")))).toBe(SECONDS * RATE_HZ);
    }
  });

  it.each<[string, () => void]>([
    ["grows", () => appendFileSync(path("take.wav"), Buffer.alloc(2000))],
    ["shrinks", () => truncateSync(path("take.wav"), 100_000)],
    ["is emptied", () => truncateSync(path("take.wav"), 0)],
    [
      "is written anew",
      () => writeFileSync(path("take.wav"), readFileSync(path("take.wav")).fill(1, 50_000)),
    ],
    ["is changed a little", () => utimesSync(path("take.wav"), 1, 1)],
  ])("is refused where it %s", (_, happens) => {
    expect(readWhile(happens)).toBe("changed");
  });

  it("is refused for that, whatever else has come of it", () => {
    const result = readRecording(path("take.wav"), () => {
      appendFileSync(path("take.wav"), "more");
      throw new TypeError("of what was read");
    });
    expect(told(result)).toBe("changed");
    const fault = readRecording(path("take.wav"), () => {
      throw new TypeError("of this program");
    });
    expect(told(fault)).toBe("unexpected-fault");
  });
});

describe("what is no take", () => {
  it("is told without being opened, or waited for", () => {
    mkdirSync(path("folder.wav"));
    symlinkSync(path("round"), path("round"));
    symlinkSync(path("take.wav"), path("link.wav"));
    expect(reasonOf("folder.wav")).toBe("directory");
    expect(reasonOf("missing.wav")).toBe("missing");
    expect(reasonOf("take.wav/x")).toBe("missing");
    expect(reasonOf("a\0b")).toBe("missing");
    expect(reasonOf("round")).toBe("unreadable");
    expect(reasonOf("link.wav")).toBe(SECONDS * RATE_HZ);
    if (process.platform === "win32") return;
    expect(makePipe(path("pipe.wav"))).toBe(true);
    symlinkSync(path("pipe.wav"), path("to-pipe.wav"));
    symlinkSync("/dev/zero", path("to-device.wav"));
    for (const name of ["pipe.wav", "to-pipe.wav", "to-device.wav"])
      expect(reasonOf(name)).toBe("not-regular");
  });

  it.skipIf(isRoot)("is told where it may not be read", () => {
    chmodSync(path("take.wav"), 0o000);
    expect(reasonOf("take.wav")).toBe("not-permitted");
  });

  it("goes by its bytes and not by its name", () => {
    writeFileSync(path("really.m4a"), readFileSync(path("take.wav")));
    expect(reasonOf("really.m4a")).toBe(SECONDS * RATE_HZ);
    writeFileSync(path("words.wav"), "no samples");
    expect(reasonOf("words.wav")).toBe("wav-not-riff");
    writeFileSync(path("flac.wav"), Buffer.concat([Buffer.from("fLaC"), Buffer.alloc(100)]));
    // Here no other thread runs that could decode it.
    expect(reasonOf("flac.wav")).toBe("media-unreadable");
  });
});
