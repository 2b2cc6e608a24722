import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { codeOf, loadPart } from "../../cli/files/loadPart.js";

let folder: string;
let path: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "gurdybench-part-"));
  path = join(folder, "part-1.cjs");
  writeFileSync(
    path,
    "(function (exports, require, module, __filename, __dirname) { exports.twice = (x) => 2 * x; exports.file = __filename; exports.join = require('node:path').join; })",
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Part {
  twice(value: number): number;
  readonly file: string;
  join(...names: string[]): string;
}

function works(): void {
  const { twice, file, join: joined } = loadPart(path).exports as Part;
  expect(twice(21)).toBe(42);
  expect(file).toBe(path);
  expect(joined("a", "b")).toBe(join("a", "b"));
}

describe("loadPart", () => {
  it("runs a part as it stands, and with the code that was compiled ahead", () => {
    works();
    expect(existsSync(codeOf(path))).toBe(false);
    const part = loadPart(path);
    (part.exports as Part).twice(1);
    writeFileSync(codeOf(path), part.compiledCode());
    works();
  });

  it("takes the sources where that code is cut short, of something else, or empty", () => {
    const code = readFileSync(codeOf(path));
    for (const wrong of [
      code.subarray(0, code.length / 2),
      Buffer.alloc(0),
      Buffer.from("no code at all"),
      Buffer.concat([Buffer.from([code[0] ^ 255]), code.subarray(1)]),
    ]) {
      writeFileSync(codeOf(path), wrong);
      works();
    }
  });

  it("looks for code of this version of the engine only", () => {
    expect(codeOf(path)).toContain(process.version);
    expect(codeOf(path)).toContain(process.arch);
  });
});
