import { spawnSync } from "node:child_process";
import { copyFileSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { source as axeSource } from "axe-core";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { chromiumPath, NO_CHROMIUM, startChromium } from "../../fixtures/chromium.js";
import type { MeasureDocument } from "../../src/reading/measureDocumentSchema.js";
import { demoSides } from "../../src/synthesis/demoSides.js";
import { encodeWav } from "../../src/wav/encodeWav.js";
import { documentWidths } from "../browser/pageReadings.js";
import { bowedTake } from "../cli/bowedTake.js";
import { hasEncoder, makeWithFfmpeg } from "../cli/ffmpegHere.js";
import { scaleTake } from "../keyboard/scaleTake.js";
import { choose, goTo, savedText, showReading, useInstrument, withBench } from "./benchPage.js";
import { type BenchServer, startBench } from "./benchServer.js";

// The bench page in a real browser, as the command serves it. What it reads is held against what the command prints of the same file.
// Accessibility as axe-core checks it. The page is the built one (npm ci and npm run build make it).
const path = chromiumPath();
if (path === null) console.log(`Skipped: ${NO_CHROMIUM}.`);

const PHONE = { width: 390, height: 844 };
const DESK = { width: 1280, height: 900 };
const folder = mkdtempSync(join(tmpdir(), "gurdybench-bench-"));
const file = (name: string) => join(folder, name);
const root = new URL("../../", import.meta.url).pathname;
const demoInstrument = readFileSync(join(root, "fixtures/demo-instrument.yaml"), "utf8");
const KEYED = `name: Bench
temperament: just
tonic: G
strings:
  - { name: top, role: melody, note: G4, lengthMm: 345, keys: 9 }
  - { name: bass, role: drone, note: G2 }
`;

let browser: Browser;
let bench: BenchServer;
beforeAll(async () => {
  if (path === null) return;
  [browser, bench] = await Promise.all([startChromium(path), startBench()]);
  copyFileSync(join(root, "fixtures/demo-take.wav"), file("demo-take.wav"));
  writeFileSync(file("demo.yaml"), demoInstrument);
  writeFileSync(file("drones.wav"), bowedTake([65.3, 98.35, 195.7], 90_417, 48_000));
  writeFileSync(file("keyed.yaml"), KEYED);
}, 120_000);
afterAll(async () => {
  await browser?.close();
  bench?.remove();
  rmSync(folder, { recursive: true });
});

/** What the command prints of the same. */
function command(...args: readonly string[]): string {
  const [program, ...first] = bench.command.start;
  const { stdout, stderr } = spawnSync(program, [...first, ...args], {
    cwd: folder,
    encoding: "utf8",
    maxBuffer: 1e8,
  });
  expect(stderr).toBe("");
  return stdout;
}

describe.skipIf(path === null)("the bench page", () => {
  it("reads a WAV as the command does, to the last printed digit, and nothing leaves this computer", async () => {
    await withBench(browser, bench.address, { viewport: DESK }, async ({ page, misdeeds, outgoing }) => {
      await useInstrument(page, demoInstrument);
      await choose(page, file("demo-take.wav"));
      await showReading(page);
      const printed = command("measure", "demo-take.wav", "--instrument", "demo.yaml", "--json");
      expect(await savedText(page, "Save all figures (JSON)")).toBe(printed);

      const [take] = (JSON.parse(printed) as MeasureDocument).takes;
      const sheet = command("measure", "demo-take.wav", "--instrument", "demo.yaml");
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
    await withBench(browser, bench.address, { viewport: PHONE }, async ({ page, misdeeds }) => {
      await page.getByLabel("Which strings").selectOption({ label: "Tuning: alto" });
      await page.getByLabel("Pitch of A4, Hz").fill("442,5");
      await page.getByLabel("Note the drones are pure to").selectOption("C");
      await choose(page, file("drones.wav"));
      await showReading(page);
      expect(await savedText(page, "Save all figures (JSON)")).toBe(
        command("measure", "drones.wav", "--tuning", "alto", "--a4", "442.5", "--tonic", "C", "--json"),
      );
      expect(misdeeds).toEqual([]);
    });
  });

  it("lets no request out, neither of the page nor of its threads, and its proxy would see one", async () => {
    await withBench(browser, bench.address, {}, async ({ page, misdeeds, outgoing }) => {
      const refusals = await page.evaluate(`new Promise((resolve) => {
        const held = [];
        addEventListener("securitypolicyviolation", ({ effectiveDirective }) => held.push(effectiveDirective));
        const image = new Image();
        image.src = "http://elsewhere.example/x.png";
        fetch("http://elsewhere.example/").catch(() => {});
        const script = document.createElement("script");
        script.src = "http://elsewhere.example/x.js";
        document.head.append(script);
        const inline = document.createElement("script");
        inline.textContent = "document.title = 'run'";
        document.head.append(inline);
        setTimeout(() => resolve(held.sort()), 500);
      })`);
      // Each twice: by the page's own word and by the server's.
      expect(new Set(refusals as string[])).toEqual(new Set(["connect-src", "img-src", "script-src-elem"]));
      expect(await page.title()).toBe("Gurdybench");
      expect(misdeeds.length).toBeGreaterThan(0);
      expect(outgoing).toEqual([]);
      await page.goto("http://elsewhere.example/").catch(() => {});
      expect(outgoing).toEqual(["http://elsewhere.example/"]);
    });
  });

  it("works without a network once it was loaded", async () => {
    const own = await startBench();
    try {
      await withBench(browser, own.address, {}, async ({ page, misdeeds }) => {
        await goTo(page, "Keep");
        await page.getByText("works without a network").waitFor();
        expect(await own.end()).toBe(0);
        await page.reload();
        await useInstrument(page, demoInstrument);
        await choose(page, file("demo-take.wav"));
        await showReading(page);
        expect(await page.locator("figure .wide svg").count()).toBeGreaterThan(5);
        expect(await savedText(page, "Save all figures (JSON)")).toBe(
          command("measure", "demo-take.wav", "--instrument", "demo.yaml", "--json"),
        );
        expect(misdeeds).toEqual([]);
      });
    } finally {
      own.remove();
    }
  });

  it.each([
    ["text", Buffer.from("no sound\n"), /bad\.wav .*WAV/],
    ["nothing", Buffer.alloc(0), /bad\.wav/],
    ["a WAV cut off within its head", () => readFileSync(file("drones.wav")).subarray(0, 30), /bad\.wav/],
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
    await withBench(browser, bench.address, {}, async ({ page, misdeeds }) => {
      const buffer = typeof bytes === "function" ? bytes() : bytes;
      await choose(page, { name: "bad.wav", mimeType: "audio/wav", buffer });
      const told = page.getByRole("status").filter({ hasText: "bad.wav" });
      await told.waitFor();
      expect(await told.textContent()).toMatch(sentence);
      await choose(page, file("drones.wav"));
      await showReading(page);
      expect(await page.getByRole("heading", { level: 1 }).textContent()).toBe("drones.wav");
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
        makeWithFfmpeg("-i", file("drones.wav"), "-c:a", encoder, ...options, file(name));
        await withBench(browser, bench.address, {}, async ({ page, misdeeds }) => {
          await page.getByLabel("Which strings").selectOption({ label: "Tuning: alto" });
          await choose(page, file(name));
          await page.getByText(/^Read\. Decoded by this browser/).waitFor();
          await page.getByRole("button", { name: "Read it" }).click();
          const read = JSON.parse(await savedText(page, "Save all figures (JSON)")) as MeasureDocument;
          const printed = JSON.parse(
            command("measure", name, "--tuning", "alto", "--json"),
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

  it("takes a recording larger than memory, and stays at hand meanwhile", async () => {
    // 3.9 GB of silence, of which the disk holds the head alone: 48 kHz, 24 bit, stereo.
    const head = Buffer.from(encodeWav([new Float32Array(8), new Float32Array(8)], 48_000, "16")).subarray(
      0,
      44,
    );
    const dataBytes = 3_900_000_000;
    head.writeUInt32LE(dataBytes + 36, 4);
    head.writeUInt32LE(dataBytes, 40);
    writeFileSync(file("huge.wav"), head);
    truncateSync(file("huge.wav"), dataBytes + 44);
    await withBench(browser, bench.address, {}, async ({ page, misdeeds }) => {
      await choose(page, file("huge.wav"));
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
    await withBench(browser, bench.address, {}, async ({ page }) => {
      await page.getByLabel("Which strings").selectOption("own");
      await page
        .getByLabel("The instrument, as in an instrument file")
        .fill("name: x\nstrings:\n  - {role: drone, note: H9}\n");
      await page.getByRole("button", { name: "Use it" }).click();
      await expect.poll(() => page.getByRole("alert").textContent()).toMatch(/The instrument.*line 3/);
    });
  });

  it("stops a reading, and reads the next take", async () => {
    // Ten minutes: long enough to be stopped within.
    const noise = Float32Array.from(
      { length: 600 * 48_000 },
      (_, i) => 0.3 * Math.sin(i / 38.2) * (1 + (i % 7)),
    );
    writeFileSync(file("long.wav"), encodeWav([noise.map((one) => one / 8)], 48_000, "16"));
    await withBench(browser, bench.address, {}, async ({ page, misdeeds }) => {
      await choose(page, file("long.wav"));
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
      await choose(page, file("drones.wav"));
      await showReading(page);
      expect(await page.getByRole("heading", { level: 1 }).textContent()).toBe("drones.wav");
      expect(misdeeds).toEqual([]);
    });
  });

  it("writes figures with the decimal sign of the place", async () => {
    await withBench(browser, bench.address, { locale: "de-DE" }, async ({ page }) => {
      await choose(page, file("drones.wav"));
      await showReading(page);
      const cells = await page.getByRole("table").first().getByRole("cell").allTextContents();
      expect(cells.filter((cell) => /^[+-]?\d+,\d+$/.test(cell)).length).toBeGreaterThan(5);
      expect(cells.filter((cell) => /^[+-]?\d+\.\d+$/.test(cell))).toEqual([]);
    });
  });

  it("compares two sides as the command does, verdict first", async () => {
    const [first, second] = demoSides();
    const names = [first!, second!].map(({ takes }, side) =>
      takes.map((take, i) => {
        const name = `${side === 0 ? "a" : "b"}${i}.wav`;
        writeFileSync(file(name), encodeWav([take.samples], take.sampleRateHz, "24"));
        return name;
      }),
    );
    await withBench(browser, bench.address, { viewport: PHONE }, async ({ page, misdeeds }) => {
      await useInstrument(page, demoInstrument);
      await goTo(page, "Compare");
      for (const [side, takes] of names.entries()) {
        const chooser = page.waitForEvent("filechooser");
        await page.getByRole("button", { name: "Add recordings" }).nth(side).click();
        await (await chooser).setFiles(takes.map(file));
      }
      await page.getByRole("button", { name: "Compare them" }).click();
      const answer = page.locator(".answer:visible");
      await answer.waitFor({ timeout: 120_000 });
      const printed = command(
        "compare",
        "--a",
        ...names[0]!,
        "--b",
        ...names[1]!,
        "--a-name",
        "First",
        "--b-name",
        "Second",
        "--instrument",
        "demo.yaml",
        "--json",
      );
      expect(await savedText(page, "Save all figures (JSON)")).toBe(printed);
      expect(await answer.textContent()).toMatch(/First|Second/);
      expect(misdeeds).toEqual([]);
    });
  });

  it("reads a scale as the command does, in a table for arm's length", async () => {
    const played = Array.from({ length: 10 }, (_, key) => ({ key, seconds: 0.6 }));
    const take = scaleTake({
      openHz: 391.9954,
      played,
      centsOfKey: (key) => 100 * key + (key === 5 ? 8 : 0),
      seed: 70_311,
    });
    writeFileSync(file("scale.wav"), encodeWav([take.samples], take.sampleRateHz, "16"));
    await withBench(browser, bench.address, { viewport: PHONE }, async ({ page, misdeeds }) => {
      await useInstrument(page, KEYED);
      await goTo(page, "Keyboard");
      const chooser = page.waitForEvent("filechooser");
      await page.getByRole("button", { name: "Choose the scale" }).click();
      await (await chooser).setFiles(file("scale.wav"));
      const table = page.getByRole("table", { name: "Moves of the tangents" });
      await table.waitFor();
      expect(await savedText(page, "Save all figures (JSON)")).toBe(
        command("keyboard", "scale.wav", "--string", "top", "--instrument", "keyed.yaml", "--json"),
      );
      expect(await table.getByRole("rowheader").count()).toBe(9);
      // Read at 70 cm, letters of 6 mm are as large as those of a book at 35 cm (common practice, no source).
      const size = await table.evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize));
      expect(size).toBeGreaterThanOrEqual(24);
      expect(misdeeds).toEqual([]);
    });
  });

  describe.each([
    ["phone", PHONE],
    ["desk", DESK],
  ] as const)("on a %s", (_, viewport) => {
    it.each(["light", "dark"] as const)(
      "passes the accessibility audit in all its parts, %s",
      async (colorScheme) => {
        // Only the audit itself needs to get past the page's policy.
        const options = { viewport, colorScheme, bypassCSP: true };
        await withBench(browser, bench.address, options, async ({ page }) => {
          await page.evaluate(axeSource);
          const audit = async () => {
            const { needed, window } = await page.evaluate(documentWidths);
            expect(needed).toBeLessThanOrEqual(window);
            const found = await page.evaluate(`axe.run().then(({ passes, violations }) => ({
            passed: passes.length,
            violations: violations.map(({ id, nodes }) => id + ": " + nodes.map(({ html }) => html.slice(0, 200)).join(" | ")),
          }))`);
            expect(found).toEqual({
              passed: expect.toSatisfy((count: number) => count > 10),
              violations: [],
            });
          };
          await audit();
          await useInstrument(page, demoInstrument);
          await choose(page, file("demo-take.wav"));
          await page.getByText("Read.", { exact: true }).waitFor();
          await audit();
          await page.getByRole("button", { name: "Keep", exact: true }).click();
          await page.getByRole("button", { name: "Kept" }).waitFor();
          await showReading(page);
          await audit();
          for (const part of ["Compare", "Keyboard", "Keep"]) {
            await goTo(page, part);
            await audit();
          }
        });
      },
    );
  });
});
