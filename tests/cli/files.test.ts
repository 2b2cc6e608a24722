import { spawnSync } from "node:child_process";
import {
  chmodSync,
  existsSync,
  fstatSync,
  linkSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { isSameFile } from "../../cli/files/isSameFile.js";
import { lookAtOutput } from "../../cli/files/lookAtOutput.js";
import { openSpool } from "../../cli/files/Spool.js";
import { writeWhole } from "../../cli/files/writeWhole.js";
import { AnalysisError } from "../../src/index.js";
import { makePipe } from "./testFiles.js";

const root = mkdtempSync(join(tmpdir(), "gurdybench-files-"));
let folder = root;
const path = (name: string) => join(folder, name);
const isRoot = process.getuid?.() === 0;

beforeEach(() => {
  folder = mkdtempSync(join(root, "case-"));
  writeFileSync(path("input.wav"), "input");
  writeFileSync(path("mine.csv"), "mine");
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** Why a file can't be written; empty where nothing is against it. */
function reasonOf(action: () => void): unknown {
  try {
    action();
    return "";
  } catch (error) {
    return error instanceof AnalysisError && error.is("output-unusable") ? error.details.reason : error;
  }
}
const look = (name: string, force = false) =>
  reasonOf(() => lookAtOutput(name === "" ? "" : path(name), [path("input.wav")], force));

describe("a file to be written", () => {
  it("is looked at before any work is done", () => {
    mkdirSync(path("folder"));
    symlinkSync(path("nowhere"), path("dangling"));
    symlinkSync(path("folder"), path("to-folder"));
    expect(look("new.csv")).toBe("");
    expect(look("mine.csv")).toBe("exists");
    expect(look("mine.csv", true)).toBe("");
    expect(look("dangling")).toBe("exists");
    expect(look("none/new.csv")).toBe("no-folder");
    expect(look("mine.csv/new.csv")).toBe("no-folder");
    for (const name of ["folder", "folder/", "to-folder"]) expect(look(name, true)).toBe("directory");
    expect(look("none/")).toBe("no-folder");
    for (const name of ["", "a\0b", "n".repeat(300)]) expect(look(name, true)).toBe("name");
  });

  it("is never one that is read, whatever it is called", () => {
    symlinkSync(path("input.wav"), path("link"));
    linkSync(path("input.wav"), path("second-name"));
    for (const name of ["input.wav", "link", "second-name", "./input.wav"]) {
      expect(look(name, true)).toBe("input");
      expect(look(name)).toBe("input");
    }
    expect(readFileSync(path("input.wav"), "utf8")).toBe("input");
  });

  it.skipIf(!existsSync("/dev/full"))("is no device and no pipe", () => {
    expect(reasonOf(() => lookAtOutput("/dev/full", [], true))).toBe("not-regular");
    expect(makePipe(path("pipe"))).toBe(true);
    expect(look("pipe", true)).toBe("not-regular");
  });

  it.skipIf(isRoot)("is told where its folder, or it itself, may not be written to", () => {
    mkdirSync(path("closed"), { mode: 0o555 });
    chmodSync(path("mine.csv"), 0o444);
    expect(look("closed/new.csv")).toBe("not-permitted");
    expect(look("mine.csv", true)).toBe("not-permitted");
  });

  it("is written whole, and leaves nothing beside it", () => {
    writeWhole(path("new.csv"), "text", false);
    writeWhole(path("n".repeat(250)), "text", false);
    expect(readFileSync(path("new.csv"), "utf8")).toBe("text");
    expect(readdirSync(folder).sort()).toEqual(["input.wav", "mine.csv", "new.csv", "n".repeat(250)].sort());
  });

  it("leaves one alone that came there in the meantime, unless told", () => {
    expect(reasonOf(() => writeWhole(path("mine.csv"), "text", false))).toBe("exists");
    symlinkSync(path("nowhere"), path("dangling"));
    expect(reasonOf(() => writeWhole(path("dangling"), "text", false))).toBe("exists");
    expect(existsSync(path("nowhere"))).toBe(false);
    expect(readFileSync(path("mine.csv"), "utf8")).toBe("mine");
    chmodSync(path("mine.csv"), 0o640);
    linkSync(path("mine.csv"), path("kept"));
    writeWhole(path("mine.csv"), "text", true);
    expect(readFileSync(path("mine.csv"), "utf8")).toBe("text");
    expect(statSync(path("mine.csv")).mode & 0o777).toBe(0o640);
    // What was there is replaced, not changed: its other name still holds it.
    expect(readFileSync(path("kept"), "utf8")).toBe("mine");
    expect(readdirSync(folder).filter((name) => name.endsWith(".part"))).toEqual([]);
  });

  it("is written where a link leads, when told to", () => {
    mkdirSync(path("elsewhere"));
    writeFileSync(path("elsewhere/real.csv"), "old");
    symlinkSync(path("elsewhere/real.csv"), path("link.csv"));
    writeWhole(path("link.csv"), "text", true);
    expect(lstatSync(path("link.csv")).isSymbolicLink()).toBe(true);
    expect(readFileSync(path("elsewhere/real.csv"), "utf8")).toBe("text");
    expect(readdirSync(path("elsewhere"))).toEqual(["real.csv"]);
  });

  it("is not written at all where its folder is gone", () => {
    expect(reasonOf(() => writeWhole(path("gone/new.csv"), "text", false))).toBe("no-folder");
    expect(reasonOf(() => writeWhole(path("gone/new.csv"), "text", true))).toBe("no-folder");
  });

  const small = join(root, "small");
  mkdirSync(small);
  const canMount =
    isRoot && spawnSync("mount", ["-t", "tmpfs", "-o", "size=16k", "tmpfs", small]).status === 0;
  if (!canMount) process.stderr.write("No small disk can be made here: a full one is not tried.\n");
  afterAll(() => {
    if (canMount) spawnSync("umount", [small]);
  });

  it.skipIf(!canMount)("is not written at all where the disk is full", () => {
    writeFileSync(join(small, "kept.html"), "kept");
    const long = "x".repeat(100_000);
    expect(reasonOf(() => writeWhole(join(small, "new.html"), long, false))).toBe("no-space");
    expect(reasonOf(() => writeWhole(join(small, "kept.html"), long, true))).toBe("no-space");
    expect(readdirSync(small)).toEqual(["kept.html"]);
    expect(readFileSync(join(small, "kept.html"), "utf8")).toBe("kept");
    writeWhole(join(small, "new.html"), "short", false);
    expect(readFileSync(join(small, "new.html"), "utf8")).toBe("short");
  });
});

describe("two names of files", () => {
  it("are one file by whatever way, written already or not", () => {
    mkdirSync(path("in"));
    symlinkSync(path("in"), path("way"));
    symlinkSync(path("mine.csv"), path("link.csv"));
    expect(isSameFile(path("in/x"), path("way/x"))).toBe(true);
    expect(isSameFile(path("in/x"), `${folder}/in/../in/./x`)).toBe(true);
    expect(isSameFile(path("mine.csv"), path("link.csv"))).toBe(true);
    expect(isSameFile(path("in/x"), path("in/y"))).toBe(false);
    expect(isSameFile(path("mine.csv"), path("x"))).toBe(false);
    expect(isSameFile(path("mine.csv"), path("input.wav"))).toBe(false);
  });
});

describe("a file for what is decoded", () => {
  it("has no name, takes what is written, and is gone", () => {
    const names = () => readdirSync(tmpdir()).filter((name) => /^gurdybench-.*\.part$/.test(name));
    const before = names();
    const spool = openSpool();
    spool.append(Buffer.from("ab"));
    spool.append(Buffer.from("cd"));
    const bytes = Buffer.alloc(4);
    readSync(spool.descriptor, bytes, 0, 4, 0);
    expect(`${bytes}`).toBe("abcd");
    if (process.platform !== "win32") expect(fstatSync(spool.descriptor).nlink).toBe(0);
    spool.close();
    expect(names()).toEqual(before);
  });
});
