import { execFileSync, spawnSync } from "node:child_process";
import {
  chmodSync,
  closeSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readFileSync,
  readSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { type DecodeOptions, decodeWithFfmpeg, release } from "../../cli/ffmpeg.js";
import { ffmpegFailure, hasFaults } from "../../cli/ffmpegFailure.js";
import { type MediaContainer, type MediaFormat, openWav } from "../../src/index.js";
import { memoryByteSource } from "../../src/wav/memoryByteSource.js";
import { hasFfmpeg, makeWithFfmpeg } from "./ffmpegHere.js";
import { isRunning } from "./isRunning.js";
import { makePipe } from "./testFiles.js";
import { withReference } from "./withReference.js";

const folder = mkdtempSync(join(tmpdir(), "gurdybench-ffmpeg-"));
const path = (name: string) => join(folder, name);
const aac: MediaFormat = { container: "MP4", codec: "AAC", promisedSeconds: null, isWhole: true };
const oldPath = process.env.PATH;
const isPosix = process.platform !== "win32";

afterEach(() => {
  process.env.PATH = oldPath;
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Decodes a file, and hands back what came of it and the sound. */
async function decode(file: string, format: MediaFormat, options: DecodeOptions = {}) {
  const descriptor = openSync(path(file), "r");
  const started = performance.now();
  const reply = await decodeWithFfmpeg({ descriptor, path: path(file), format }, options);
  const seconds = (performance.now() - started) / 1000;
  closeSync(descriptor);
  if ("reason" in reply) return { reason: reply.reason, sound: null, hasFaults: null, seconds };
  const sound = Buffer.alloc(reply.sizeBytes);
  readSync(reply.descriptor, sound, 0, sound.length, 0);
  release(reply.descriptor);
  return { reason: null, sound, hasFaults: reply.hasFaults, seconds };
}

/** Puts a script called ffmpeg first on the PATH. */
function pretend(script: string, name = "fake"): void {
  mkdirSync(path(name), { recursive: true });
  writeFileSync(join(path(name), "ffmpeg"), `#!/bin/sh\n${script}\n`);
  chmodSync(join(path(name), "ffmpeg"), 0o755);
  process.env.PATH = `${path(name)}${delimiter}${oldPath}`;
}

describe.skipIf(!isPosix)("an ffmpeg that misbehaves", () => {
  beforeAll(() => writeFileSync(path("take.m4a"), "some bytes"));

  it.each<[string, string, DecodeOptions, string | null]>([
    ["stands still", "sleep 1000", { quietSeconds: 0.5 }, "stalled"],
    [
      "stands still in a program that it started",
      "sleep 1000 & sleep 1000; wait",
      { quietSeconds: 0.5 },
      "stalled",
    ],
    [
      "does not listen to signals",
      "trap '' TERM INT HUP; while :; do sleep 1; done",
      { quietSeconds: 0.5 },
      "stalled",
    ],
    ["drips", "while :; do echo x; sleep 0.1; done", { totalSeconds: 1 }, "too-slow"],
    ["floods its output", "yes", { limitBytes: 1e7 }, "too-long"],
    ["floods its complaints", "yes >&2", { quietSeconds: 1 }, "stalled"],
    ["fails", "exit 1", {}, "damaged"],
    ["fails with words", "echo 'moov atom not found' >&2; exit 1", {}, "cut-off"],
    ["breaks down", "kill -SEGV $$", {}, "crashed"],
    ["prints nothing", "exit 0", {}, null],
    ["prints something else", "echo hello; echo careful >&2", {}, null],
  ])("that %s is stopped within bounded time", async (_, script, options, reason) => {
    pretend(script);
    const result = await decode("take.m4a", aac, options);
    expect(result.reason).toBe(reason);
    // The longest limit above is one second; the rest is a busy machine.
    expect(result.seconds).toBeLessThan(20);
    if (script.startsWith("echo hello")) expect(`${result.sound}`).toBe("hello\n");
    if (script.startsWith("echo hello")) expect(result.hasFaults).toBe(true);
  });

  it("leaves nothing running behind it", async () => {
    pretend(`sleep 1000 & echo $! > ${path("child")}; echo $$ > ${path("parent")}; wait`);
    expect((await decode("take.m4a", aac, { quietSeconds: 1 })).reason).toBe("stalled");
    for (const name of ["child", "parent"]) {
      const pid = Number(readFileSync(path(name), "utf8"));
      await expect.poll(() => isRunning(pid), { timeout: 10_000 }).toBe(false);
    }
  });

  it("is stopped where the command is interrupted", async () => {
    pretend("sleep 1000");
    const ending = new AbortController();
    setTimeout(() => ending.abort(), 300);
    const result = await decode("take.m4a", aac, { signal: ending.signal });
    expect(result.sound).toBeNull();
    expect(result.seconds).toBeLessThan(20);
  });

  it("is told when it can't be started, and when it is not there", async () => {
    pretend("");
    writeFileSync(join(path("fake"), "ffmpeg"), "#!/no/such/program\n");
    expect((await decode("take.m4a", aac)).reason).toBe("not-started");
    process.env.PATH = path("nothing");
    expect((await decode("take.m4a", aac)).reason).toBe("no-decoder");
  });

  it("is looked for on whole paths only, and must be a program", async () => {
    pretend(`touch ${path("was-run")}`);
    const before = process.cwd();
    process.chdir(path("fake"));
    try {
      for (const here of ["", ".", "./", `:${path("nothing")}:`, "fake"]) {
        process.env.PATH = here;
        expect((await decode("take.m4a", aac)).reason).toBe("no-decoder");
      }
    } finally {
      process.chdir(before);
    }
    chmodSync(join(path("fake"), "ffmpeg"), 0o644);
    mkdirSync(path("folders/ffmpeg"), { recursive: true });
    process.env.PATH = [path("folders"), path("fake")].join(delimiter);
    expect((await decode("take.m4a", aac)).reason).toBe("no-decoder");
    expect(existsSync(path("was-run"))).toBe(false);
  });

  it("sees none of the variables that make it write reports", async () => {
    process.env.FFREPORT = `file=${path("report.log")}`;
    process.env.AV_LOG_FORCE_COLOR = "1";
    try {
      pretend("env");
      const { sound } = await decode("take.m4a", aac);
      expect(`${sound}`).toMatch(/^PATH=/m);
      expect(`${sound}`).not.toMatch(/^(FF|AV_)/m);
    } finally {
      delete process.env.FFREPORT;
      delete process.env.AV_LOG_FORCE_COLOR;
    }
  });

  it("is told when there is no room for what it decodes", async () => {
    pretend("echo hello");
    const before = process.env.TMPDIR;
    process.env.TMPDIR = path("nowhere");
    try {
      expect((await decode("take.m4a", aac)).reason).toBe("no-room");
    } finally {
      if (before === undefined) delete process.env.TMPDIR;
      else process.env.TMPDIR = before;
    }
  });
});

describe("what ffmpeg complains of", () => {
  it.each([
    ["[mov @ 0x1] moov atom not found\nfile:/dev/fd/3: Invalid data found", "cut-off"],
    ["Stream map '0:a:0' matches no streams.", "no-sound"],
    ["[aac @ 0x1] Codec (aac) not on whitelist 'alac'", "codec-missing"],
    ["Decoder (codec opus) not found for input stream #0:0", "codec-missing"],
    ["Invalid data found when processing input", "damaged"],
    ["", "damaged"],
  ])("%s", (words, reason) => {
    expect(ffmpegFailure(words)).toBe(reason);
  });

  it("counts as a fault of the sound only where it is about the sound", () => {
    expect(hasFaults("")).toBe(false);
    expect(
      hasFaults("[h264 @ 0x1] Codec (h264) not on whitelist 'aac'\n    Last message repeated 1 times\n"),
    ).toBe(false);
    expect(hasFaults("[aac @ 0x1] Input buffer exhausted before END element found\n")).toBe(true);
  });
});

describe.skipIf(!hasFfmpeg || !isPosix)("a file that is something else in disguise", () => {
  const formats: readonly MediaFormat[] = [
    aac,
    { ...aac, container: "MP3", codec: "MP3" },
    { ...aac, container: "FLAC", codec: "FLAC" },
    { ...aac, container: "OGG", codec: "Vorbis" },
  ];
  // Opening this would wait for ever: it would be told as standing still. The name is one that playlists may lead to.
  const pipe = path("canary.ts");
  const limits = { quietSeconds: 20 };
  let calls = 0;
  const server = createServer((_, answer) => {
    calls++;
    answer.end();
  });
  let port = 0;

  beforeAll(async () => {
    makeWithFfmpeg("-f", "lavfi", "-i", "sine=frequency=196:duration=2", "-c:a", "aac", path("sine.m4a"));
    expect(makePipe(pipe)).toBe(true);
    await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
    port = (server.address() as AddressInfo).port;
  });
  afterAll(() => server.close());

  const disguises: readonly [string, () => string][] = [
    [
      "a playlist of files",
      () => `#EXTM3U\n#EXT-X-TARGETDURATION:9\n#EXTINF:9,\nfile://${pipe}\n#EXT-X-ENDLIST\n`,
    ],
    ["a playlist of addresses", () => `#EXTM3U\n#EXTINF:9,\nhttp://127.0.0.1:${port}/a.ts\n#EXT-X-ENDLIST\n`],
    ["a list of files", () => `ffconcat version 1.0\nfile '${pipe}'\n`],
    [
      "a stream's manifest",
      () =>
        '<?xml version="1.0"?><MPD type="static"><Period><AdaptationSet mimeType="audio/mp4"><Representation id="1">' +
        `<BaseURL>http://127.0.0.1:${port}/a.mp4</BaseURL></Representation></AdaptationSet></Period></MPD>`,
    ],
    ["a picture", () => `<svg xmlns="http://www.w3.org/2000/svg"><image href="file://${pipe}"/></svg>`],
    ["a tag with a playlist behind it", () => `ID3\u0004\0\0\0\0\0\0#EXTM3U\n#EXTINF:9,\nfile://${pipe}\n`],
    ["a session", () => `v=0\nc=IN IP4 127.0.0.1\nm=audio ${port} RTP/AVP 0\n`],
  ];

  it.each(disguises)("opens nothing else, whatever it is taken for: %s", async (_, text) => {
    writeFileSync(path("disguise.m4a"), text(), "latin1");
    for (const format of formats) {
      const { reason, seconds } = await decode("disguise.m4a", format, limits);
      expect(["damaged", "no-sound", "cut-off", "codec-missing"]).toContain(reason);
      expect(seconds).toBeLessThan(limits.quietSeconds);
    }
    expect(calls).toBe(0);
  });

  /** Whether ffmpeg, left to itself, opens the pipe: it waits there then, deaf to all but this signal. */
  function isLedAstray(...args: readonly string[]): boolean {
    const options = { timeout: 4000, killSignal: "SIGKILL" } as const;
    const { error } = spawnSync("ffmpeg", ["-nostdin", "-v", "error", ...args, "-f", "null", "-"], options);
    return error !== undefined && "code" in error && error.code === "ETIMEDOUT";
  }

  it("would be led astray by a playlist, were it left to itself", () => {
    writeFileSync(path("left.m4a"), disguises[0]![1]());
    expect(isLedAstray("-i", path("left.m4a"))).toBe(true);
  });

  it("does not follow a reference to another file", async () => {
    writeFileSync(path("reference.m4a"), withReference(readFileSync(path("sine.m4a")), pipe));
    // The reference is a real one: asked to, ffmpeg follows it.
    const follow = ["-enable_drefs", "1", "-use_absolute_path", "1", "-i", path("reference.m4a")];
    expect(isLedAstray(...follow)).toBe(true);
    const { reason, sound, seconds } = await decode("reference.m4a", aac, limits);
    expect(seconds).toBeLessThan(limits.quietSeconds);
    expect(reason).toBeNull();
    // The head of a WAV file without a sample: the sound that stands elsewhere is left out.
    expect(() => openWav(memoryByteSource(sound!))).toThrow("recording-empty");
  });

  const canTrace = spawnSync("strace", ["-o", path("trace"), "true"]).status === 0;
  if (!canTrace) process.stderr.write("strace is not at work here: what ffmpeg opens is not looked at.\n");

  it.skipIf(!canTrace)(
    "has ffmpeg open the file it was given, and no other, by the system's own account",
    async () => {
      const ffmpeg = execFileSync("sh", ["-c", "command -v ffmpeg"], { encoding: "utf8" }).trim();
      const calls = "trace=open,openat,openat2,connect,execve";
      pretend(`exec strace -f -e ${calls} -o ${path("trace")} ${ffmpeg} "$@"`, "traced");
      const texts: readonly [string, MediaContainer][] = [
        ["sine.m4a", "MP4"],
        ["reference.m4a", "MP4"],
        ["disguise.m4a", "MP3"],
      ];
      for (const [name, container] of texts) {
        const format = formats.find((one) => one.container === container)!;
        await decode(name, format, limits);
        const trace = readFileSync(path("trace"), "utf8");
        expect(trace).toContain('"/dev/fd/3"');
        expect(trace).not.toContain(folder);
        expect(trace).not.toMatch(/AF_INET/);
        expect(trace.match(/execve\(/g)).toHaveLength(1);
      }
    },
  );
});
