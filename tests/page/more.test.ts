// The other readings in the page, against what their commands print.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runProgram } from "../../cli/program.js";
import { chromiumPath, NO_CHROMIUM, startChromium } from "../../fixtures/chromium.js";
import { bowedTake } from "../cli/bowedTake.js";
import { goTo, savedText, useInstrument, withBench } from "./benchPage.js";
import { type BenchServer, startBench } from "./benchServer.js";

const path = chromiumPath();
if (path === null) process.stderr.write(`The other readings in the page are not tried: ${NO_CHROMIUM}.\n`);
const folder = mkdtempSync(join(tmpdir(), "gurdybench-more-"));
const file = (name: string) => join(folder, name);
const INSTRUMENT =
  "name: Tried\nstrings:\n" +
  "  - {name: low, role: drone, note: G2, lengthMm: 420, massGrams: 2.1, cutLengthMm: 420}\n" +
  "  - {name: buzz, role: trompette, note: G3, lengthMm: 345, diameterMm: 0.5, material: steel}\n";
let browser: Browser;
let bench: BenchServer;
beforeAll(async () => {
  if (path === null) return;
  browser = await startChromium(path);
  bench = await startBench();
  writeFileSync(file("take.wav"), bowedTake([98.35, 195.7], 881));
  writeFileSync(file("tried.yaml"), INSTRUMENT);
}, 120_000);
afterAll(async () => {
  await browser?.close();
  bench?.remove();
  rmSync(folder, { recursive: true, force: true });
});

function printed(...args: readonly string[]): unknown {
  let out = "";
  runProgram([...args, "--json"], {
    stdout: { write: (text) => (out += text) },
    stderr: { write: () => {} },
    colour: false,
  });
  // In the page a recording has its name and no folder.
  return JSON.parse(out.replaceAll(`${folder}/`, ""));
}

describe.skipIf(path === null)("the other readings in the page", { timeout: 120_000 }, () => {
  it.each([
    ["wheel", ["wheel", file("take.wav"), "--instrument", file("tried.yaml")]],
    ["trompette", ["trompette", file("take.wav"), "--instrument", file("tried.yaml")]],
    ["sympathetic", ["sympathetic", file("take.wav"), "--instrument", file("tried.yaml"), "--all"]],
    ["tap", ["tap", file("take.wav")]],
    ["stringing", ["stringing", "--instrument", file("tried.yaml")]],
  ] as const)("%s comes to what the command prints", async (kind, args) => {
    await withBench(browser, bench.address, {}, async ({ page, misdeeds, outgoing }) => {
      await useInstrument(page, INSTRUMENT);
      await goTo(page, "More");
      await page.getByLabel("What to read").selectOption(kind);
      if (kind === "stringing") await page.getByRole("button", { name: "Reckon" }).click();
      else {
        const chooser = page.waitForEvent("filechooser");
        await page.getByRole("button", { name: "Choose the recording" }).click();
        await (await chooser).setFiles(file("take.wav"));
      }
      await page.locator(".answer:visible").waitFor();
      const shown = JSON.parse(await savedText(page, "Save all figures (JSON)"));
      expect(shown).toEqual(printed(...args));
      expect(misdeeds).toEqual([]);
      expect(outgoing).toEqual([]);
    });
  });
});
