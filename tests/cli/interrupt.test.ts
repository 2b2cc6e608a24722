import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { bowedTake } from "./bowedTake.js";
import { type BuiltCommand, buildCommand } from "./buildCommand.js";
import { isRunning } from "./isRunning.js";

const timeout = 120_000;
const folder = mkdtempSync(join(tmpdir(), "gurdybench-interrupt-"));
const path = (name: string) => join(folder, name);
let command: BuiltCommand;
const canDelay =
  spawnSync("strace", ["-o", path("trace"), "-e", "inject=fsync:delay_enter=1", "true"]).status === 0;
if (!canDelay)
  process.stderr.write("strace is not at work here: an interrupt within a write is not tried.\n");

beforeAll(async () => {
  command = await buildCommand();
  writeFileSync(path("take.wav"), bowedTake([98.35, 195.7], 881));
  // Half a minute of work.
  for (let i = 0; i < 60; i++) copyFileSync(path("take.wav"), path(`take-${i}.wav`));
}, timeout);
beforeEach(() => {
  rmSync(path("out"), { recursive: true, force: true });
  rmSync(path("temporary"), { recursive: true, force: true });
  mkdirSync(path("out"));
  mkdirSync(path("temporary"));
});
afterAll(() => {
  command.remove();
  rmSync(folder, { recursive: true, force: true });
});

interface Running {
  readonly child: ChildProcess;
  readonly ended: Promise<{ code: number | null; signal: string | null; err: string; seconds: number }>;
}

function start(args: readonly string[], env: NodeJS.ProcessEnv = {}): Running {
  const [program, ...first] = command.start;
  return started(program, [...first, ...args], env);
}

function started(program: string, args: readonly string[], env: NodeJS.ProcessEnv = {}): Running {
  const child = spawn(program, args, {
    cwd: folder,
    env: { ...process.env, TMPDIR: path("temporary"), ...env },
    stdio: ["ignore", "ignore", "pipe"],
  });
  let err = "";
  child.stderr!.on("data", (part) => {
    err += part;
  });
  const ended = once(child, "close").then(([code, signal]) => ({ code, signal, err, seconds: 0 }));
  return { child, ended };
}

/** Ends as soon as the signal's own time is known. */
async function interrupt({ child, ended }: Running, signal: NodeJS.Signals) {
  const from = performance.now();
  child.kill(signal);
  const result = await ended;
  return { ...result, seconds: (performance.now() - from) / 1000 };
}

const left = () => [...readdirSync(path("out")), ...readdirSync(path("temporary"))];

describe.skipIf(process.platform === "win32")("an interrupt", () => {
  it.each<[NodeJS.Signals, number]>([
    ["SIGINT", 130],
    ["SIGTERM", 143],
    ["SIGHUP", 129],
  ])(
    "by %s in the midst of the work ends it with code %i, a sentence, and nothing left",
    { timeout },
    async (signal, code) => {
      const takes = Array.from({ length: 60 }, (_, i) => `take-${i}.wav`);
      const running = start(["measure", ...takes, "--html", "out/p.html", "--csv", "out/t.csv"]);
      await wait(2500);
      expect(running.child.exitCode).toBeNull();
      const ended = await interrupt(running, signal);
      expect(ended).toMatchObject({ code, err: "gurdybench: Interrupted. No file was left half written.\n" });
      // At once: the rest is a busy machine.
      expect(ended.seconds).toBeLessThan(10);
      expect(left()).toEqual([]);
    },
  );

  it("while ffmpeg stands still ends ffmpeg too", { timeout }, async () => {
    const frame = Buffer.alloc(417);
    frame.set([0xff, 0xfb, 0x90, 0xc0]);
    writeFileSync(path("phone.mp3"), Buffer.concat([frame, frame]));
    mkdirSync(path("fake"));
    writeFileSync(path("fake/ffmpeg"), `#!/bin/sh\necho $$ > ${path("started")}\nexec sleep 1000\n`);
    chmodSync(path("fake/ffmpeg"), 0o755);
    const running = start(["measure", "phone.mp3", "--csv", "out/t.csv"], {
      PATH: `${path("fake")}${delimiter}${process.env.PATH}`,
    });
    await expect
      .poll(() => existsSync(path("started")) && readFileSync(path("started"), "utf8"), { timeout: 60_000 })
      .toMatch(/\d\n/);
    const { code, err } = await interrupt(running, "SIGINT");
    expect({ code, err }).toEqual({
      code: 130,
      err: "gurdybench: Interrupted. No file was left half written.\n",
    });
    expect(left()).toEqual([]);
    const pid = Number(readFileSync(path("started"), "utf8"));
    await expect.poll(() => isRunning(pid), { timeout: 10_000 }).toBe(false);
  });

  it.skipIf(!canDelay)("in the midst of writing waits until the file is whole", { timeout }, async () => {
    const [program, ...first] = command.start;
    // The system is made slow at the moment when the file is brought to the disk; -D: what is started is the command itself.
    const slow = [
      "-D",
      "-f",
      "-qq",
      "-o",
      path("trace"),
      "-e",
      "trace=fsync",
      "-e",
      "inject=fsync:delay_enter=3000000",
    ];
    const args = ["check", "take.wav", "--html", "out/p.html", "--csv", "out/t.csv"];
    const running = started("strace", [...slow, program, ...first, ...args]);
    await expect.poll(left, { timeout: 60_000, interval: 20 }).toHaveLength(1);
    expect(left()[0]).toMatch(/\.part$/);
    const { code, err, seconds } = await interrupt(running, "SIGINT");
    expect({ code, err }).toEqual({
      code: 130,
      err: expect.stringContaining("No file was left half written.\n"),
    });
    expect(seconds).toBeGreaterThan(1);
    expect(left()).toEqual(["p.html"]);
    expect(readFileSync(path("out/p.html"), "utf8")).toMatch(/<\/html>\s*$/);
  });

  it("at any moment leaves files that are whole, or none", { timeout }, async () => {
    writeFileSync(
      path("bench.yaml"),
      "name: Bench\nstrings:\n  - { role: drone, note: G2, lengthMm: 400, linearDensityGramsPerMetre: 4 }\n",
    );
    const args = [
      "stringing",
      "--instrument",
      "bench.yaml",
      "--html",
      "out/p.html",
      "--csv",
      "out/t.csv",
      "--force",
    ];
    const whole = start(args);
    const from = performance.now();
    expect((await whole.ended).code).toBe(0);
    const took = performance.now() - from;
    const page = readFileSync(path("out/p.html"), "utf8");
    const table = readFileSync(path("out/t.csv"), "utf8");
    const codes = new Set<number | null>();
    // From the middle, before which nothing is written, to beyond the end.
    for (let k = 0; k < 24; k++) {
      rmSync(path("out"), { recursive: true });
      mkdirSync(path("out"));
      const running = start(args);
      await wait(took * (0.4 + (0.8 * k) / 24));
      const { code } = await interrupt(running, "SIGINT");
      codes.add(code);
      for (const name of left()) {
        expect(["p.html", "t.csv"]).toContain(name);
        expect(readFileSync(path(`out/${name}`), "utf8")).toBe(name === "p.html" ? page : table);
      }
      if (code === 0) expect(left().sort()).toEqual(["p.html", "t.csv"]);
    }
    // Before Node itself is ready for signals, the system ends it: that has no code.
    for (const code of codes) expect([0, 130, null]).toContain(code);
  });
});
