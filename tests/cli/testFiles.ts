import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** A folder of takes, good and bad, that is gone after the tests. */
export interface TestFiles {
  readonly folder: string;
  path(name: string): string;
  remove(): void;
}

/** Makes the folder. */
export function makeTestFiles(): TestFiles {
  const folder = mkdtempSync(join(tmpdir(), "gurdybench-test-"));
  const path = (name: string) => join(folder, name);
  writeFileSync(path("good.wav"), wav(1, toneBytes()));
  writeFileSync(path("-dash.wav"), wav(1, toneBytes()));
  writeFileSync(path("together.wav"), wav(1, toneBytes([toneHz, togetherHz])));
  writeFileSync(path("empty.wav"), "");
  writeFileSync(path("text.wav"), "these are not the samples you are looking for\n");
  writeFileSync(path("adpcm.wav"), wav(17, new Uint8Array(2048)));
  writeFileSync(path("zero\u001b[2J\u202e.wav"), wav(1, new Uint8Array(0)));
  writeFileSync(path("bad.yaml"), "name: Bad\nstrings:\n  - role: drone\n    note: H9\n");
  writeFileSync(
    path("comma.yaml"),
    'name: Commas\nstrings:\n  - { name: "low, left", role: drone, note: G2 }\n  - { role: drone, note: C3 }\n' +
      "  - { role: melody, note: D4 }\n",
  );
  mkdirSync(path("folder.wav"));
  return { folder, path, remove: () => rmSync(folder, { recursive: true }) };
}

const pipeMaker = "mkfifo";

/** Makes a named pipe. @returns false where the system has none */
export function makePipe(path: string): boolean {
  try {
    execFileSync(pipeMaker, [path], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
}

/** Rate of the test tone, 48 kHz; 1 s of faint noise on either side of 5 s at 98.2 Hz with partials at 1/n. */
const sampleRateHz = 48000;
export const toneHz = 98.2;
/** Sounds with it in one of the takes, about a fifth below. */
const togetherHz = 65.6;

function toneBytes(frequenciesHz: readonly number[] = [toneHz]): Uint8Array {
  const samples = new Int16Array(7 * sampleRateHz);
  let state = 1;
  for (let index = 0; index < samples.length; index++) {
    state = (state * 16807) % 2147483647; // Park & Miller 1988: the same noise every time
    const seconds = index / sampleRateHz;
    let value = 2e-4 * (state / 1073741823.5 - 1);
    if (seconds >= 1 && seconds < 6) {
      const fade = Math.min(1, (seconds - 1) / 0.1, (6 - seconds) / 0.1);
      for (let partial = 1; partial <= 20; partial++) {
        for (const hz of frequenciesHz) {
          value +=
            ((0.2 * fade) / partial) * Math.sin(2 * Math.PI * partial * hz * seconds + partial * partial);
        }
      }
    }
    samples[index] = Math.round(32767 * value);
  }
  return new Uint8Array(samples.buffer);
}

function wav(formatTag: number, data: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(44 + data.length);
  const view = new DataView(bytes.buffer);
  const text = (offset: number, four: string) => {
    for (let index = 0; index < 4; index++) bytes[offset + index] = four.charCodeAt(index);
  };
  text(0, "RIFF");
  view.setUint32(4, 36 + data.length, true);
  text(8, "WAVE");
  text(12, "fmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, formatTag, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, sampleRateHz, true);
  view.setUint32(28, 2 * sampleRateHz, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  text(36, "data");
  view.setUint32(40, data.length, true);
  bytes.set(data, 44);
  return bytes;
}
