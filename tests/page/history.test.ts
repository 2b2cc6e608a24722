import { readFileSync, utimesSync, writeFileSync } from "node:fs";
import { basename } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { runProgram } from "../../cli/program.js";
import { historyDocumentSchema } from "../../src/history/historyDocumentSchema.js";
import * as pages from "../../src/pages.js";
import { bowedTake } from "../cli/bowedTake.js";
import { logOf } from "../history/loggedTakes.js";
import { inventedTakes } from "../report/handMadeHistory.js";
import { choose, goTo, savedText, useInstrument } from "./benchPage.js";
import { noBrowser, PHONE, servedBench } from "./servedBench.js";

// Each string over time in the page, against what the command says of the same takes and of the same log.
const YAML = `name: Kept and logged
strings:
  - { role: drone, note: C2 }
  - { role: drone, note: G2 }
  - { role: drone, note: G3 }
`;
const LOG = "gurdybench-log.jsonl";
const MADE = new Date(2026, 1, 3, 8, 5, 6);
const bench = servedBench((file) => {
  writeFileSync(file("kept.yaml"), YAML);
  writeFileSync(file("first.wav"), bowedTake([65.3, 98.2, 195.9], 51_907));
  writeFileSync(file("second.wav"), bowedTake([65.25, 98.35, 195.5], 51_908));
  for (const name of ["first.wav", "second.wav"]) utimesSync(file(name), MADE, MADE);
});

/** What a command writes, whatever it says meanwhile. */
function run(...args: readonly string[]): string {
  let out = "";
  const terminal = {
    stdout: { write: (text: string) => (out += text) },
    stderr: { write: () => {} },
    colour: false,
  };
  const code = runProgram(args, terminal, pages);
  expect([0, 1]).toContain(code);
  return out;
}

async function keepReading(page: Page, name: string, count: number): Promise<void> {
  await choose(page, bench.file(name));
  await expect.poll(() => page.getByText("Read.", { exact: true }).count(), { timeout: 30_000 }).toBe(count);
  await page.getByRole("button", { name: "Keep", exact: true }).first().click();
  await expect.poll(() => page.getByRole("button", { name: "Kept" }).count()).toBe(count);
}

/** Waits until the history is drawn. */
async function drawn(page: Page): Promise<void> {
  await page.locator(".answer:visible").waitFor();
}

async function bringIn(page: Page, button: string, file: string): Promise<void> {
  const chooser = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: button }).click();
  await (await chooser).setFiles(file);
}

