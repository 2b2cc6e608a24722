import { writeFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { demoSides } from "../../src/synthesis/demoSides.js";
import { encodeWav } from "../../src/wav/encodeWav.js";
import { bowedTake } from "../cli/bowedTake.js";
import { scaleTake } from "../keyboard/scaleTake.js";
import { bowedOn, lightBody, RATE_HZ, stiffBody, tapsOn } from "../tap/exampleBodies.js";
import { choose, goTo, savedText, showReading, useInstrument } from "./benchPage.js";
import { DESK, noBrowser, PHONE, servedBench } from "./servedBench.js";

// Two of a kind beside each other, and what else may be chosen: held against what the command prints of the same files.
const KEYED = `name: Two of one note
temperament: just
tonic: G
strings:
  - { name: top, role: melody, note: G4, lengthMm: 345, keys: 9 }
  - { name: second, role: melody, note: G4, lengthMm: 345, keys: 9 }
  - { name: bass, role: drone, note: G2, lengthMm: 420, massGrams: 2.1, cutLengthMm: 420 }
  - { name: buzz, role: trompette, note: C4, lengthMm: 345, diameterMm: 0.5, material: steel, capo: [2] }
`;
const OTHER = KEYED.replace("Two of one note", "A longer one").replaceAll("345", "380");
const ALTO_HZ = [65.4064, 97.9989, 130.8128, 195.9977, 293.6648, 391.9954];
const bench = servedBench((file) => {
  writeFileSync(file("keyed.yaml"), KEYED);
  writeFileSync(file("other.yaml"), OTHER);
});

function write(name: string, samples: Float32Array, sampleRateHz: number): void {
  writeFileSync(bench.file(name), encodeWav([samples], sampleRateHz, "24"));
}

async function pick(page: Page, button: string, files: string | readonly string[]): Promise<void> {
  const chooser = page.waitForEvent("filechooser");
  await page.locator("button:visible", { hasText: button }).first().click();
  await (await chooser).setFiles([files].flat().map(bench.file));
}

const shown = (page: Page) => savedText(page, "Save all figures (JSON)");

/** Waits until what was asked is read and drawn. */
async function done(page: Page): Promise<void> {
  await expect.poll(() => page.locator("progress:visible").count(), { timeout: 60_000 }).toBe(0);
  await page.locator(".answer:visible").waitFor();
}

describe.skipIf(noBrowser)("the bench page", { timeout: 120_000 }, () => {
  it("sets two tapped bodies beside each other, and the taps over the bowed body, as the command does", async () => {
    write("light.wav", tapsOn(lightBody, 7_151, 5), RATE_HZ);
    write("stiff.wav", tapsOn(stiffBody, 7_152, 5), RATE_HZ);
    write("bowed.wav", bowedOn(lightBody, 7_153, ALTO_HZ), RATE_HZ);
    writeFileSync(bench.file("text.wav"), "no sound\n");
    await bench.open({ viewport: PHONE }, async ({ page, misdeeds }) => {
      await page.getByLabel("Which strings").selectOption({ label: "Tuning: alto" });
      await goTo(page, "More");
      await page.getByLabel("What to read").selectOption("tap");
      await page.getByLabel("What the other body is called").fill("stiff");
      await pick(page, "Choose taps on another body", "stiff.wav");
      await page.getByText("The taps on the first body are still missing.").waitFor();
      await pick(page, "Choose the bowed take", "bowed.wav");
      await pick(page, "Choose taps on this body", "light.wav");
      const answer = page.locator(".answer:visible");
      await answer.waitFor({ timeout: 60_000 });
      const beside = ["--other", "stiff.wav", "--other-name", "stiff"];
      const bowed = ["--bowed", "bowed.wav", "--tuning", "alto"];
      expect(await shown(page)).toBe(bench.command("tap", "light.wav", ...beside, ...bowed, "--json"));
      await page.getByRole("heading", { name: "Tapped and bowed over each other" }).waitFor();
      await page.getByRole("heading", { name: "light.wav less stiff" }).waitFor();

      // Without the bowed take; the tuning is of no use then.
      await page.getByRole("button", { name: "Take off bowed.wav" }).click();
      await done(page);
      expect(await shown(page)).toBe(bench.command("tap", "light.wav", ...beside, "--json"));

      // What can't be read is told; the first body is read all the same.
      await pick(page, "Choose taps on another body", "text.wav");
      await page.getByRole("alert").filter({ hasText: "text.wav" }).waitFor();
      await done(page);
      const alone = JSON.parse(await shown(page));
      expect(alone.takes).toHaveLength(1);
      expect(alone.failed).toHaveLength(1);
      expect(misdeeds).toEqual([]);
    });
  });

  it("sets two strings of the same keys beside each other as the command does", async () => {
    for (const [name, off, seed] of [
      ["top.wav", 8, 7_211],
      ["second.wav", -4, 7_212],
    ] as const) {
      const take = scaleTake({
        openHz: 391.9954,
        played: Array.from({ length: 10 }, (_, key) => ({ key, seconds: 0.6 })),
        centsOfKey: (key) => 100 * key + (key === 5 ? off : 0),
        seed,
      });
      write(name, take.samples, take.sampleRateHz);
    }
    writeFileSync(bench.file("text.wav"), "no sound\n");
    await bench.open({ viewport: DESK }, async ({ page, misdeeds }) => {
      await useInstrument(page, KEYED);
      await goTo(page, "Keyboard");
      await pick(page, "Choose the scale", "top.wav");
      const answer = page.locator(".answer:visible");
      await answer.waitFor({ timeout: 60_000 });
      await page.getByText("Another string of the same keys beside it").click();
      await pick(page, "Choose the other scale", "second.wav");
      await page.getByRole("table", { name: "Moves of the tangents: second" }).waitFor({ timeout: 60_000 });
      const args = ["keyboard", "top.wav", "--string", "top", "--instrument", "keyed.yaml", "--json"];
      expect(await shown(page)).toBe(
        bench.command(...args, "--other", "second.wav", "--other-string", "second"),
      );
      const tables = page.locator("caption:visible");
      await expect
        .poll(() => tables.allTextContents())
        .toEqual([
          "Moves of the tangents: top",
          "Moves of the tangents: second",
          "Keys that both strings have",
        ]);
      await pick(page, "Choose the other scale", "text.wav");
      await page.getByRole("alert").filter({ hasText: "text.wav" }).waitFor();
      await done(page);
      expect(await shown(page)).toBe(bench.command(...args));
      expect(misdeeds).toEqual([]);
    });
  });

  it("reckons another scale, other notes, another instrument and weights as the command does", async () => {
    await bench.open({ viewport: PHONE }, async ({ page, misdeeds }) => {
      await useInstrument(page, OTHER);
      await page.getByRole("button", { name: "Keep it" }).click();
      await useInstrument(page, KEYED);
      await goTo(page, "More");
      await page.getByLabel("What to read").selectOption("stringing");
      await page.getByLabel("On another scale").fill("38");
      const run = page.getByRole("button", { name: "Reckon" });
      // No string is so short.
      expect(await run.isDisabled()).toBe(true);
      await page.getByLabel("On another scale").fill("380,5");
      await page.getByLabel("Weight of each string").fill("62.5");
      await page.getByText("Strings at other notes").click();
      await page.getByLabel("bass, now G2").fill("A2");
      await run.click();
      await page.locator(".answer:visible").waitFor();
      const args = ["stringing", "--instrument", "keyed.yaml", "--json"];
      expect(await shown(page)).toBe(
        bench.command(...args, "--other-length", "380.5", "--retune", "bass=A2", "--tension", "62.5"),
      );
      await page.getByLabel("bass, now G2").fill("H2");
      await run.click();
      await page.getByRole("alert").filter({ hasText: '"H2" is not a note name' }).waitFor();
      await page.getByLabel("A kept instrument beside it").selectOption({ label: "A longer one" });
      await page.getByLabel("Weight of each string").fill("");
      await run.click();
      await page.locator(".answer:visible").waitFor();
      expect(await shown(page)).toBe(bench.command(...args, "--against", "other.yaml"));
      expect(misdeeds).toEqual([]);
    });
  });

  it("takes a microphone's response off as the command does", async () => {
    const [first, second] = demoSides();
    const sides = [first!, second!].map(({ takes }, side) =>
      takes.slice(0, 2).map((take, i) => {
        const name = `m${side}${i}.wav`;
        write(name, take.samples, take.sampleRateHz);
        return name;
      }),
    );
    writeFileSync(bench.file("short.txt"), "* falls off below 100 Hz\n80 -4\n100 -1.5\n400 0\n4000 1\n");
    writeFileSync(bench.file("bad.txt"), "80 -4\n70 0\n");
    await bench.open({}, async ({ page, misdeeds }) => {
      await page.getByLabel("Which strings").selectOption({ label: "Tuning: alto-three" });
      await goTo(page, "Compare");
      await pick(page, "Add recordings", sides[0]!);
      const chooser = page.waitForEvent("filechooser");
      await page.getByRole("button", { name: "Add recordings" }).nth(1).click();
      await (await chooser).setFiles(sides[1]!.map(bench.file));
      await page.locator("summary:visible", { hasText: "More choices" }).click();
      await pick(page, "Choose the microphone's response", "bad.txt");
      await page.getByText("Microphone: bad.txt").waitFor();
      await page.getByRole("button", { name: "Compare them" }).click();
      await page.getByRole("alert").filter({ hasText: "bad.txt" }).waitFor();
      await pick(page, "Choose the microphone's response", "short.txt");
      await page.getByText("Microphone: short.txt").waitFor();
      await page.getByRole("button", { name: "Compare them" }).click();
      await page.locator(".answer:visible").waitFor({ timeout: 120_000 });
      const named = ["--a-name", "First", "--b-name", "Second", "--tuning", "alto-three"];
      const args = ["compare", "--a", ...sides[0]!, "--b", ...sides[1]!, ...named, "--json"];
      const json = await shown(page);
      expect(json).toBe(bench.command(...args, "--microphone", "short.txt"));
      // It covers less than the low register.
      expect(json).toContain("microphone-short");
      expect(misdeeds).toEqual([]);
    });
  });

  it("takes capo, order, sounding strings, the stuck string, the low edge and counted turns as the command does", async () => {
    // bass, second, top (recorded in that order), and the trompette two semitones up.
    writeFileSync(bench.file("chosen.wav"), bowedTake([98.1, 391.2, 392.6, 294.1], 7_401));
    await bench.open({}, async ({ page, misdeeds }) => {
      await useInstrument(page, KEYED);
      const summary = page.locator("summary:visible", { hasText: "More choices" });
      await summary.click();
      await page.getByLabel("Capo of buzz").selectOption("2 semitones up");
      await page.getByLabel("The one string that can't be moved").selectOption("bass");
      await page
        .getByLabel("Order in which these were recorded: top, second")
        .selectOption("second, then top");
      await page.getByLabel("Where the low register ends, Hz").fill("20");
      await page.getByText("Write a number from 45 to 2818").waitFor();
      await page.getByLabel("Where the low register ends, Hz").fill("200");
      expect(await summary.textContent()).toBe(
        "More choices: Capo of buzz: 2; bass can't be moved; recorded in the order second, top; low register up to 200.0 Hz",
      );
      await choose(page, bench.file("chosen.wav"));
      await showReading(page);
      const common = [
        "chosen.wav",
        "--instrument",
        "keyed.yaml",
        "--capo",
        "buzz=2",
        "--order",
        "second,top",
      ];
      const json = await shown(page);
      expect(json).toBe(
        bench.command("measure", ...common, "--anchor", "bass", "--low-edge", "200", "--json"),
      );
      const { strings } = JSON.parse(json).takes[0] as {
        strings: { name: string; deviationCents: number }[];
      };
      // 1200 log2(391.2 / 392.6) between the two of one note: second was recorded first, and is the lower.
      const cents = (name: string) => strings.find((one) => one.name === name)!.deviationCents;
      expect(cents("second") - cents("top")).toBeCloseTo(-6.18, 1);

      await goTo(page, "Take");
      await page.getByRole("group", { name: "Only these sound, together" }).getByLabel("bass").check();
      await goTo(page, "More");
      await page.locator("summary:visible", { hasText: "More choices" }).click();
      await page.getByLabel("Turns of the wheel a second").fill("1.4");
      await pick(page, "Choose the recording", "chosen.wav");
      await page.locator(".answer:visible").waitFor({ timeout: 60_000 });
      const turns = ["--turns-per-second", "1.4", "--json"];
      expect(await shown(page)).toBe(bench.command("wheel", ...common, "--sounding", "bass", ...turns));
      await page.getByLabel("What to read").selectOption("trompette");
      await pick(page, "Choose the recording", "chosen.wav");
      await page.locator(".answer:visible").waitFor({ timeout: 60_000 });
      const capo = ["--instrument", "keyed.yaml", "--capo", "buzz=2"];
      expect(await shown(page)).toBe(bench.command("trompette", "chosen.wav", ...capo, ...turns));
      await page.getByLabel("What to read").selectOption("sympathetic");
      await page.locator("summary:visible", { hasText: "More choices" }).click();
      const plucked = page.getByRole("group", { name: "Strings that were plucked" });
      await plucked.getByLabel("bass").check();
      await plucked.getByLabel("top").check();
      await pick(page, "Choose the recording", "chosen.wav");
      await page.locator(".answer:visible").waitFor({ timeout: 60_000 });
      const named = ["--strings", "top,bass", "--order", "second,top", "--json"];
      expect(JSON.parse(await shown(page))).toEqual(
        JSON.parse(bench.command("sympathetic", "chosen.wav", ...capo, ...named)),
      );
      // Another instrument has other strings: what was chosen by name is forgotten.
      await goTo(page, "Take");
      await page.getByLabel("Which strings").selectOption({ label: "Tuning: alto" });
      await expect.poll(() => summary.textContent()).toBe("More choices: low register up to 200.0 Hz");
      expect(misdeeds).toEqual([]);
    });
  });
});
