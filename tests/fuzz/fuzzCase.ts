import { writeFileSync } from "node:fs";
import { runProgram } from "../../cli/program.js";
import { readMicrophoneResponse } from "../../src/body/readMicrophoneResponse.js";
import { AnalysisError } from "../../src/errors.js";
import { readInstrument } from "../../src/instrument/readInstrument.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import type { ByteSource } from "../../src/wav/ByteSource.js";
import { openWav } from "../../src/wav/openWav.js";
import { fuzzedText } from "./fuzzedText.js";
import { fuzzedTake, fuzzedWav } from "./fuzzedWav.js";

/** What is fuzzed: the decoder, the text files, or a whole command on a file. */
export type FuzzKind = "decode" | "text" | "command";

const COMMANDS = [
  ["measure"],
  ["measure", "--tuning", "alto"],
  ["measure", "--tuning", "soprano", "--sounding", "G2,G4"],
  ["check"],
  ["wheel", "--tuning", "alto-three"],
  ["trompette", "--tuning", "soprano"],
  ["keyboard", "--tuning", "alto", "--string", "G3"],
  ["sympathetic", "--tuning", "alto", "--all"],
  ["tap"],
];
/** All of the contract but 4: nothing is written. */
const EXIT_CODES = [0, 1, 2, 3];

/**
 * Runs one case and says how it ended: what was refused, or that it was read.
 *
 * @param seed - the same seed is the same case, always
 * @param path - where a command's file may be written
 * @throws Error where something else than an AnalysisError came out, or a command ended in none of the ways it may
 */
export function fuzzCase(kind: FuzzKind, seed: number, path: string): string {
  // Seeds next to each other begin alike: spread them.
  const random = new SeededRandom(Math.imul(seed, 0x9e37_79b1) >>> 1);
  if (kind === "text") {
    const text = fuzzedText(random);
    const asInstrument = refusal(() => stringTargets(readInstrument(text), {}));
    const asTable = refusal(() => readMicrophoneResponse(text));
    return `instrument ${asInstrument}, table ${asTable}`;
  }
  const bytes = kind === "command" ? fuzzedTake(random) : fuzzedWav(random, 4096);
  if (kind === "decode") return refusal(() => decode(bytes));
  writeFileSync(path, bytes);
  const [command, ...options] = COMMANDS[Math.floor(random.uniform(0, COMMANDS.length))]!;
  const json = command !== "check" && random.uniform(0, 1) < 0.5;
  return runCommand([command!, path, ...options, ...(json ? ["--json"] : [])], json);
}

function refusal(work: () => unknown): string {
  try {
    work();
    return "read";
  } catch (error) {
    if (error instanceof AnalysisError) return error.code;
    throw error;
  }
}

function decode(bytes: Uint8Array): void {
  const source: ByteSource = {
    sizeBytes: bytes.length,
    read(offset, length) {
      if (!(offset >= 0 && length >= 0 && offset + length <= bytes.length)) {
        throw new Error(`asked for ${length} bytes at ${offset} of ${bytes.length}`);
      }
      return bytes.subarray(offset, offset + length);
    },
  };
  const recording = openWav(source);
  if (recording.frameCount * recording.channelCount > bytes.length)
    throw new Error("more samples than bytes");
  for (const channel of recording.read(0, recording.frameCount)) {
    if (channel.length !== recording.frameCount) throw new Error("a channel of another length");
  }
}

function runCommand(args: readonly string[], json: boolean): string {
  let out = "";
  let err = "";
  const code = runProgram(args, {
    stdout: { write: (text) => (out += text), columns: 80 },
    stderr: { write: (text) => (err += text) },
    colour: false,
  });
  const fault = /unexpected fault|^ {4}at .*:\d+:\d+\)?$|undefined|NaN|\[object/im.exec(out + err);
  if (fault !== null) throw new Error(`${args.join(" ")}: says "${fault[0]}"\n${err}`);
  if (!EXIT_CODES.includes(code)) throw new Error(`${args.join(" ")}: ended with ${code}`);
  if (code !== 0 && err === "" && out === "") throw new Error(`${args.join(" ")}: said nothing`);
  if (json && out !== "") JSON.parse(out);
  return `${args[0]} ended with ${code}`;
}
