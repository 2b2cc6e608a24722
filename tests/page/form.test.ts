import { copyFileSync, writeFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { MeasureDocument } from "../../src/reading/measureDocumentSchema.js";
import { choose, goTo, savedText, showReading } from "./benchPage.js";
import { DESK, demoTake, noBrowser, PHONE, servedBench } from "./servedBench.js";

// The instrument as a form: it reads and writes the text that the command reads.
const bench = servedBench((file) => copyFileSync(demoTake, file("demo-take.wav")));

const text = (page: Page) => page.getByLabel("The instrument, as in an instrument file");
const card = (page: Page, number: number) =>
  page.getByRole("group", { name: new RegExp(`^String ${number}\\b`) });
const notes = (page: Page) =>
  page
    .getByLabel("Note", { exact: true })
    .evaluateAll((all) => all.map((one) => (one as HTMLInputElement).value));

/** What is said beside the field that is described. */
async function saidBeside(page: Page, number: number, field: string): Promise<string | null> {
  const input = card(page, number).getByLabel(field, { exact: true });
  expect(await input.getAttribute("aria-invalid")).toBe("true");
  return page.locator(`[id="${await input.getAttribute("aria-describedby")}"]`).textContent();
}

async function open(page: Page, yaml: string): Promise<void> {
  await page.getByLabel("Which strings").selectOption("own");
  await text(page).fill(yaml);
}

describe.skipIf(noBrowser)("the form of an instrument", () => {
  it("fills in a tuning for what the command then reads alike, and is kept, saved and brought in", async () => {
    const archive = bench.file("kept.zip");
    let written = "";
    await bench.open({ viewport: DESK }, async ({ page, misdeeds, outgoing }) => {
      await page.getByLabel("Which strings").selectOption({ label: "Tuning: alto-three" });
      await page.getByRole("button", { name: "Begin my own from this tuning" }).click();
      await page.getByLabel("Name of the instrument").fill("Ash: filled in");
      await page.getByLabel("A4 it is made for, Hz").fill("441,5");
      await page.getByLabel("Temperament").selectOption("Quarter-comma meantone");
      await page.getByLabel("Tonic", { exact: true }).selectOption("C");
      for (const [i, name] of ["bass", "fifth", "tenor"].entries())
        await card(page, i + 1)
          .getByLabel("Name")
          .fill(name);
      for (const number of [4, 5, 6]) {
        await card(page, number).getByLabel("Length, mm").fill("345.5");
        await card(page, number).getByLabel("Keys").fill("23");
      }
      await card(page, 6).getByText("Raising, weight and more").click();
      await card(page, 6).getByLabel("Meant to be off by, cents").fill("-2");
      await card(page, 6).getByLabel("Material").fill("gut");
      await card(page, 6).getByLabel("Diameter, mm").fill("0.7");
      await page.getByText("Changed, and not used yet.").waitFor();
      await page.getByRole("button", { name: "Use it" }).click();
      await page.getByText("Strings: bass, fifth, tenor, G3, D4, G4.").waitFor();
      written = await text(page).inputValue();
      writeFileSync(bench.file("filled-in.yaml"), written);

      await choose(page, bench.file("demo-take.wav"));
      await showReading(page);
      const args = ["measure", "demo-take.wav", "--instrument", "filled-in.yaml"];
      const printed = bench.command(...args, "--json");
      expect(await savedText(page, "Save all figures (JSON)")).toBe(printed);
      const document = JSON.parse(printed) as MeasureDocument;
      expect(document.instrument).toBe("Ash: filled in");
      expect(document.settings).toMatchObject({
        a4Hz: 441.5,
        tonic: "C",
        temperament: "quarter-comma-meantone",
      });
      const sheet = bench.command(...args).split("\n");
      const strings = document.takes[0]!.strings;
      expect(strings).toHaveLength(6);
      for (const { name } of strings) {
        const row = page.getByRole("row", { name: new RegExp(`^${name} `) }).first();
        const line = sheet.find((one) => one.trim().startsWith(name))!;
        for (const figure of (await row.getByRole("cell").allTextContents()).slice(0, 3))
          expect(line).toContain(figure);
      }

      await goTo(page, "Take");
      await page.getByRole("button", { name: "Keep it" }).click();
      await goTo(page, "Keep");
      await page.getByText("Ash: filled in", { exact: true }).waitFor();
      const download = page.waitForEvent("download");
      await page.getByRole("button", { name: "Save all as one file" }).click();
      await (await download).saveAs(archive);
      expect(misdeeds).toEqual([]);
      expect(outgoing).toEqual([]);
    });
    await bench.open({ viewport: PHONE }, async ({ page, misdeeds }) => {
      await goTo(page, "Keep");
      const chooser = page.waitForEvent("filechooser");
      await page.getByRole("button", { name: "Bring in such a file" }).click();
      await (await chooser).setFiles(archive);
      await page.getByRole("button", { name: "Use", exact: true }).click();
      await page.getByText("Fill it in or change it").click();
      expect(await text(page).inputValue()).toBe(written);
      expect(await card(page, 6).getByLabel("Keys").inputValue()).toBe("23");
      expect(misdeeds).toEqual([]);
    });
  });

  it("stays in step with the text, whose comments and order stay", async () => {
    const yaml = `# strung in May
tonic: G   # the village plays in G
name: 'Pear'
strings:
  # left side
  - {note: C2, role: drone}   # worn
  - note: G4
    role: melody              # gut
`;
    await bench.open({ viewport: DESK }, async ({ page, misdeeds }) => {
      await open(page, yaml);
      expect(await page.getByLabel("Name of the instrument").inputValue()).toBe("Pear");
      expect(await notes(page)).toEqual(["C2", "G4"]);
      await card(page, 1).getByLabel("Note").fill("D2");
      await page.getByLabel("Name of the instrument").fill("Plum");
      expect(await text(page).inputValue()).toBe(yaml.replace("C2", "D2").replace("'Pear'", "'Plum'"));
      await card(page, 2).getByLabel("Keys").fill("22");
      await page.getByRole("button", { name: "Down: String 1" }).click();
      const after = await text(page).inputValue();
      expect(after.match(/#.*/g)?.sort()).toEqual(yaml.match(/#.*/g)?.sort());
      expect(after).toMatch(/note: G4\n {4}keys: 22\n {4}role: melody # gut\n/);
      expect(await notes(page)).toEqual(["G4", "D2"]);
      await text(page).fill(after.replace("D2", "A2"));
      expect(await notes(page)).toEqual(["G4", "A2"]);
      // What can't be shown in fields is said, and nothing of it is touched.
      await text(page).fill(`${after}  - [`);
      await page.getByText("can't be shown in fields until it is mended").waitFor();
      expect(await page.getByRole("group", { name: /^String/ }).count()).toBe(0);
      await text(page).fill(after);
      expect(await notes(page)).toEqual(["G4", "D2"]);
      // What was begun is there again after the page was loaded anew.
      await page.reload();
      await page.getByText("Fill it in or change it").click();
      expect(await text(page).inputValue()).toBe(after);
      expect(misdeeds).toEqual([]);
    });
  });

  it("says beside each field what is wrong with it, however little is there yet", async () => {
    await bench.open({ viewport: PHONE }, async ({ page, misdeeds }) => {
      await open(page, "");
      expect(await text(page).inputValue()).toBe("");
      await page.getByRole("button", { name: "Add a string" }).click();
      expect(await saidBeside(page, 1, "Note")).toBe("Needs a note, or a frequency (frequencyHz)");
      const typed = async (field: string, given: string) => {
        await card(page, 1).getByLabel(field, { exact: true }).fill("");
        await card(page, 1).getByLabel(field, { exact: true }).pressSequentially(given);
      };
      await typed("Note", "H2");
      expect(await saidBeside(page, 1, "Note")).toMatch(/^Must be a note name .*, not "H2"$/);
      await typed("Length, mm", "3");
      expect(await saidBeside(page, 1, "Length, mm")).toBe("Must be a number from 50 to 2000 (mm), not 3");
      await typed("Length, mm", "many");
      expect(await saidBeside(page, 1, "Length, mm")).toMatch(/not "many"$/);
      await card(page, 1).getByText("Raising, weight and more").click();
      await typed("Can be raised by, semitones", "2, 99");
      expect(await saidBeside(page, 1, "Can be raised by, semitones")).toMatch(/from 1 to 24/);
      // A number that is not finished stays as it is typed.
      await typed("Length, mm", "345,");
      expect(await card(page, 1).getByLabel("Length, mm").inputValue()).toBe("345,");
      await page.keyboard.type("5");
      await typed("Note", "B2");
      await typed("Can be raised by, semitones", "2 4");
      expect(await page.locator("[aria-invalid=true]").count()).toBe(0);
      expect(await card(page, 1).getByLabel("Length, mm").inputValue()).toBe("345.5");
      expect(await text(page).inputValue()).toBe(
        "strings:\n  - role: drone\n    note: B2\n    lengthMm: 345.5\n    capo: [ 2, 4 ]\n",
      );
      await page.getByLabel("Temperament").selectOption("Just");
      await page.getByText("Just needs a tonic, such as tonic: G", { exact: true }).waitFor();
      // What no field is for is said as well.
      await text(page).fill("colour: red\nstrings:\n  - {role: drone, note: C2, length: 345}\n");
      await page.getByText(/^colour: unknown key/).waitFor();
      await card(page, 1).getByText("length: unknown key, lengthMm is meant perhaps").waitFor();
      expect(misdeeds).toEqual([]);
    });
  });

  it("is filled in with the keyboard alone", async () => {
    await bench.open({ viewport: PHONE }, async ({ page, misdeeds }) => {
      const focused = () =>
        page.evaluate(() => {
          const at = document.activeElement as HTMLElement;
          const labels = (at as HTMLInputElement).labels;
          return at.ariaLabel ?? labels?.[0]?.textContent ?? at.textContent;
        });
      const tabTo = async (wanted: string) => {
        for (let count = 0; count < 60 && (await focused()) !== wanted; count++)
          await page.keyboard.press("Tab");
        expect(await focused()).toBe(wanted);
      };
      await page.getByLabel("Which strings").focus();
      await page.keyboard.press("End");
      await text(page).waitFor();
      await tabTo("Name of the instrument");
      await page.keyboard.press("ControlOrMeta+A");
      await page.keyboard.type("By keys");
      await tabTo("Add a string");
      await page.keyboard.press("Enter");
      // The keyboard goes on in the string that was added, and goes with it where it is moved.
      await expect.poll(focused).toBe("Note");
      await page.keyboard.type("D4");
      await tabTo("Up: String 4: D4");
      await page.keyboard.press("Enter");
      await expect.poll(focused).toBe("Up: String 3: D4");
      await page.keyboard.press("Enter");
      await page.keyboard.press("Enter");
      await expect.poll(focused).toBe("Down: String 1: D4");
      await tabTo("Take out: String 2: C2");
      await page.keyboard.press("Enter");
      await expect.poll(focused).toBe("Put it back");
      await page.keyboard.press("Enter");
      await expect.poll(focused).toBe("Note");
      expect(await notes(page)).toEqual(["D4", "C2", "G2", "G4"]);
      await tabTo("Use it");
      await page.keyboard.press("Enter");
      await page.getByText("Strings: D4, C2, G2, G4.").waitFor();
      expect(misdeeds).toEqual([]);
    });
  });

  it("asks before an instrument of one's own that stands nowhere else is written over", async () => {
    await bench.open({}, async ({ page }) => {
      const asked: string[] = [];
      page.on("dialog", (dialog) => {
        asked.push(dialog.message());
        void dialog.dismiss();
      });
      const begin = async (tuning: string) => {
        await page.getByLabel("Which strings").selectOption({ label: `Tuning: ${tuning}` });
        await page.getByRole("button", { name: "Begin my own from this tuning" }).click();
      };
      await begin("alto");
      await begin("soprano");
      expect(asked).toEqual([]);
      await page.getByLabel("Name of the instrument").fill("Mine");
      const mine = await text(page).inputValue();
      await begin("tenor");
      expect(asked).toEqual([expect.stringMatching(/not kept/)]);
      await page.getByLabel("Which strings").selectOption("own");
      expect(await text(page).inputValue()).toBe(mine);
    });
  });
});
