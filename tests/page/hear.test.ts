// What is played in the page: seen by what the page hands to the browser's sound output.
import { readFileSync } from "node:fs";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { chromiumPath, NO_CHROMIUM, startChromium } from "../../fixtures/chromium.js";
import { choose, showReading, useInstrument, withBench } from "./benchPage.js";
import { type BenchServer, startBench } from "./benchServer.js";

const path = chromiumPath();
if (path === null) process.stderr.write(`Listening in the page is not tried: ${NO_CHROMIUM}.\n`);
const fixture = (name: string) => new URL(`../../fixtures/${name}`, import.meta.url);
let browser: Browser;
let bench: BenchServer;
beforeAll(async () => {
  if (path === null) return;
  browser = await startChromium(path);
  bench = await startBench();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  bench?.remove();
});

interface Played {
  readonly seconds?: number;
  readonly hertz?: number;
  readonly gain: number;
}

describe.skipIf(path === null)("listening in the page", { timeout: 120_000 }, () => {
  it("plays a string's passage and the tone it should have, quietly at first, one at a time", async () => {
    await withBench(browser, bench.address, {}, async ({ page, misdeeds }) => {
      await page.evaluate(`{
        window.played = [];
        window.gains = [];
        const Gain = window.GainNode;
        window.GainNode = class extends Gain { constructor(context, options) { super(context, options); window.gains.push(this); } };
        for (const kind of [AudioBufferSourceNode, OscillatorNode]) {
          const start = kind.prototype.start;
          kind.prototype.start = function (...args) {
            window.played.push({ seconds: this.buffer?.duration, hertz: this.frequency?.value, gain: window.gains[0].gain.value });
            return start.apply(this, args);
          };
        }
      }`);
      await useInstrument(page, readFileSync(fixture("demo-instrument.yaml"), "utf8"));
      await choose(page, {
        name: "demo-take.wav",
        mimeType: "audio/wav",
        buffer: readFileSync(fixture("demo-take.wav")),
      });
      await showReading(page);
      await page.getByText("Turn the volume up with care").waitFor();
      await page.getByRole("button", { name: "bass drone as recorded" }).click();
      await page.getByRole("button", { name: "Silence" }).waitFor();
      await page.getByRole("button", { name: "The tone bass drone should have" }).click();
      await page.waitForFunction("window.played.length === 2");
      expect(await page.getByRole("button", { name: "Silence" }).count()).toBe(1);
      const [passage, tone] = (await page.evaluate("window.played")) as Played[];
      expect(passage!.seconds).toBeGreaterThan(2);
      expect(passage!.seconds).toBeLessThan(8.01);
      // The lowest string of the demo's instrument is C2, equal-tempered at A4 = 440 Hz: 65.406 Hz.
      expect(tone!.hertz).toBeCloseTo(65.406, 2);
      for (const { gain } of [passage!, tone!]) expect(gain).toBeLessThan(0.25);
      await page.getByRole("button", { name: "Silence" }).click();
      expect(await page.getByRole("button", { name: "Silence" }).count()).toBe(0);
      expect(misdeeds).toEqual([]);
    });
  });
});
