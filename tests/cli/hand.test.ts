import { spawnSync } from "node:child_process";
import { copyFileSync, readFileSync, writeFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { setImmediate as nextTurn } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { MessageChannel, type MessagePort, Worker } from "node:worker_threads";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openFile } from "../../cli/files/openFile.js";
import { bandCounts, type HandAnswer, type HandRequest, jobCounts, takeOn } from "../../cli/HandMessages.js";
import { readAhead } from "../../cli/readAhead.js";
import { secondReader } from "../../cli/secondReader.js";
import { countsOf } from "../../cli/sharedCounts.js";
import { shareJobs } from "../../cli/shareJobs.js";
import { type BuiltCommand, buildCommand } from "./buildCommand.js";
import { inOneThread } from "./inOneThread.js";
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
    expect({ code: status, out: stdout, err: stderr }).toEqual(inOneThread(args));
  });
});

/** Writes down what the first thread posts, a line each, into the file named by SEEN. */
const SPY = `
  import { appendFileSync } from "node:fs";
  import { isMainThread, MessagePort } from "node:worker_threads";
  const { postMessage } = MessagePort.prototype;
  if (isMainThread) MessagePort.prototype.postMessage = function (message, ...others) {
    if (message?.kind) appendFileSync(process.env.SEEN, message.kind + String.fromCharCode(10));
    return postMessage.call(this, message, ...others);
  };`;

describe("the thread that watches", () => {
  it.skipIf(availableParallelism() < 2)(
    "does lend a hand: reads ahead, tracks and does jobs",
    { timeout: 60_000 },
    () => {
      const seen = files.path("seen.txt");
      const [program, ...first] = command.start;
      const spy = `data:text/javascript,${encodeURIComponent(SPY)}`;
      const { status } = spawnSync(
        program,
        ["--import", spy, ...first, "measure", demoTake, "--tuning", "soprano"],
        {
          env: { ...process.env, SEEN: seen },
        },
      );
      expect(status).toBe(0);
      const kinds = readFileSync(seen, "utf8").trim().split("\n");
      expect(kinds.slice(0, 2)).toEqual(["ahead", "survey"]);
      expect(kinds).toContain("job");
    },
  );

  it("says of two takes what it says of each, and of a take that is read ahead for another", {
    timeout: 60_000,
  }, () => {
    const other = files.path("other.wav");
    copyFileSync(demoTake, other);
    const [program, ...first] = command.start;
    const run = (...takes: string[]) => {
      const args = ["measure", ...takes, "--tuning", "soprano", "--json"];
      const { stdout } = spawnSync(program, [...first, ...args], { encoding: "utf8", maxBuffer: 64e6 });
      return (JSON.parse(stdout) as { takes: object[] }).takes;
    };
    const [alone] = run(demoTake);
    const both = run(demoTake, other);
    expect(both.length).toBe(2);
    for (const take of both) expect(take).toEqual({ ...alone, file: (take as { file: string }).file });
  });
});

