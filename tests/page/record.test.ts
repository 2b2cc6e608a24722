// Records in a real browser from a microphone that plays a file of known truth.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { chromiumPath, NO_CHROMIUM, startChromium } from "../../fixtures/chromium.js";
import { bowedString } from "../../src/synthesis/bowedString.js";
import { cents } from "../../src/units/cents.js";
import { encodeWav } from "../../src/wav/encodeWav.js";
import { showReading, withBench } from "./benchPage.js";
import { type BenchServer, startBench } from "./benchServer.js";

const path = chromiumPath();
if (path === null) process.stderr.write(`Recording in the page is not tried: ${NO_CHROMIUM}.\n`);
const RATE_HZ = 48_000;
const TIMEOUT = 200_000;
const MOST_ATTEMPTS = 5;
/** G2 and D4 of the alto, each off by a known amount, six seconds each. */
const G2 = { targetHz: 97.9989, frequencyHz: 98.35, startSeconds: 1 };
const D4 = { targetHz: 293.6648, frequencyHz: 292.9, startSeconds: 8 };
const folder = mkdtempSync(join(tmpdir(), "gurdybench-record-"));
let bench: BenchServer;

beforeAll(async () => {
  if (path !== null) bench = await startBench();
}, TIMEOUT);
afterAll(() => {
  bench?.remove();
  rmSync(folder, { recursive: true, force: true });
});

/** A take as a file for the browser's microphone. */
function takeFile(name: string, gain: number): string {
  const samples = new Float32Array(15 * RATE_HZ);
  for (const { frequencyHz, startSeconds } of [G2, D4]) {
    const { samples: one } = bowedString({
      frequencyHz,
      durationSeconds: 6,
      sampleRateHz: RATE_HZ,
      seed: 77,
      partialAmplitudes: Array.from({ length: 12 }, (_, n) => (0.15 * gain) / (n + 1)),
      swingCents: 0.8,
      swingRateHz: 1.3,
      swingRateSpread: 0.02,
      jitterCents: 0.3,
      levelSwingDb: 0.4,
    });
    for (const [i, value] of one.entries()) {
      samples[startSeconds * RATE_HZ + i] = Math.max(-1, Math.min(1, value));
    }
  }
  const file = join(folder, `${name}.wav`);
  writeFileSync(file, encodeWav([samples], RATE_HZ, "16"));
  return file;
}

async function withMicrophone(file: string, look: (browser: Browser) => Promise<void>): Promise<void> {
  const browser = await startChromium(path!, [
    "--use-fake-ui-for-media-stream",
    "--use-fake-device-for-media-stream",
    `--use-file-for-fake-audio-capture=${file}%noloop`,
  ]);
  try {
    await look(browser);
  } finally {
    await browser.close();
  }
}

/** What the table says a string is off by, now. */
async function shownCents(page: Page, name: string): Promise<number | null> {
  const row = page.getByRole("row", { name: new RegExp(`^${name} `) }).first();
  const [text] = await row.getByRole("cell").allTextContents();
  const value = Number(text?.replace("\u2212", "-"));
  return text === undefined || Number.isNaN(value) ? null : value;
}

/**
 * Records the take, and gives what the table said of its strings at the end. Where the machine was too busy to hand all of the sound on, which the
 * page tells, it is recorded again in a page loaded anew.
 *
 * @returns null where that never ended
 */
async function recorded(page: Page): Promise<Record<"G2" | "D4", number | null> | null> {
  for (let attempt = 1; ; attempt++) {
    await page.getByRole("button", { name: "Record", exact: true }).click();
    await page
      .getByRole("timer")
      .filter({ hasText: /^1[45] s/ })
      .waitFor({ timeout: 60_000 });
    const live = { G2: await shownCents(page, "G2"), D4: await shownCents(page, "D4") };
    const hasGaps = (await page.getByText("Sound is missing at").count()) > 0;
    await page.getByRole("button", { name: "End the recording" }).click();
    if (!hasGaps) return live;
    if (attempt === MOST_ATTEMPTS) return null;
    await page.reload();
    await page.getByLabel("Which strings").selectOption({ label: "Tuning: alto" });
  }
}

describe.skipIf(path === null)("recording in the page", { timeout: TIMEOUT }, () => {
  it("shows each string while it is recorded, near what the whole take then comes to, which is the truth", async ({
    skip,
  }) => {
    await withMicrophone(takeFile("take", 1), (browser) =>
      withBench(browser, bench.address, {}, async ({ page, misdeeds, outgoing }) => {
        await page.getByLabel("Which strings").selectOption({ label: "Tuning: alto" });
        const live = await recorded(page);
        if (live === null) return skip("this machine is too busy to record on");
        await showReading(page);
        for (const [name, { targetHz, frequencyHz }] of [
          ["G2", G2],
          ["D4", D4],
        ] as const) {
          const final = await shownCents(page, name);
          // Read over all of it: within what 0.8 cents of swing and the printed tenth leave open.
          expect(Math.abs(final! - cents(frequencyHz, targetHz))).toBeLessThan(0.25);
          // What was asked of the table on the way.
          expect(Math.abs(live[name]! - final!)).toBeLessThan(2);
        }
        expect(misdeeds).toEqual([]);
        expect(outgoing).toEqual([]);
      }),
    );
  });

  it("calls out clipping while it is recorded", async () => {
    await withMicrophone(takeFile("loud", 12), (browser) =>
      withBench(browser, bench.address, {}, async ({ page }) => {
        await page.getByRole("button", { name: "Record", exact: true }).click();
        await page.getByText("Too loud: the recording is clipped.").waitFor({ timeout: 20_000 });
        expect(await page.getByRole("button", { name: "End the recording" }).count()).toBe(1);
      }),
    );
  });

  it("says what to do where the microphone is not allowed", async () => {
    const browser = await startChromium(path!, [
      "--use-fake-device-for-media-stream",
      "--deny-permission-prompts",
    ]);
    try {
      await withBench(browser, bench.address, {}, async ({ page }) => {
        await page.getByRole("button", { name: "Record", exact: true }).click();
        await page.getByText("The microphone is not allowed here.").waitFor({ timeout: 20_000 });
        expect(await page.getByRole("button", { name: "Record", exact: true }).isEnabled()).toBe(true);
      });
    } finally {
      await browser.close();
    }
  });
});
