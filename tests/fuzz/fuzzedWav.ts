import type { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { ascii, chunk, extensibleBody, formatBody, integer, riff } from "../wav/wavBytes.js";
import { soundPieces } from "./soundPieces.js";

/** The most that a fuzzed file holds. */
const MOST_BYTES = 65_536;
/** Of so many bytes as many seconds as can be, so that the analysis has something to go by. */
const LONG = { rates: [8000, 8000, 8000, 11_025, 16_000, 48_000], channels: [1, 1, 1, 2], bits: [8, 8, 16] };
const ANY = {
  rates: [8000, 11_025, 16_000, 22_050, 44_100, 48_000, 96_000, 192_000, 384_000],
  channels: [1, 1, 2, 2, 3, 6],
  bits: [8, 12, 16, 16, 20, 24, 32],
};
const PLAIN_HEADERS = ["RIFF", "RIFX", "RF64", "BW64"] as const;
const OTHER_CHUNKS = [
  "LIST",
  "cue ",
  "bext",
  "fact",
  "iXML",
  "JUNK",
  "PEAK",
  "smpl",
  "ds64",
  "data",
  "fmt ",
  "\0\0\0\0",
];
/** Sizes that file formats trip over: none, one, odd, 2 GiB and 4 GiB and next to them. */
const SIZES = [0, 1, 2, 3, 7, 0xff, 0xffff, 0x7fff_fffe, 0x7fff_ffff, 0x8000_0000, 0xffff_fff0, 0xffff_ffff];

const pick = <T>(random: SeededRandom, from: readonly T[]): T =>
  from[Math.floor(random.uniform(0, from.length))]!;
const below = (random: SeededRandom, limit: number) => Math.floor(random.uniform(0, limit));

/** A WAV file of a format drawn at random that holds sound of all kinds, whole. */
function wholeWav(random: SeededRandom, mostBytes: number, kinds: typeof ANY): Uint8Array {
  const header = pick(random, PLAIN_HEADERS);
  const littleEndian = header !== "RIFX";
  const tag = pick(random, [1, 1, 1, 3, 3, 6, 7]);
  const bits = tag === 1 ? pick(random, kinds.bits) : tag === 3 ? pick(random, [32, 64]) : 8;
  const channelCount = pick(random, kinds.channels);
  const sampleRateHz = pick(random, kinds.rates);
  const bytes = Math.ceil(bits / 8);
  const length = 1 + below(random, mostBytes / bytes / channelCount);
  const channels = Array.from({ length: channelCount }, () => soundPieces(random, length, sampleRateHz));
  const data = new Uint8Array(length * channelCount * bytes);
  const view = new DataView(data.buffer);
  for (let i = 0; i < length; i++) {
    for (let c = 0; c < channelCount; c++) {
      write(view, (i * channelCount + c) * bytes, channels[c]![i]!, tag, bytes, littleEndian);
    }
  }
  const fields = { tag, bits, channelCount, sampleRateHz, littleEndian, blockAlign: bytes * channelCount };
  const format = random.uniform(0, 1) < 0.3 ? extensibleBody(fields) : formatBody(fields);
  const chunks = [chunk("fmt ", format, { littleEndian }), chunk("data", [...data], { littleEndian })];
  for (let more = below(random, 3); more > 0; more--) {
    const body = Array.from({ length: below(random, 40) }, () => below(random, 256));
    chunks.splice(below(random, 3), 0, chunk(pick(random, OTHER_CHUNKS.slice(0, 8)), body, { littleEndian }));
  }
  if (header === "RF64" || header === "BW64") chunks.unshift(chunk("ds64", Array(28).fill(0)));
  return riff(chunks, header);
}

function write(view: DataView, at: number, value: number, tag: number, bytes: number, little: boolean): void {
  if (tag === 3) {
    if (bytes === 4) view.setFloat32(at, value, little);
    else view.setFloat64(at, value, little);
    return;
  }
  const held = Math.max(-1, Math.min(1, Number.isFinite(value) ? value : 0));
  if (bytes === 1) view.setUint8(at, Math.round(127.5 + 127.5 * held));
  else if (bytes === 2) view.setInt16(at, Math.round(32_767 * held), little);
  else if (bytes === 4) view.setInt32(at, Math.round(2_147_483_647 * held), little);
  else {
    const whole = Math.round(8_388_607 * held) & 0xff_ff_ff;
    for (const [k, byte] of integer(whole, 3, little).entries()) view.setUint8(at + k, byte);
  }
}

/** A file damaged: bytes, sizes and order of chunks, doubled parts, a cut; or bytes that never were a file. */
export function fuzzedWav(random: SeededRandom, mostBytes: number): Uint8Array {
  if (random.uniform(0, 1) < 0.03) {
    return Uint8Array.from({ length: below(random, mostBytes) }, () => below(random, 256));
  }
  const whole = wholeWav(random, below(random, mostBytes / 2), ANY);
  return damagedTimes(whole, below(random, 5), random).slice(0, mostBytes);
}

/** A file of up to 64 KiB that mostly can be read, and then holds up to eight seconds of sound of all kinds. */
export function fuzzedTake(random: SeededRandom): Uint8Array {
  const whole = wholeWav(random, random.uniform(0.1, 0.9) * MOST_BYTES, LONG);
  return damagedTimes(whole, Math.max(0, below(random, 5) - 3), random).slice(0, MOST_BYTES);
}

function damagedTimes(whole: Uint8Array, times: number, random: SeededRandom): Uint8Array {
  let bytes = whole;
  for (let time = 0; time < times; time++) bytes = damaged(bytes, random);
  return bytes;
}

function damaged(bytes: Uint8Array, random: SeededRandom): Uint8Array {
  const copy = bytes.slice();
  const nearStart = () => below(random, Math.min(bytes.length, 120) + 1);
  switch (below(random, 7)) {
    case 0:
      copy[nearStart()] = below(random, 256);
      return copy;
    case 1:
      copy.set(
        integer(pick(random, SIZES), 4).slice(0, Math.max(0, copy.length - 4)),
        Math.min(nearStart(), Math.max(0, copy.length - 4)),
      );
      return copy;
    case 2:
      return copy.slice(0, below(random, copy.length + 1));
    case 3: {
      // A chunk that promises anything, put in anywhere: a second fmt, two LISTs, a cue of 2^32 - 1 points.
      const body = [
        ...integer(pick(random, SIZES), 4),
        ...Array.from({ length: below(random, 60) }, () => below(random, 256)),
      ];
      const promised = random.uniform(0, 1) < 0.5 ? body.length : pick(random, SIZES);
      return inserted(copy, nearStart(), chunk(pick(random, OTHER_CHUNKS), body, { sizeBytes: promised }));
    }
    case 4: {
      const from = nearStart();
      return inserted(copy, nearStart(), [...copy.subarray(from, from + below(random, 80))]);
    }
    case 5: {
      const from = nearStart();
      return Uint8Array.from([...copy.subarray(0, from), ...copy.subarray(from + below(random, 20))]);
    }
    default:
      copy.set(
        ascii(pick(random, ["RIFF", "RIFX", "RF64", "WAVE", "data", "fmt ", "LIST", "ID3\u0003"])).slice(
          0,
          copy.length,
        ),
        Math.min(4 * below(random, 12), Math.max(0, copy.length - 4)),
      );
      return copy;
  }
}

function inserted(bytes: Uint8Array, at: number, added: readonly number[]): Uint8Array {
  return Uint8Array.from([...bytes.subarray(0, at), ...added, ...bytes.subarray(at)]);
}