describe.skipIf(noBrowser)("the history of each string", { timeout: 120_000 }, () => {
  it("is made of kept readings, their weather and work, line for line as the command logs them", async () => {
    const archive = bench.file("kept.zip");
    let json = "";
    await bench.open({ viewport: PHONE }, async ({ page, misdeeds }) => {
      await useInstrument(page, YAML);
      await keepReading(page, "first.wav", 1);
      await keepReading(page, "second.wav", 2);
      await goTo(page, "Keep");
      // Newest first: the second take gets a date, weather and work, the first one keeps its file's time.
      const notes = page.locator("details.folded:visible").first();
      await notes.locator("summary").click();
      await notes.getByLabel("Date").fill("2026-03-01");
      await notes.getByLabel("Time of day").fill("14:30");
      await notes.getByLabel("Temperature").fill("-0,5");
      await notes.getByLabel("Relative humidity").fill("146");
      const write = notes.getByRole("button", { name: "Write it down" });
      expect(await write.isDisabled()).toBe(true);
      await notes.getByLabel("Relative humidity").fill("46");
      await notes.getByLabel("Work done").fill(" new   cotton ");
      await write.click();
      await expect
        .poll(() => notes.locator("summary").textContent())
        .toBe("Taken 2026-03-01 14:30, -0.5 °C, 46 % humidity, new cotton");
      await drawn(page);

      const given = ["--date", "2026-03-01 14:30", "--temperature-c", "-0.5", "--humidity-percent", "46"];
      const logged = (name: string, ...options: readonly string[]) =>
        run(
          ...["measure", bench.file(name), "--instrument", bench.file("kept.yaml")],
          ...["--log", bench.file("command.jsonl"), ...options],
        );
      logged("first.wav");
      logged("second.wav", ...given, "--work", "new cotton");
      const log = await savedText(page, "Save the log");
      expect(log).toBe(readFileSync(bench.file("command.jsonl"), "utf8"));

      writeFileSync(bench.file(LOG), log);
      json = await savedText(page, "Save all figures (JSON)");
      expect(json).toBe(bench.command("history", LOG, "--json"));
      const [first] = historyDocumentSchema.parse(JSON.parse(json)).instruments;
      expect(first!.takes.map(({ takenAt }) => takenAt)).toEqual(["2026-02-03T08:05:06", "2026-03-01T14:30"]);
      expect(await page.locator(".answer:visible p").allTextContents()).toEqual(first!.inShort);

      const download = page.waitForEvent("download");
      await page.getByRole("button", { name: "Save all as one file" }).click();
      await (await download).saveAs(archive);
      expect(misdeeds).toEqual([]);
    });
    // Notes go with the readings, into another browser.
    await bench.open({}, async ({ page }) => {
      await goTo(page, "Keep");
      await bringIn(page, "Bring in such a file", archive);
      await drawn(page);
      expect(await savedText(page, "Save all figures (JSON)")).toBe(json);
    });
  });

  it("is made of a log that is brought in, its sentences, tables and charts those of the command's page", async () => {
    const log = bench.file(LOG);
    writeFileSync(log, `${logOf(inventedTakes())}no take\n`);
    await bench.open({}, async ({ page, misdeeds, outgoing }) => {
      await goTo(page, "Keep");
      await bringIn(page, "Bring in a log", log);
      await page.getByText("9 takes brought in with the log.").waitFor();
      await drawn(page);
      const shown = async () => JSON.parse(await savedText(page, "Save all figures (JSON)"));
      const printed = (...options: readonly string[]) =>
        JSON.parse(run("history", log, "--json", ...options).replaceAll(log, basename(log)));
      expect(await shown()).toEqual(printed());
      expect(await savedText(page, "Save the table (CSV)")).toBe(csvOf(log));

      // The page that the command writes holds the same texts, cells and pictures.
      run("history", log, "--html", bench.file("history.html"), "--force");
      const other = await page.context().newPage();
      await other.setContent(readFileSync(bench.file("history.html"), "utf8"));
      const cells = (where: Page) => where.locator("td:visible").allTextContents();
      const here = await cells(page);
      expect(here.length).toBeGreaterThan(100);
      expect(here).toEqual(await cells(other));
      const pictures = await page.locator("figure .wide svg").count();
      expect(pictures).toBeGreaterThan(0);
      expect(pictures).toBe(await other.locator("figure .wide svg").count());

      await page.getByRole("combobox", { name: /^Strings/ }).selectOption("G3");
      await expect.poll(async () => (await shown()).settings).toEqual({ strings: ["G3"], since: null });
      const day = inventedTakes()[4]!.takenAt.slice(0, 10);
      await page.getByLabel("From this day on").fill(day);
      await expect.poll(async () => (await shown()).settings.since).toBe(day);
      expect(await shown()).toEqual(printed("--string", "G3", "--since", day));
      await page.getByLabel("From this day on").fill("2999-01-01");
      await page.getByText("No take of that day or later.").waitFor();

      // The same log again takes the place of the first; another file is none.
      await bringIn(page, "Bring in a log", log);
      await expect.poll(() => page.getByRole("button", { name: "Throw away" }).count()).toBe(1);
      await bringIn(page, "Bring in a log", bench.file("first.wav"));
      await page.getByText("This file holds no take of a log").waitFor();
      expect(misdeeds).toEqual([]);
      expect(outgoing).toEqual([]);
    });
  });
});

function csvOf(log: string): string {
  const csv = bench.file("history.csv");
  run("history", log, "--csv", csv, "--force");
  return readFileSync(csv, "utf8");
}