describe("secondReader", () => {
  /** Another thread that answers as `answers` says, in a script of its own. */
  function reader(script: string) {
    const { port1, port2 } = new MessageChannel();
    const worker = new Worker(`const { workerData: { port } } = require("node:worker_threads"); ${script}`, {
      eval: true,
      workerData: { port: port2 },
      transferList: [port2],
    });
    const origin = { descriptor: -1, sizeBytes: 0, identity: "this one", decoded: null };
    const end = async () => {
      port1.close();
      await worker.terminate();
    };
    return { second: () => secondReader(port1, origin), end };
  }
  /** Takes on what it can from the last on; of `id` and `calls` it makes what `answer` says. */
  const TAKES = (answer: string) => `
    port.on("message", ({ kind, id, calls, counts }) => {
      if (kind !== "jobs") return;
      for (let index = calls.length - 1; index >= 0; index--) {
        if (Atomics.exchange(counts, 1 + index, 1) !== 0) continue;
        port.postMessage({ kind: "ahead", identity: "late", band: { channels: [], counts } });
        port.postMessage({ kind: "job", id: id - 1, index, isFault: false, result: "of another request" });
        port.postMessage({ kind: "job", id, index, ...(${answer}) });
        Atomics.add(counts, 0, 1);
        Atomics.notify(counts, 0);
      }
    });`;
  const slowly = (call: unknown) => {
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 50);
    return `here ${String(call)}` as never;
  };
  const calls = Array.from({ length: 8 }, (_, i) => i) as never[];

  it("takes the results of both in the order of the calls, whatever else comes", async () => {
    const { second, end } = reader(TAKES('{ isFault: false, result: "there " + calls[index] }'));
    const results = second().share("check", calls, slowly) as unknown as string[];
    await end();
    expect(results.map((one) => one.replace(/^(here|there) /, ""))).toEqual(calls.map(String));
    expect(results[0]).toBe("here 0");
    expect(results[7]).toBe("there 7");
  });

  it("does again what failed there, and takes it for begun no more than once", async () => {
    const { second, end } = reader(TAKES("{ isFault: true, result: null }"));
    const results = second().share("check", calls, slowly) as unknown as string[];
    const begun = second().begin("check", "a call" as never, slowly);
    expect(begun()).toBe("here a call");
    await end();
    expect(results).toEqual(calls.map((call) => `here ${String(call)}`));
  });

  it("does all itself where nobody answers, and lets nobody begin what is given up", async () => {
    const { second, end } = reader("port.on('message', () => {});");
    expect(second().share("check", calls, (call) => call as never)).toEqual(calls);
    expect(second().begin("check", 5 as never, (call) => call as never)()).toBe(5);
    expect(() =>
      second().share("check", calls, () => {
        throw new Error("here");
      }),
    ).toThrow("here");
    await end();
  });

  it("takes a band for what is read only if it is of the same file, and gives it up where it fails", async () => {
    const told = (identity: string, filled: number) => `
      const counts = new Int32Array(new SharedArrayBuffer(16));
      port.postMessage({ kind: "ahead", identity: "${identity}", band: { channels: [new Float32Array(new SharedArrayBuffer(40))], counts } });
      port.on("message", () => {});
      counts[0] = ${filled};
      port.postMessage({ kind: "survey", survey: null });
      counts[1] = 1;
      counts[3] = 1;
      port.postMessage("ready");`;
    const settled = async (one: ReturnType<typeof reader>) => {
      // Both threads start at once: the other must have posted.
      for (let second = one.second(), tries = 0; ; second = one.second(), tries++) {
        if (second.ahead !== null || tries > 20) return second;
        await new Promise((done) => setTimeout(done, 25));
      }
    };
    const wrong = reader(told("another", 10));
    expect((await settled(wrong)).ahead).toBeNull();
    await wrong.end();
    const failed = reader(told("this one", -1));
    const { ahead } = await settled(failed);
    expect(ahead?.filledBeyond(0)).toBeNull();
    expect(ahead?.survey()).toBeNull();
    await failed.end();
    const right = reader(told("this one", 10));
    const band = (await settled(right)).ahead;
    expect(band?.filledBeyond(3)).toBe(10);
    expect(band?.restFrom(50)).toBeNull();
    await right.end();
  });
});

describe("readAhead", () => {
  it("tells of the band before it is there, fills it and tells the survey", async () => {
    const { port, posted } = line();
    const read = await readAhead(["measure", demoTake, "--tuning", "soprano"], port);
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

  it("says nothing of files that are none, are no recordings, or are several", async () => {
    for (const args of [
      ["measure", files.path("missing.wav")],
      ["measure", files.path("broken.wav")],
      ["measure", files.path("")],
      ["measure", "--instrument", "x.yaml"],
      ["measure", demoTake, demoTake],
    ]) {
      const { port, posted } = line();
      expect(await readAhead(args, port)).toBeNull();
      expect(posted).toEqual([]);
    }
  });
});

describe("shareJobs", () => {
  it("leaves what is taken on, does the rest from the last on, and tells of a job that fails instead of failing", async () => {
    const { port, posted, ask } = line();
    const ahead = await readAhead([demoTake], port);
    const survey = posted.find(({ kind }) => kind === "survey");
    if (ahead === null || survey?.kind !== "survey" || survey.survey === null) throw new Error("not read");
    const file = openFile(demoTake);
    const { descriptor, sizeBytes, identity } = file;
    posted.length = 0;
    await shareJobs(port, ahead);
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
    // One a turn: signals are heard in between.
    expect(posted.length).toBe(1);
    await nextTurn();
    expect(posted.map((one) => one.kind === "job" && [one.id, one.index, one.isFault])).toEqual([
      [7, 2, false],
      [7, 0, true],
    ]);
    expect(counts[jobCounts.answered]).toBe(2);
    expect(takeOn(counts, 0)).toBe(false);
    file.close();
  });

  it("takes nothing on of a recording that it can't open", async () => {
    const { port, posted, ask } = line();
    await shareJobs(port, null);
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
    await nextTurn();
    expect(posted).toEqual([]);
    expect(takeOn(counts, 0)).toBe(true);
    file.close();
  });
});
