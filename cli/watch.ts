import type { Server } from "node:http";
import { availableParallelism } from "node:os";
import { MessageChannel, type MessagePort, Worker } from "node:worker_threads";
import { exitCodes } from "./exitCodes.js";
import { countsOf, countUp } from "./sharedCounts.js";
import type { DecodeReply, DecodeRequest, ServeRequest, WorkerSetup, WorkMessage } from "./ThreadMessages.js";
import { writingGate } from "./ThreadMessages.js";
import { YOUNG_MEGABYTES } from "./watcher.js";

/** What a shell makes of Ctrl-C. */
const INTERRUPTED = 130;
/** Between two looks whether a file has been written to its end. */
const LOOK_MS = 5;

/**
 * Starts the thread that works and watches over it: prints what it prints, has recordings decoded for it, and ends at an
 * interrupt as soon as no file is half written.
 *
 * @param main - the module that the thread starts with
 */
export function watch(main: URL): void {
  const { port1, port2 } = new MessageChannel();
  const args = process.argv.slice(2);
  const gate = countsOf(1);
  const replyCount = countsOf(1);
  const decoding = new AbortController();
  const about = ({ isTTY, columns }: NodeJS.WriteStream) => ({
    isTTY: isTTY === true,
    columns: columns || 80,
  });
  const hand = lendsHand(args) ? new MessageChannel() : null;
  const setup: WorkerSetup = {
    main: main.href,
    args,
    stdout: about(process.stdout),
    stderr: about(process.stderr),
    colour: process.stdout.isTTY === true && !process.env.NO_COLOR,
    gate,
    replyCount,
    replies: port2,
    hand: hand?.port2 ?? null,
  };
  let exitCode: number = exitCodes.done;
  let isOutputLost = false;
  let server: Server | null = null;
  let isServing = false;

  // A reader that stops early (`| head`) is no fault; a full disk is. The files that were asked for are still written.
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (isOutputLost) return;
    isOutputLost = true;
    if (error.code === "EPIPE") return;
    exitCode = exitCodes.outputFailed;
    process.exitCode = exitCode;
    process.stderr.write(`gurdybench: The output can't be written (${error.code ?? "unknown"}).\n`);
  });
  process.stderr.on("error", () => {});

  const worker = new Worker(main, {
    workerData: setup,
    transferList: hand === null ? [port2] : [port2, hand.port2],
    resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MEGABYTES },
  });
  // What fails here, the thread that works does itself.
  if (hand !== null) lendHand(hand.port1, args).catch(() => {});
  worker.on("message", (message: WorkMessage) => {
    if (message.kind === "text") {
      if (message.to === "stderr") process.stderr.write(message.text);
      else if (!isOutputLost) process.stdout.write(message.text);
    } else if (message.kind === "done") end(message.exitCode);
    else if (message.kind === "serve") void serve(message.request);
    else if (message.kind === "release")
      void import("./ffmpeg.js").then((one) => one.release(message.descriptor));
    else void decode(message.request);
  });
  worker.on("error", (error: NodeJS.ErrnoException) => {
    void import("./faultSentence.js").then(({ faultSentence }) => {
      process.stderr.write(`gurdybench: ${faultSentence(error)}\n`);
      end(exitCodes.noTakeUsable);
    });
  });
  worker.on("exit", () => port1.close());
  for (const [signal, code] of [
    ["SIGINT", INTERRUPTED],
    ["SIGTERM", 143],
    ["SIGHUP", 129],
  ] as const) {
    process.on(signal, () => interrupt(code));
  }

  function end(code: number): void {
    if (exitCode === exitCodes.done) exitCode = code;
    process.exitCode = exitCode;
    if (!isServing) leave();
  }

  /** Ends once all is written. To wait until the other thread's memory is taken apart would cost a twentieth of a short take's time. */
  function leave(): void {
    let unwritten = 2;
    const written = () => {
      unwritten--;
      if (unwritten === 0) process.exit();
    };
    for (const stream of [process.stdout, process.stderr]) stream.write("", written);
  }

  async function serve(request: ServeRequest): Promise<void> {
    isServing = true;
    const { servePage } = await import("./servePage.js");
    server = servePage(request, {
      say: (text) => process.stdout.write(text),
      complain: (sentence) => process.stderr.write(`gurdybench: ${sentence}\n`),
      end,
    });
  }

  async function decode(request: DecodeRequest): Promise<void> {
    const { decodeWithFfmpeg } = await import("./ffmpeg.js");
    const reply: DecodeReply = await decodeWithFfmpeg(request, { signal: decoding.signal });
    port1.postMessage(reply);
    countUp(replyCount, 0);
  }

  function interrupt(code: number): void {
    if (server !== null) {
      // An interrupt is how serving is meant to end, so that is no failure.
      process.stderr.write("gurdybench: The page is no longer served.\n");
      process.exit(code === INTERRUPTED ? exitCodes.done : code);
    }
    // A second time: at once, whatever it is that hangs.
    if (decoding.signal.aborted) process.exit(code);
    decoding.abort();
    const look = () => {
      Atomics.compareExchange(gate, 0, writingGate.open, writingGate.ended);
      Atomics.compareExchange(gate, 0, writingGate.writing, writingGate.lastWrite);
      if (Atomics.load(gate, 0) !== writingGate.ended) {
        setTimeout(look, LOOK_MS);
        return;
      }
      if (setup.stderr.isTTY) process.stderr.write("\r\u001b[K");
      process.stderr.write("gurdybench: Interrupted. No file was left half written.\n");
      process.exit(code);
    };
    look();
  }
}

/** Where a take is to be measured and there is a processor for it, this thread reads along: it has nothing else to do, and is there at once. */
function lendsHand([command]: readonly string[]): boolean {
  return command === "measure" && availableParallelism() > 1;
}

/** Reads ahead what the command line seems to name, then does what the thread that works has for it. */
async function lendHand(port: MessagePort, args: readonly string[]): Promise<void> {
  const ahead = await (await import("./readAhead.js")).readAhead(args, port);
  await (await import("./shareJobs.js")).shareJobs(port, ahead);
}
