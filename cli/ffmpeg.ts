import { type ChildProcess, spawn } from "node:child_process";
import { parse } from "node:path";
import { longestDecodedSeconds } from "../src/index.js";
import { ffmpegArguments } from "./ffmpegArguments.js";
import { ffmpegFailure, hasFaults } from "./ffmpegFailure.js";
import { findProgram, inheritedFile } from "./files/findProgram.js";
import { openSpool, type Spool } from "./files/Spool.js";
import type { DecodeReply, DecodeRequest } from "./ThreadMessages.js";

type Reason = Extract<DecodeReply, { readonly reason: unknown }>["reason"];

/** How far ffmpeg may go, and what stops it before. */
export interface DecodeOptions {
  readonly signal?: AbortSignal;
  /** Without anything new from it. */
  readonly quietSeconds?: number;
  readonly totalSeconds?: number;
  /** Of what it decodes. */
  readonly limitBytes?: number;
}

// A slow machine decodes an hour in a few minutes; a disk that has to wake up takes ten seconds (common practice).
const QUIET_SECONDS = 60;
const TOTAL_SECONDS = 900;
const LIMIT_BYTES = 2 ** 31;
/** Of its complaints: the reason stands among the first. */
const COMPLAINT_CHARACTERS = 16_384;

const spools = new Map<number, Spool>();

/**
 * Decodes a recording with ffmpeg: what it writes goes into a file without a name. There is no shell; its settings are those of
 * {@link ffmpegArguments}; it is stopped where it stands still, takes too long or writes too much.
 */
export async function decodeWithFfmpeg(
  { descriptor, path, format }: DecodeRequest,
  options: DecodeOptions = {},
): Promise<DecodeReply> {
  const program = findProgram("ffmpeg");
  if (program === null) return { reason: "no-decoder" };
  let spool: Spool;
  try {
    spool = openSpool();
  } catch {
    return { reason: "no-room" };
  }
  const args = ffmpegArguments(inheritedFile() ?? path, format, longestDecodedSeconds);
  const result = await new Promise<Decoded | Reason>((resolve) => {
    const isGroup = process.platform !== "win32";
    let child: ChildProcess;
    try {
      child = spawn(program, args, {
        stdio: ["ignore", "pipe", "pipe", descriptor],
        cwd: parse(program).root,
        env: quietEnvironment(),
        // A group of its own, so that whatever it has started is stopped with it.
        detached: isGroup,
        windowsHide: true,
      });
    } catch {
      resolve("not-started");
      return;
    }
    follow(child, isGroup, spool, options, resolve);
  });
  if (typeof result === "string") {
    spool.close();
    return { reason: result };
  }
  spools.set(spool.descriptor, spool);
  return { descriptor: spool.descriptor, ...result };
}

/** Closes what was decoded. */
export function release(descriptor: number): void {
  spools.get(descriptor)?.close();
  spools.delete(descriptor);
}

interface Decoded {
  readonly sizeBytes: number;
  readonly hasFaults: boolean;
}

function follow(
  child: ChildProcess,
  isGroup: boolean,
  spool: Spool,
  options: DecodeOptions,
  resolve: (result: Decoded | Reason) => void,
): void {
  const { signal, quietSeconds = QUIET_SECONDS, totalSeconds = TOTAL_SECONDS } = options;
  const { limitBytes = LIMIT_BYTES } = options;
  let sizeBytes = 0;
  let complaints = "";
  let isSettled = false;
  const settle = (result: Decoded | Reason) => {
    if (isSettled) return;
    isSettled = true;
    clearTimeout(quiet);
    clearTimeout(total);
    signal?.removeEventListener("abort", abort);
    resolve(result);
  };
  const stop = (reason: Reason) => {
    kill(child, isGroup);
    child.stdout?.destroy();
    child.stderr?.destroy();
    child.unref();
    settle(reason);
  };
  const abort = () => stop("crashed");
  const total = setTimeout(() => stop("too-slow"), 1000 * totalSeconds);
  const quiet = setTimeout(() => stop("stalled"), 1000 * quietSeconds);
  signal?.addEventListener("abort", abort);

  child.stdout?.on("data", (bytes: Buffer) => {
    if (isSettled) return;
    quiet.refresh();
    sizeBytes += bytes.length;
    if (sizeBytes > limitBytes) {
      stop("too-long");
      return;
    }
    try {
      spool.append(bytes);
    } catch {
      stop("no-room");
    }
  });
  child.stderr?.on("data", (bytes: Buffer) => {
    if (complaints.length < COMPLAINT_CHARACTERS) complaints += bytes.toString("latin1");
  });
  child.on("error", () => stop("not-started"));
  child.on("close", (code, killedBy) => {
    if (code === 0) settle({ sizeBytes, hasFaults: hasFaults(complaints) });
    else settle(killedBy === null ? ffmpegFailure(complaints) : "crashed");
  });
}

function kill(child: ChildProcess, isGroup: boolean): void {
  if (child.pid === undefined) return;
  try {
    process.kill(isGroup ? -child.pid : child.pid, "SIGKILL");
  } catch {
    // It has ended by itself.
  }
}

/** Without the variables that make ffmpeg write reports or look for settings of its own. */
function quietEnvironment(): NodeJS.ProcessEnv {
  return Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^(FF|AV_)/i.test(name)));
}
