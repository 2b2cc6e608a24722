import { writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { demoSides } from "../../src/synthesis/demoSides.js";
import { encodeWav } from "../../src/wav/encodeWav.js";
import { scaleTake } from "../keyboard/scaleTake.js";
import { goTo, savedText, useInstrument } from "./benchPage.js";
import { demoInstrument, noBrowser, PHONE, servedBench } from "./servedBench.js";

// Comparisons and keyboards, held against what the command prints of the same files.
const KEYED = `name: Bench
temperament: just
tonic: G
strings:
  - { name: top, role: melody, note: G4, lengthMm: 345, keys: 9 }
  - { name: bass, role: drone, note: G2 }
`;
const bench = servedBench((file) => {
  writeFileSync(file("demo.yaml"), demoInstrument);
  writeFileSync(file("keyed.yaml"), KEYED);
});

describe.skipIf(noBrowser)("the bench page", () => {
  it("compares two sides as the command does, verdict first", async () => {
    const [first, second] = demoSides();
    const names = [first!, second!].map(({ takes }, side) =>
      takes.map((take, i) => {
        const name = `${side === 0 ? "a" : "b"}${i}.wav`;
        writeFileSync(bench.file(name), encodeWav([take.samples], take.sampleRateHz, "24"));
        return name;
      }),
    );
    await bench.open({ viewport: PHONE }, async ({ page, misdeeds }) => {
      await useInstrument(page, demoInstrument);
      await goTo(page, "Compare");
      // A third side, and thought better of.
      await page.getByRole("button", { name: "One more side" }).click();
      await expect.poll(() => page.getByRole("button", { name: "Add recordings" }).count()).toBe(3);
      await page.getByRole("button", { name: "Without this side" }).click();
      for (const [side, takes] of names.entries()) {
        const chooser = page.waitForEvent("filechooser");
        await page.getByRole("button", { name: "Add recordings" }).nth(side).click();
        await (await chooser).setFiles(takes.map(bench.file));
      }
      await page.getByRole("button", { name: "Compare them" }).click();
      const answer = page.locator(".answer:visible");
      await answer.waitFor({ timeout: 120_000 });
      const printed = bench.command(
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
    writeFileSync(bench.file("scale.wav"), encodeWav([take.samples], take.sampleRateHz, "16"));
    await bench.open({ viewport: PHONE }, async ({ page, misdeeds }) => {
      await useInstrument(page, KEYED);
      await goTo(page, "Keyboard");
      const chooser = page.waitForEvent("filechooser");
      await page.getByRole("button", { name: "Choose the scale" }).click();
      await (await chooser).setFiles(bench.file("scale.wav"));
      const table = page.getByRole("table", { name: "Moves of the tangents" });
      await table.waitFor();
      expect(await savedText(page, "Save all figures (JSON)")).toBe(
        bench.command("keyboard", "scale.wav", "--string", "top", "--instrument", "keyed.yaml", "--json"),
      );
      expect(await table.getByRole("rowheader").count()).toBe(9);
      // Read at 70 cm, letters of 6 mm are as large as those of a book at 35 cm (common practice, no source).
      const size = await table.evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize));
      expect(size).toBeGreaterThanOrEqual(24);
      expect(misdeeds).toEqual([]);
    });
  });
});
