// A sample of the cases that were run once in tens of thousands (DEVELOPERS.md): tests/fuzz/run.ts runs more.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { type FuzzKind, fuzzCase } from "./fuzzCase.js";

const folder = mkdtempSync(join(tmpdir(), "fuzz-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** How many cases ended in each way; a case that ends in none that it may throws. */
function endings(kind: FuzzKind, count: number, firstSeed: number): Map<string, number> {
  const ended = new Map<string, number>();
  for (let seed = firstSeed; seed < firstSeed + count; seed++) {
    const ending = fuzzCase(kind, seed, join(folder, "take.wav"));
    ended.set(ending, (ended.get(ending) ?? 0) + 1);
  }
  return ended;
}

describe("any file at all", () => {
  it("is decoded or refused with a reason by the decoder", () => {
    const ended = endings("decode", 1500, 500_001);
    // Each of these must have been met, or the cases are no test of it.
    for (const code of [
      "read",
      "wav-not-riff",
      "wav-not-wave",
      "wav-no-format",
      "wav-no-data",
      "wav-format-invalid",
      "wav-format-too-short",
      "wav-codec-unsupported",
    ]) {
      expect(ended.get(code) ?? 0).toBeGreaterThan(3);
    }
  });

  it("is read or refused with a place as an instrument, and as a microphone's table", () => {
    const ended = endings("text", 600, 500_001);
    expect(ended.get("instrument read, table microphone-invalid") ?? 0).toBeGreaterThan(20);
    expect(ended.get("instrument instrument-invalid, table read") ?? 0).toBeGreaterThan(20);
    expect(ended.get("instrument instrument-invalid, table microphone-invalid") ?? 0).toBeGreaterThan(20);
  });

  // Most take 50 ms; the slowest that was met took 3 s.
  it("makes every command end in one of its ways, with something said", { timeout: 240_000 }, () => {
    const ended = endings("command", 80, 500_001);
    expect([...ended.keys()].filter((ending) => ending.endsWith("with 0")).length).toBeGreaterThan(1);
    expect([...ended.keys()].filter((ending) => ending.endsWith("with 3")).length).toBeGreaterThan(4);
  });
});
