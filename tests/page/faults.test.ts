import { readFileSync, truncateSync, writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { encodeWav } from "../../src/wav/encodeWav.js";
import { seenText } from "../browser/pageReadings.js";
import { bowedTake } from "../cli/bowedTake.js";
import { choose, goTo, showReading, useInstrument } from "./benchPage.js";
import { noBrowser, servedBench } from "./servedBench.js";

// Recordings and instruments that are wrong, too large or no longer wanted.
const bench = servedBench((file) => {
  writeFileSync(file("drones.wav"), bowedTake([65.3, 98.35, 195.7], 90_417, 48_000));
});

describe.skipIf(noBrowser)("the bench page, when something is amiss,", () => {
  it.each([
    ["text", Buffer.from("no sound\n"), /bad\.wav .*WAV/],
    ["nothing", Buffer.alloc(0), /bad\.wav/],
    [
      "a WAV cut off within its head",
      () => readFileSync(bench.file("drones.wav")).subarray(0, 30),
      /bad\.wav/,
    ],
    [
      "an MP3 that holds noise",
      Buffer.concat([Buffer.from("ID3\x03\0\0\0\0\0\0"), Buffer.alloc(4000, 0x55)]),
      /bad\.wav/,
    ],
    [
      "two frames of MP3 and then rubbish",
      () => {
        const frame = Buffer.alloc(417, 0xee);
        frame.set([0xff, 0xfb, 0x90, 0xc0]);
        return Buffer.concat([frame, frame, Buffer.alloc(5000, 0x11)]);
      },
      /bad\.wav can't be decoded by this browser\. Save it as WAV/,
    ],
  ])("says in a sentence why %s can't be read, and goes on", async (_, bytes, sentence) => {
    await bench.open({}, async ({ page, misdeeds }) => {
      const buffer = typeof bytes === "function" ? bytes() : bytes;
      await choose(page, { name: "bad.wav", mimeType: "audio/wav", buffer });
      const told = page.getByRole("status").filter({ hasText: "bad.wav" });
      await told.waitFor();
      expect(await told.textContent()).toMatch(sentence);
      await choose(page, bench.file("drones.wav"));
      await showReading(page);
      expect(await page.getByRole("heading", { level: 1 }).textContent()).toBe("drones.wav");
      expect(misdeeds).toEqual([]);
    });
  });

  it("takes a recording larger than memory, and stays at hand meanwhile", async () => {
    // 3.9 GB of silence, of which the disk holds the head alone: 48 kHz, 24 bit, stereo.
    const head = Buffer.from(encodeWav([new Float32Array(8), new Float32Array(8)], 48_000, "16")).subarray(
      0,
      44,
    );
    const dataBytes = 3_900_000_000;
    head.writeUInt32LE(dataBytes + 36, 4);
    head.writeUInt32LE(dataBytes, 40);
    writeFileSync(bench.file("huge.wav"), head);
    truncateSync(bench.file("huge.wav"), dataBytes + 44);
    await bench.open({}, async ({ page, misdeeds }) => {
      await choose(page, bench.file("huge.wav"));
      const progress = page.getByRole("progressbar");
      await expect
        .poll(() => progress.getAttribute("value").then(Number), { timeout: 120_000 })
        .toBeGreaterThan(0.01);
      await page.getByRole("button", { name: "Stop" }).click();
      await page.getByText("Stopped.").waitFor();
      expect(misdeeds).toEqual([]);
    });
  });

  it("says where a slip in an instrument is", async () => {
    await bench.open({}, async ({ page }) => {
      await page.getByLabel("Which strings").selectOption("own");
      await page
        .getByLabel("The instrument, as in an instrument file")
        .fill("name: x\nstrings:\n  - {role: drone, note: H9}\n");
      await page.getByRole("button", { name: "Use it" }).click();
      await expect.poll(() => page.getByRole("alert").textContent()).toMatch(/The instrument.*line 3/);
    });
  });

  it("stops a reading, and reads the next take", async () => {
    // Ten minutes, long enough to be stopped within: the head of a second of silence, made longer, and a sawtooth.
    const frames = 600 * 48_000;
    const head = Buffer.from(encodeWav([new Float32Array(8)], 48_000, "16")).subarray(0, 44);
    head.writeUInt32LE(2 * frames + 36, 4);
    head.writeUInt32LE(2 * frames, 40);
    const samples = Int16Array.from({ length: frames }, (_, i) => 40 * (i % 240) - 4800);
    writeFileSync(bench.file("long.wav"), Buffer.concat([head, Buffer.from(samples.buffer)]));
    await bench.open({}, async ({ page, misdeeds }) => {
      await choose(page, bench.file("long.wav"));
      const progress = page.getByRole("progressbar");
      await expect
        .poll(() => progress.getAttribute("value").then(Number), { timeout: 30_000 })
        .toBeGreaterThan(0);
      const before = Date.now();
      // The page answers while its thread works.
      await goTo(page, "Keep");
      await goTo(page, "Take");
      expect(Date.now() - before).toBeLessThan(2000);
      await page.getByRole("button", { name: "Stop" }).click();
      await page.getByText("Stopped.").waitFor();
      expect(await progress.count()).toBe(0);
      await choose(page, bench.file("drones.wav"));
      await showReading(page);
      expect(await page.getByRole("heading", { level: 1 }).textContent()).toBe("drones.wav");
      expect(misdeeds).toEqual([]);
    });
  });

  it("shows names as text, whatever is in them", async () => {
    const hostile = `"><img src=x onerror=alert(1)><script>alert(2)</script>&#60;\u202e\u2066`;
    // An instrument file may hold no marks of direction; the name of a file may.
    const marked = JSON.stringify(hostile.slice(0, -2));
    const yaml = `name: ${marked}\nstrings:\n  - {role: drone, note: G2, name: ${marked}}\n`;
    await bench.open({}, async ({ page, misdeeds }) => {
      const dialogs: string[] = [];
      page.on("dialog", (dialog) => {
        dialogs.push(dialog.message());
        void dialog.dismiss();
      });
      await useInstrument(page, yaml);
      await page.getByRole("button", { name: "Keep it" }).click();
      const buffer = readFileSync(bench.file("drones.wav"));
      await choose(page, { name: `${hostile}.wav`, mimeType: "audio/wav", buffer });
      await page.getByText("Read.", { exact: true }).waitFor();
      await page.getByRole("button", { name: "Keep", exact: true }).click();
      await page.getByRole("button", { name: "Kept" }).waitFor();
      const seen: string[] = [];
      await showReading(page);
      await page.locator("figure .wide svg").first().waitFor();
      seen.push(await page.evaluate(seenText));
      for (const part of ["Compare", "Keyboard", "More", "Keep", "Take"]) {
        await goTo(page, part);
        seen.push(await page.evaluate(seenText));
        expect(await page.locator("main img, main script, main iframe, main [onerror]").count()).toBe(0);
      }
      expect(seen[0]).toContain(
        '"><img src=x onerror=alert(1)><script>alert(2)</script>&#60;\\u{202e}\\u{2066}',
      );
      expect(seen.join("")).not.toMatch(/[\u202e\u2066]/);
      expect(dialogs).toEqual([]);
      expect(misdeeds).toEqual([]);
    });
  });

  it("says so where the thread that reads can't be loaded", async () => {
    await bench.open({ serviceWorkers: "block" }, async ({ page }) => {
      await page.route("**/analyst-*.js", (route) => route.abort());
      await page.reload();
      await choose(page, bench.file("drones.wav"));
      await page.getByRole("status").filter({ hasText: "The reading broke down" }).waitFor();
      await page.unroute("**/analyst-*.js");
      await page.getByRole("button", { name: "Read again" }).click();
      await showReading(page);
    });
  });
});
