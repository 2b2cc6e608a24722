import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, BrowserContextOptions } from "playwright-core";
import { afterAll, beforeAll, expect } from "vitest";
import { chromiumPath, NO_CHROMIUM, startChromium } from "../../fixtures/chromium.js";
import { type OpenedBench, withBench } from "./benchPage.js";
import { type BenchServer, startBench } from "./benchServer.js";

const path = chromiumPath();
if (path === null) console.log(`Skipped: ${NO_CHROMIUM}.`);

/** Whether there is no browser to try the page in. */
export const noBrowser = path === null;
export const PHONE = { width: 390, height: 844 };
export const DESK = { width: 1280, height: 900 };

/** The page of the demo's take, and the instrument it was made of. */
export const demoTake = new URL("../../fixtures/demo-take.wav", import.meta.url).pathname;
export const demoInstrument = readFileSync(
  new URL("../../fixtures/demo-instrument.yaml", import.meta.url),
  "utf8",
);

/** A browser, the page as the command serves it, and a folder, for all tests of a file. The page is the built one (npm ci and npm run build make it). */
export interface ServedBench {
  /** A path in the folder. */
  file(name: string): string;
  address(): string;
  /** Opens the page in a context of its own. */
  open(
    options: BrowserContextOptions,
    look: (opened: OpenedBench) => Promise<void>,
    address?: string,
  ): Promise<void>;
  /** What the command prints, run in the folder. */
  command(...args: readonly string[]): string;
}

/** @param prepare - writes files, once the folder is there */
export function servedBench(prepare: (file: (name: string) => string) => void = () => {}): ServedBench {
  const folder = mkdtempSync(join(tmpdir(), "gurdybench-bench-"));
  const file = (name: string) => join(folder, name);
  let browser: Browser;
  let bench: BenchServer;
  beforeAll(async () => {
    if (path === null) return;
    prepare(file);
    [browser, bench] = await Promise.all([startChromium(path), startBench()]);
  }, 120_000);
  afterAll(async () => {
    await browser?.close();
    bench?.remove();
    rmSync(folder, { recursive: true });
  });
  return {
    file,
    address: () => bench.address,
    open: (options, look, address = bench.address) => withBench(browser, address, options, look),
    command: (...args) => {
      const [program, ...first] = bench.command.start;
      const { stdout, stderr } = spawnSync(program, [...first, ...args], {
        cwd: folder,
        encoding: "utf8",
        maxBuffer: 1e8,
      });
      expect(stderr).toBe("");
      return stdout;
    },
  };
}
