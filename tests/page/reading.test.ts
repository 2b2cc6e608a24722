import { copyFileSync, writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { MeasureDocument } from "../../src/reading/measureDocumentSchema.js";
import { bowedTake } from "../cli/bowedTake.js";
import { hasEncoder, makeWithFfmpeg } from "../cli/ffmpegHere.js";
import { choose, savedText, showReading, useInstrument } from "./benchPage.js";
import { DESK, demoInstrument, demoTake, noBrowser, PHONE, servedBench } from "./servedBench.js";

// What the page reads is held against what the command prints of the same file.
const bench = servedBench((file) => {
  copyFileSync(demoTake, file("demo-take.wav"));
  writeFileSync(file("demo.yaml"), demoInstrument);
  writeFileSync(file("drones.wav"), bowedTake([65.3, 98.35, 195.7], 90_417, 48_000));
});

describe.skipIf(noBrowser)("the bench page reads", () => {
  it("reads a WAV as the command does, to the last printed digit, and nothing leaves this computer", async () => {
    await bench.open({ viewport: DESK }, async ({ page, misdeeds, outgoing }) => {
      await useInstrument(page, demoInstrument);
      await choose(page, bench.file("demo-take.wav"));
      await showReading(page);
      const printed = bench.command("measure", "demo-take.wav", "--instrument", "demo.yaml", "--json");
      expect(await savedText(page, "Save all figures (JSON)")).toBe(printed);

      const [take] = (JSON.parse(printed) as MeasureDocument).takes;
      const sheet = bench.command("measure", "demo-take.wav", "--instrument", "demo.yaml");
      for (const string of take!.strings) {
        const row = page.getByRole("row", { name: new RegExp(`^${string.name} `) }).first();
        const [off, sure, heard] = await row.getByRole("cell").allTextContents();
        // The command's own line of this string holds the same figures.
        const line = sheet.split("\n").find((one) => one.trim().startsWith(string.name))!;
        for (const figure of [off!, sure!, heard!]) expect(line).toContain(figure);
      }
      // Charts of the report, letters and all.
      expect(await page.locator("figure .wide svg").count()).toBeGreaterThan(5);
      expect(await page.locator("figure .wide svg text").count()).toBeGreaterThan(50);
      expect(misdeeds).toEqual([]);
      expect(outgoing).toEqual([]);
    });
  });

  it("reads it against a tuning, another A4 and a tonic as the command does", async () => {
    await bench.open({ viewport: PHONE }, async ({ page, misdeeds }) => {
      await page.getByLabel("Which strings").selectOption({ label: "Tuning: alto" });
      await page.getByLabel("Pitch of A4, Hz").fill("442,5");
      await page.getByLabel("Note the drones are pure to").selectOption("C");
      await choose(page, bench.file("drones.wav"));
      await showReading(page);
      expect(await savedText(page, "Save all figures (JSON)")).toBe(
        bench.command("measure", "drones.wav", "--tuning", "alto", "--a4", "442.5", "--tonic", "C", "--json"),
      );
      expect(misdeeds).toEqual([]);
    });
  });

  const codecs = [
    ["d.flac", "flac", [], 0.002],
    ["d.mp3", "libmp3lame", ["-b:a", "192k"], 0.05],
    ["d.ogg", "libopus", ["-b:a", "160k"], 0.05],
  ] as const;
  for (const [name, encoder, options, withinCents] of codecs) {
    it.skipIf(!hasEncoder(encoder))(
      `reads what the browser decodes nearly as the command does: ${name}`,
      async () => {
        makeWithFfmpeg("-i", bench.file("drones.wav"), "-c:a", encoder, ...options, bench.file(name));
        await bench.open({}, async ({ page, misdeeds }) => {
          await page.getByLabel("Which strings").selectOption({ label: "Tuning: alto" });
          await choose(page, bench.file(name));
          await page.getByText(/^Read\. Decoded by this browser/).waitFor();
          await page.getByRole("button", { name: "Read it" }).click();
          const read = JSON.parse(await savedText(page, "Save all figures (JSON)")) as MeasureDocument;
          const printed = JSON.parse(
            bench.command("measure", name, "--tuning", "alto", "--json"),
          ) as MeasureDocument;
          const [here] = read.takes;
          const [there] = printed.takes;
          expect(here!.encoding).toEqual(there!.encoding);
          expect(here!.findings.map(({ code }) => code)).toEqual(there!.findings.map(({ code }) => code));
          expect(here!.strings.map(({ status }) => status)).toEqual(
            there!.strings.map(({ status }) => status),
          );
          for (const [i, { deviationCents, levelDb }] of there!.strings.entries()) {
            if (deviationCents === null) continue;
            // Chromium makes 1 of the largest positive sample, ffmpeg of the largest negative one: 0.0003 dB, and no pitch. With a
            // codec that has loss the decoders also differ in where the sound begins, by which passages are cut a frame apart.
            expect(Math.abs(here!.strings[i]!.deviationCents! - deviationCents)).toBeLessThan(withinCents);
            expect(Math.abs(here!.strings[i]!.levelDb! - levelDb!)).toBeLessThan(0.1);
          }
          expect(misdeeds).toEqual([]);
        });
      },
    );
  }

  it("writes figures with the decimal sign of the place", async () => {
    await bench.open({ locale: "de-DE" }, async ({ page }) => {
      await choose(page, bench.file("drones.wav"));
      await showReading(page);
      const cells = await page.getByRole("table").first().getByRole("cell").allTextContents();
      expect(cells.filter((cell) => /^[+-]?\d+,\d+$/.test(cell)).length).toBeGreaterThan(5);
      expect(cells.filter((cell) => /^[+-]?\d+\.\d+$/.test(cell))).toEqual([]);
    });
  });

  it("lets a tapped string be heard, and its target, quietly", async () => {
    await bench.open({}, async ({ page, misdeeds }) => {
      // What is handed to the loudspeaker is noted on its way.
      await page.evaluate(`
        window.played = [];
        const start = AudioScheduledSourceNode.prototype.start;
        AudioBufferSourceNode.prototype.start = function (...given) {
          const data = this.buffer.getChannelData(0);
          played.push({ seconds: this.buffer.duration, peak: Math.max(...data.slice(0, 48000).map(Math.abs)) });
          return start.apply(this, given);
        };
        OscillatorNode.prototype.start = function (...given) {
          played.push({ hertz: this.frequency.value });
          return start.apply(this, given);
        };
        const ramp = AudioParam.prototype.linearRampToValueAtTime;
        AudioParam.prototype.linearRampToValueAtTime = function (value, time) {
          played.push({ loudness: value });
          return ramp.call(this, value, time);
        };`);
      await page.getByLabel("Which strings").selectOption({ label: "Tuning: alto" });
      await choose(page, bench.file("drones.wav"));
      await showReading(page);
      await page.getByText("It starts quiet.").waitFor();
      const [take] = (JSON.parse(await savedText(page, "Save all figures (JSON)")) as MeasureDocument).takes;
      const string = take!.strings.find(({ name }) => name === "G2")!;
      const passageButton = page.getByRole("button", { name: "Hear G2 as played" });
      const targetButton = page.getByRole("button", { name: "Hear the target of G2" });
      // A finger of a hand that holds a string needs 44 pixels (WCAG 2.2, 2.5.5); the tone stands beside the passage.
      const [left, right] = [(await passageButton.boundingBox())!, (await targetButton.boundingBox())!];
      for (const { width, height } of [left, right]) {
        expect(width).toBeGreaterThanOrEqual(44);
        expect(height).toBeGreaterThanOrEqual(44);
      }
      expect(right.y).toBe(left.y);
      const quiet = page.getByRole("button", { name: "Be quiet" });
      expect(await quiet.isDisabled()).toBe(true);
      await passageButton.click();
      await expect.poll(() => page.evaluate("played.length")).toBe(2);
      expect(await passageButton.getAttribute("aria-pressed")).toBe("true");
      // By the keyboard: on from the passage to the tone.
      await page.keyboard.press("Tab");
      await page.keyboard.press("Enter");
      await expect.poll(() => targetButton.getAttribute("aria-pressed")).toBe("true");
      expect(await passageButton.getAttribute("aria-pressed")).toBe("false");
      // The same tap again is quiet.
      await targetButton.click();
      expect(await targetButton.getAttribute("aria-pressed")).toBe("false");
      expect(await quiet.isDisabled()).toBe(true);
      const [first, passage, second, tone] = (await page.evaluate("played")) as Record<string, number>[];
      const { startSeconds, endSeconds } = string.perPassage[0]!;
      // To the nearest sample.
      expect(passage!.seconds).toBeCloseTo(endSeconds - startSeconds, 3);
      expect(passage!.peak).toBeLessThanOrEqual(1);
      expect(passage!.peak).toBeGreaterThan(0.3);
      // An oscillator holds its frequency in single precision.
      expect(tone!.hertz).toBeCloseTo(string.targetHz, 4);
      // A tenth of the way up: 20 lg 0.1^1.7 is 34 dB under full scale.
      for (const { loudness } of [first!, second!]) expect(20 * Math.log10(loudness!)).toBeCloseTo(-34, 5);
      expect(misdeeds).toEqual([]);
    });
  });
});
