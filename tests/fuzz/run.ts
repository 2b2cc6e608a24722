// Runs fuzzed cases and prints how they ended: npx tsx tests/fuzz/run.ts [decode|text|command] [count] [first seed]
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type FuzzKind, fuzzCase } from "./fuzzCase.js";

const [kind = "decode", count = "1000", first = "1"] = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), "fuzz-"));
const endings = new Map<string, number>();
const faults: string[] = [];
let slowest = { ms: 0, seed: 0 };
let largestMb = 0;
for (let seed = Number(first); seed < Number(first) + Number(count); seed++) {
  const before = performance.now();
  try {
    const ending = fuzzCase(kind as FuzzKind, seed, join(folder, "take.wav"));
    endings.set(ending, (endings.get(ending) ?? 0) + 1);
  } catch (error) {
    faults.push(`seed ${seed}: ${error instanceof Error ? (error.stack ?? error.message) : error}`);
  }
  const ms = performance.now() - before;
  if (ms > slowest.ms) slowest = { ms, seed };
  if (seed % 100 === 0) largestMb = Math.max(largestMb, process.memoryUsage().rss / 1e6);
}
rmSync(folder, { recursive: true });
for (const [ending, times] of [...endings].sort(([, a], [, b]) => b - a)) console.log(`${times}\t${ending}`);
console.log(
  `${count} cases of ${kind}, ${faults.length} faults; slowest ${slowest.ms.toFixed(0)} ms (seed ${slowest.seed}); ${largestMb.toFixed(0)} MB at most`,
);
for (const fault of faults.slice(0, 10)) console.log(fault);
process.exitCode = faults.length === 0 ? 0 : 1;
