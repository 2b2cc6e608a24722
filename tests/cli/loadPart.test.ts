import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { codeOf, loadPart } from "../../cli/files/loadPart.js";

/** A script as the build makes them; of two alike the engine compiles the second no more, so each is another. */
function partOf(n: number): string {
  return `(function (exports, require, module, __filename, __dirname) { exports.times = (x) => ${n} * x; exports.file = __filename; exports.join = require("node:path").join; })`;
}

interface Part {
  times(value: number): number;
  readonly file: string;
  join(...names: string[]): string;
}

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "gurdybench-part-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Code of a part, compiled in a process of its own: here the engine would remember the script. */
function compiled(path: string): Buffer {
  const program = `
    const { Script } = require("node:vm");
    const script = new Script(require("node:fs").readFileSync(process.argv[1], "latin1"), { filename: process.argv[1] });
    script.runInThisContext()({}, require, {}, "", "");
    process.stdout.write(script.createCachedData());`;
  return execFileSync(process.execPath, ["-e", program, path]);
}

function written(n: number): string {
  const path = join(folder, `part-${n}.cjs`);
  writeFileSync(path, partOf(n));
  return path;
}

function expectToWork(path: string, n: number, wasCompiled: boolean): void {
  const part = loadPart(path);
  expect(part.wasCompiled).toBe(wasCompiled);
  const { times, file, join: joined } = part.exports as Part;
  expect(times(21)).toBe(21 * n);
  expect(file).toBe(path);
  expect(joined("a", "b")).toBe(join("a", "b"));
}

describe("loadPart", () => {
  it("runs a part as it stands, and with the code that was compiled ahead", () => {
    expectToWork(written(2), 2, false);
    const path = written(3);
    writeFileSync(codeOf(path), compiled(path));
    expectToWork(path, 3, true);
    expect(loadPart(path).compiledCode().length).toBeGreaterThan(100);
  });

  it("takes the sources where that code is cut short, of something else, or empty", () => {
    for (const [i, spoil] of [
      (code: Buffer) => code.subarray(0, code.length / 2),
      () => Buffer.alloc(0),
      () => Buffer.from("no code at all"),
      (code: Buffer) => Buffer.concat([Buffer.from([code[0] ^ 255]), code.subarray(1)]),
      // Of sources of another length.
      () => compiled(written(1234)),
    ].entries()) {
      const path = written(4 + i);
      writeFileSync(codeOf(path), spoil(compiled(path)));
      expectToWork(path, 4 + i, false);
    }
  });

  it("looks for code of this version of the engine only", () => {
    expect(codeOf("part")).toContain(process.version);
    expect(codeOf("part")).toContain(process.arch);
  });
});
