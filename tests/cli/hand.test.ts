import { spawnSync } from "node:child_process";
import { copyFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { MessagePort } from "node:worker_threads";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openFile } from "../../cli/files/openFile.js";
import {
  bandCounts,
  countsOf,
  type HandAnswer,
  type HandRequest,
  jobCounts,
  takeOn,
} from "../../cli/HandMessages.js";
import { runProgram } from "../../cli/program.js";
import { readAhead } from "../../cli/readAhead.js";
import { shareJobs } from "../../cli/shareJobs.js";
import { type BuiltCommand, buildCommand } from "./buildCommand.js";
import { makeTestFiles, type TestFiles } from "./testFiles.js";

const demoTake = fileURLToPath(new URL("../../fixtures/demo-take.wav", import.meta.url));
let files: TestFiles;
let command: BuiltCommand;
beforeAll(async () => {
  files = makeTestFiles();
  command = await buildCommand();
  copyFileSync(demoTake, files.path("näme with spaces.wav"));
  writeFileSync(files.path("broken.wav"), "RIFF....WAVEnothing");
});
afterAll(() => {
  files.remove();
  command.remove();
});

/** A line to the other thread of which one end is here: what is posted is kept, and what would come is put in by hand. */
function line() {
  const posted: HandAnswer[] = [];
  let heard: (request: HandRequest) => void = () => {};
  const port = {
    postMessage: (message: HandAnswer) => posted.push(structuredClone(message)),
    on: (_: string, listener: (request: HandRequest) => void) => {
      heard = listener;
    },
    unref: () => {},
  } as unknown as MessagePort;
  return { port, posted, ask: (request: HandRequest) => heard(request) };
}

describe("a command that reads a take in two threads", () => {
  it.each([
    ["a take", () => [demoTake, "--tuning", "soprano", "--json"]],
    ["a take with a name of its own", () => [files.path("näme with spaces.wav"), "--tuning", "soprano"]],
    ["a broken file", () => [files.path("broken.wav")]],
    ["no file", () => [files.path("missing.wav")]],
    ["an unknown tuning", () => [demoTake, "--tuning", "nonsense"]],
  ])("prints what one thread prints, of %s", { timeout: 120_000 }, (_, given) => {
    const args = ["measure", ...given()];
    const [program, ...first] = command.start;
    const { status, stdout, stderr } = spawnSync(program, [...first, ...args], {
      encoding: "utf8",
      maxBuffer: 64e6,
    });
    let out = "";
    let err = "";
    const code = runProgram(args, {
      stdout: { write: (text) => (out += text) },
      stderr: { write: (text) => (err += text) },
      colour: false,
    });
    // No terminal there, so no name of this machine's terminal either.
    expect({ status, stdout, stderr }).toEqual({ status: code, stdout: out, stderr: err });
  });
});

describe("readAhead", () => {
  it("tells of the band before it is there, fills it and tells the survey", () => {
    const { port, posted } = line();
    const read = readAhead(["measure", demoTake, "--tuning", "soprano"], port);
    expect(posted.map(({ kind }) => kind)).toEqual(["ahead", "survey"]);
    expect(read).not.toBeNull();
    const [ahead, survey] = posted;
    if (ahead.kind !== "ahead" || survey.kind !== "survey" || read === null) throw new Error("other answers");
    const file = openFile(demoTake);
    expect(ahead.identity).toBe(file.identity);
    file.close();
    expect(read.counts[bandCounts.filled]).toBe(read.channels[0].length);
    expect(read.counts[bandCounts.surveyed]).toBe(1);
    // Both ends see one memory.
    expect(ahead.band.channels[0].buffer).toBeInstanceOf(SharedArrayBuffer);
    expect(survey.survey?.frameCount).toBeGreaterThan(0);
  });

  it("says nothing of files that are none, are no recordings, or are several", () => {
    for (const args of [
      ["measure", files.path("missing.wav")],
      ["measure", files.path("broken.wav")],
      ["measure", files.path("")],
      ["measure", "--instrument", "x.yaml"],
      ["measure", demoTake, demoTake],
    ]) {
      const { port, posted } = line();
      expect(readAhead(args, port)).toBeNull();
      expect(posted).toEqual([]);
    }
  });
});

describe("shareJobs", () => {
  it("leaves what is taken on, does the rest from the last on, and tells of a job that fails instead of failing", () => {
    const { port, posted, ask } = line();
    const ahead = readAhead([demoTake], port);
    const survey = posted.find(({ kind }) => kind === "survey");
    if (ahead === null || survey?.kind !== "survey" || survey.survey === null) throw new Error("not read");
    const file = openFile(demoTake);
    const { descriptor, sizeBytes, identity } = file;
    posted.length = 0;
    shareJobs(port, ahead);
    // The end of the band is tracked first.
    expect(posted.map(({ kind }) => kind)).toEqual(["tracking", "tracked"]);
    expect(ahead.counts[bandCounts.tracked]).toBe(1);
    posted.length = 0;
    ask({
      kind: "prepare",
      origin: { descriptor, sizeBytes, identity, decoded: null },
      context: { targets: null, survey: survey.survey },
      band: ahead.channels,
    });
    const counts = countsOf(jobCounts.firstTaken + 3);
    expect(takeOn(counts, 1)).toBe(true);
    const sounding = [{ startSeconds: 1, endSeconds: 2 }];
    ask({ kind: "jobs", id: 7, job: "check", calls: [null, sounding, sounding], counts });
    expect(posted.map((one) => one.kind === "job" && [one.id, one.index, one.isFault])).toEqual([
      [7, 2, false],
      [7, 0, true],
    ]);
    expect(counts[jobCounts.answered]).toBe(2);
    expect(takeOn(counts, 0)).toBe(false);
    file.close();
  });

  it("takes nothing on of a recording that it can't open", () => {
    const { port, posted, ask } = line();
    shareJobs(port, null);
    const file = openFile(files.path("broken.wav"));
    const { descriptor, sizeBytes, identity } = file;
    ask({
      kind: "prepare",
      origin: { descriptor, sizeBytes, identity, decoded: null },
      context: { targets: null, survey: {} as never },
      band: null,
    });
    const counts = countsOf(jobCounts.firstTaken + 1);
    ask({ kind: "jobs", id: 1, job: "check", calls: [[]], counts });
    expect(posted).toEqual([]);
    expect(takeOn(counts, 0)).toBe(true);
    file.close();
  });
});
