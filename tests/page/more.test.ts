// The other readings in the page, against what their commands print.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runProgram } from "../../cli/program.js";
import { chromiumPath, NO_CHROMIUM, startChromium } from "../../fixtures/chromium.js";
import { demoSides } from "../../src/synthesis/demoSides.js";
import { encodeWav } from "../../src/wav/encodeWav.js";
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
        await page
          .getByRole("button", { name: kind === "tap" ? "Choose taps on this body" : "Choose the recording" })
          .click();
        await (await chooser).setFiles(file("take.wav"));
      }
      await page.locator(".answer:visible").waitFor();
      const shown = JSON.parse(await savedText(page, "Save all figures (JSON)"));
      expect(shown).toEqual(printed(...args));
      expect(misdeeds).toEqual([]);
      expect(outgoing).toEqual([]);
    });
  });

  it("compares three sides of one gain as the command does", async () => {
    const sides = demoSides().map(({ takes }, side) =>
      takes.slice(0, 2).map((take, i) => {
        const name = `side ${side} take ${i}.wav`;
        writeFileSync(file(name), encodeWav([take.samples], take.sampleRateHz, "24"));
        return file(name);
      }),
    );
    await withBench(browser, bench.address, {}, async ({ page, misdeeds }) => {
      await goTo(page, "Take");
      await page.getByLabel("Which strings").selectOption({ label: "Tuning: alto-three" });
      await goTo(page, "Compare");
      await page.getByRole("button", { name: "One more side" }).click();
      for (const [side, takes] of sides.entries()) {
        const chooser = page.waitForEvent("filechooser");
        await page.getByRole("button", { name: "Add recordings" }).nth(side).click();
        await (await chooser).setFiles(takes);
      }
      await page.getByLabel("All recordings were made with one gain").check();
      await page.getByRole("button", { name: "Compare them" }).click();
      await page.locator(".answer:visible").waitFor({ timeout: 60_000 });
      const shown = JSON.parse(await savedText(page, "Save all figures (JSON)"));
      // The command takes a third side by a pattern only.
      const pattern = (side: number) =>
        `${["First", "Second", "Third"][side]}=${folder}/side ${side} take *.wav`;
      const args = [0, 1, 2].flatMap((side) => ["--side", pattern(side)]);
      expect(shown).toEqual(printed("compare", ...args, "--equal-gain", "--tuning", "alto-three"));
      expect(shown.sides).toHaveLength(3);
      expect(misdeeds).toEqual([]);
    });
  });
});
