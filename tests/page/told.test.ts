import { copyFileSync, writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { KeyboardDocument } from "../../src/index.js";
import { encodeWav } from "../../src/wav/encodeWav.js";
import { bowedTake } from "../cli/bowedTake.js";
import { logOf } from "../history/loggedTakes.js";
import { scaleTake } from "../keyboard/scaleTake.js";
import { inventedTakes } from "../report/handMadeHistory.js";
import { lightBody, RATE_HZ, stiffBody, tapsOn } from "../tap/exampleBodies.js";
import { choose, goTo, savedText, useInstrument } from "./benchPage.js";
import { noBrowser, PHONE, servedBench } from "./servedBench.js";

// That what was done is told where it is seen, and that a slip does not go into a reading unseen.
const DRONES = "name: Drones\nstrings:\n  - { role: drone, note: C2 }\n  - { role: drone, note: G2 }\n";
const KEYED = `name: Two of one note
strings:
  - { name: top, role: melody, note: G4, lengthMm: 345, keys: 4 }
  - { name: second, role: melody, note: G4, lengthMm: 345, keys: 4 }
`;
const bench = servedBench((file) => {
  writeFileSync(file("log.jsonl"), logOf(inventedTakes()));
  writeFileSync(file("one.wav"), bowedTake([65.3, 98.2], 61_801));
  copyFileSync(file("one.wav"), file("copy.wav"));
  const { samples, sampleRateHz } = scaleTake({
    openHz: 391.9954,
    played: Array.from({ length: 5 }, (_, key) => ({ key, seconds: 0.6 })),
    centsOfKey: (key) => 100 * key + (key === 3 ? 9 : 0),
    seed: 61_802,
  });
  writeFileSync(file("scale.wav"), encodeWav([samples], sampleRateHz, "24"));
  writeFileSync(file("light.wav"), encodeWav([tapsOn(lightBody, 61_803, 5)], RATE_HZ, "24"));
  writeFileSync(file("stiff.wav"), encodeWav([tapsOn(stiffBody, 61_804, 5)], RATE_HZ, "24"));
});

describe.skipIf(noBrowser)("the bench page tells", { timeout: 120_000 }, () => {
  it("what came of a log where it is seen, and only there", async () => {
    await bench.open({ viewport: PHONE }, async ({ page, misdeeds }) => {
      await goTo(page, "Keep");
      const bringIn = async (name: string, mimeType: string, text: string) => {
        const chooser = page.waitForEvent("filechooser");
        await page.getByRole("button", { name: "Bring in a log" }).click();
        await (await chooser).setFiles({ name, mimeType, buffer: Buffer.from(text) });
      };
      const log = logOf(inventedTakes());
      await bringIn("log.jsonl", "text/plain", log);
      await page.locator(".answer:visible").waitFor();
      const notice = page.getByRole("alert");
      expect(await notice.locator("p").textContent()).toBe("9 takes brought in with the log.");
      // However far down one reads.
      await page.evaluate("scrollTo(0, document.body.scrollHeight)");
      const seen = (await notice.boundingBox())!;
      expect(seen.y).toBeGreaterThanOrEqual(0);
      expect(seen.y + seen.height).toBeLessThan(PHONE.height);
      await notice.getByRole("button", { name: "Close" }).click();
      expect(await notice.count()).toBe(0);

      // A log of one name takes the other's place: not without a word.
      await bringIn("log.jsonl", "text/plain", log);
      await expect.poll(() => notice.textContent()).toContain("in the place of log.jsonl");
      await goTo(page, "Take");
      await expect.poll(() => notice.count()).toBe(0);

      // A cell of a card that holds nothing says nothing.
      await goTo(page, "Keep");
      await page.locator(".answer:visible").waitFor();
      const labels = await page
        .locator("td:empty")
        .evaluateAll((cells) => cells.map((cell) => getComputedStyle(cell, "::before").content));
      expect(labels.length).toBeGreaterThan(0);
      expect(new Set(labels)).toEqual(new Set(["none"]));

      // What one acts with stands before the history, which is many screens long.
      const answer = (await page.locator(".answer:visible").boundingBox())!;
      for (const name of ["Bring in a log", "Save the log", "Bring in such a file", "Save all as one file"])
        expect((await page.getByRole("button", { name }).boundingBox())!.y, name).toBeLessThan(answer.y);
      expect(misdeeds).toEqual([]);
    });
  });

  it("that an A4 can't be meant, and reads with none meanwhile", async () => {
    await bench.open({ viewport: PHONE }, async ({ page, misdeeds }) => {
      const a4 = page.getByLabel("Pitch of A4, Hz");
      await page.getByLabel("Which strings").selectOption({ label: "Tuning: alto" });
      for (const given of ["1", "0", "44", "99999", "-440", "high"]) {
        await a4.fill(given);
        expect(await a4.getAttribute("aria-invalid"), given).toBe("true");
      }
      await page.getByText("Write hertz from 300 to 600").waitFor();
      await page.getByText("Strings: C2, G2, C3").waitFor();
      expect(await page.getByRole("alert").count()).toBe(0);
      await a4.fill("442,5");
      expect(await a4.getAttribute("aria-invalid")).toBe("false");
      await page.reload();
      await expect.poll(() => a4.inputValue()).toBe("442.5");
      // What an older page remembered.
      await page.evaluate(
        `localStorage.setItem("gurdybench-choice", localStorage.getItem("gurdybench-choice").replace("442.5", "1"))`,
      );
      await page.reload();
      await page.getByText("Strings: C2, G2, C3").waitFor();
      expect(await a4.inputValue()).toBe("");
      expect(misdeeds).toEqual([]);
    });
  });

  it("that an instrument is kept, and asks before another of its name is lost", async () => {
    await bench.open({}, async ({ page, misdeeds }) => {
      const asked: string[] = [];
      let answer = false;
      page.on("dialog", (dialog) => {
        asked.push(dialog.message());
        void (answer ? dialog.accept() : dialog.dismiss());
      });
      await useInstrument(page, DRONES);
      await page.getByRole("button", { name: "Keep it" }).click();
      const kept = page.getByRole("button", { name: "Kept", exact: true });
      await kept.waitFor();
      expect(await kept.isDisabled()).toBe(true);
      expect(asked).toEqual([]);

      await useInstrument(page, DRONES.replace("G2", "D3"));
      await page.getByText("Strings: C2, D3.").waitFor();
      await page.getByRole("button", { name: "Keep it" }).click();
      expect(asked).toEqual([expect.stringContaining("called Drones is kept already")]);
      expect(await kept.count()).toBe(0);
      answer = true;
      await page.getByRole("button", { name: "Keep it" }).click();
      await kept.waitFor();
      await goTo(page, "Keep");
      expect(await page.getByRole("button", { name: "Throw away" }).count()).toBe(1);
      expect(misdeeds).toEqual([]);
    });
  });

  it("that one recording stands on both sides, whatever it is called", async () => {
    await bench.open({}, async ({ page, misdeeds }) => {
      await goTo(page, "Compare");
      const add = async (side: number, name: string) => {
        const chooser = page.waitForEvent("filechooser");
        await page.getByRole("button", { name: "Add recordings" }).nth(side).click();
        await (await chooser).setFiles(bench.file(name));
      };
      const run = page.getByRole("button", { name: "Compare them" });
      await add(0, "one.wav");
      await add(1, "copy.wav");
      await run.click();
      await page
        .getByText("one.wav and copy.wav are one recording. Each take counts once, on one side.")
        .waitFor();
      await page.getByRole("button", { name: "Take off copy.wav" }).click();
      await add(1, "one.wav");
      await run.click();
      await page.getByText("one.wav was added twice.").waitFor();
      // Two takes of one length are two: taps are no bowed strings, which is told then.
      for (const name of ["Take off one.wav", "Take off one.wav"])
        await page.getByRole("button", { name }).first().click();
      await add(0, "light.wav");
      await add(1, "stiff.wav");
      await run.click();
      await expect
        .poll(() => page.locator(".answer:visible, [role=alert]:visible").count())
        .toBeGreaterThan(0);
      expect(await page.getByText("one recording").count()).toBe(0);
      expect(misdeeds).toEqual([]);
    });
  });

  it("which scale was read on which string, and reads it again where another is said", async () => {
    await bench.open({ viewport: PHONE }, async ({ page, misdeeds }) => {
      // Without a melody string there is no keyboard, though an instrument was chosen.
      await useInstrument(page, DRONES);
      await goTo(page, "Keyboard");
      await page.getByText("an instrument that has a melody string").waitFor();
      await useInstrument(page, KEYED);
      await goTo(page, "Keyboard");
      const chooser = page.waitForEvent("filechooser");
      await page.getByRole("button", { name: "Choose the scale" }).click();
      await (await chooser).setFiles(bench.file("scale.wav"));
      await page.locator(".answer:visible").waitFor();
      const read = async () =>
        JSON.parse(await savedText(page, "Save all figures (JSON)")) as KeyboardDocument;
      expect((await read()).string).toBe("top");
      await page.getByLabel("String that is played").selectOption("second");
      await expect.poll(async () => (await read()).string).toBe("second");
      await page.getByLabel("From nut to bridge, mm").fill("400");
      await page.getByRole("button", { name: "Read once more" }).click();
      await expect.poll(async () => (await read()).lengthMm).toBe(400);
      // Of what is off the bench nothing is left to be taken for another.
      await page.getByRole("button", { name: "Take off scale.wav" }).click();
      await expect.poll(() => page.locator(".answer:visible").count()).toBe(0);
      expect(misdeeds).toEqual([]);
    });
  });

  it("what an instrument lacks for a reckoning", async () => {
    await bench.open({}, async ({ page, misdeeds }) => {
      await page.getByLabel("Which strings").selectOption({ label: "Tuning: alto" });
      await goTo(page, "More");
      await page.getByLabel("What to read").selectOption("stringing");
      await page.getByLabel("On another scale").fill("400");
      await page.getByRole("button", { name: "Reckon" }).click();
      const told = page.getByRole("alert").filter({ hasText: "gives no vibrating length" });
      await told.waitFor();
      expect(await told.textContent()).toMatch(/^The instrument .* Add the length/);
      expect(misdeeds).toEqual([]);
    });
  });

  it("the unit of each number that heads a card on a phone", async () => {
    await bench.open({ viewport: PHONE }, async ({ page, misdeeds }) => {
      await goTo(page, "More");
      await page.getByLabel("What to read").selectOption("tap");
      const chooser = page.waitForEvent("filechooser");
      await page.getByRole("button", { name: "Choose taps on this body" }).click();
      await (await chooser).setFiles(bench.file("light.wav"));
      const table = page.getByRole("table", { name: "Every mode" });
      await table.waitFor();
      const head = table.getByRole("rowheader").first();
      expect(await head.evaluate((cell) => getComputedStyle(cell, "::before").content)).toMatch(/^"\s*Hz"/);
      expect(Number(await head.textContent())).toBeGreaterThan(0);
      // A string is called by its name alone.
      await choose(page, bench.file("one.wav"));
      await page.getByText("Read.", { exact: true }).first().waitFor();
      await goTo(page, "Read");
      const name = page.getByRole("rowheader", { name: "C2", exact: true }).first();
      await name.waitFor();
      expect(await name.getAttribute("data-label")).toBeNull();
      expect(misdeeds).toEqual([]);
    });
  });
});
