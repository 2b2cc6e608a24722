import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { bowedTake } from "../cli/bowedTake.js";
import { choose, goTo, savedText, showReading, useInstrument } from "./benchPage.js";
import { noBrowser, servedBench } from "./servedBench.js";

// What the browser keeps for the bench page, and what becomes of it. The page is the built one (npm ci and npm run build make it).
const YAML = `name: Ash / Linden "2"
strings:
  - { role: drone, note: C2 }
  - { role: drone, note: G2 }
`;
const NAME = "drones, évening.wav";
const bench = servedBench((file) => {
  writeFileSync(file(NAME), bowedTake([65.3, 98.35], 60_221));
});

/** Keeps the instrument, a take and its reading. */
async function keepAll(page: Page): Promise<void> {
  await useInstrument(page, YAML);
  await page.getByRole("button", { name: "Keep it" }).click();
  await choose(page, bench.file(NAME));
  await page.getByText("Read.", { exact: true }).waitFor();
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.getByRole("listitem").getByRole("button", { name: "Kept" }).waitFor();
}

/** Names on the shelves, as they are seen. */
async function shelves(page: Page): Promise<string[]> {
  await goTo(page, "Keep");
  await page.getByRole("heading", { name: "All of it as one file" }).waitFor();
  return page.locator("main .name:visible").allTextContents();
}

const everything = ['Ash / Linden "2"', "drones, évening.wav", "drones, évening.wav"];

describe.skipIf(noBrowser)("what is kept", () => {
  it("is there after the page is loaded again, and can be used", async () => {
    await bench.open({}, async ({ page, misdeeds }) => {
      await keepAll(page);
      await showReading(page);
      const json = await savedText(page, "Save all figures (JSON)");
      await page.reload();
      await expect.poll(() => shelves(page)).toEqual(everything);
      await page.getByRole("button", { name: "Show" }).click();
      await page.locator("figure .wide svg").first().waitFor();
      expect(await savedText(page, "Save all figures (JSON)")).toBe(json);
      await goTo(page, "Keep");
      await page.getByRole("button", { name: "Use", exact: true }).click();
      await page.getByText("Strings: C2, G2.").waitFor();
      await goTo(page, "Keep");
      await page.getByRole("button", { name: "Put on the bench" }).click();
      await showReading(page);
      expect(await savedText(page, "Save all figures (JSON)")).toBe(json);
      expect(misdeeds).toEqual([]);
    });
  });

  it("stays where an older page kept it, which knew of no logs", async () => {
    await bench.open({}, async ({ page, misdeeds }) => {
      await page.evaluate(`new Promise((resolve, reject) => {
        const gone = indexedDB.deleteDatabase("gurdybench");
        gone.onerror = reject;
        gone.onsuccess = () => {
          const older = indexedDB.open("gurdybench", 1);
          older.onerror = reject;
          older.onupgradeneeded = () => {
            for (const kind of ["instruments", "takes", "readings"])
              older.result.createObjectStore(kind, { keyPath: "id" });
          };
          older.onsuccess = () => {
            const change = older.result.transaction("instruments", "readwrite");
            change.objectStore("instruments").put({ id: "1", name: "Older", yaml: "", keptAt: 0 });
            change.oncomplete = () => (older.result.close(), resolve());
          };
        };
      })`);
      await page.reload();
      await expect.poll(() => shelves(page)).toEqual(["Older"]);
      expect(misdeeds).toEqual([]);
    });
  });

  it("goes out as one archive that other programs open, and comes in elsewhere", async () => {
    const archive = bench.file("kept.zip");
    let json = "";
    await bench.open({}, async ({ page }) => {
      await keepAll(page);
      await showReading(page);
      json = await savedText(page, "Save all figures (JSON)");
      await goTo(page, "Keep");
      const download = page.waitForEvent("download");
      await page.getByRole("button", { name: "Save all as one file" }).click();
      await (await download).saveAs(archive);
    });
    // Python's zipfile, another maker's reading of the format, checks every sum.
    const python = spawnSync("python3", ["-m", "zipfile", "-t", archive], { encoding: "utf8" });
    if (python.error === undefined) expect(python.stdout).toMatch(/^Done testing/m);
    await bench.open({}, async ({ page, misdeeds }) => {
      expect(await shelves(page)).toEqual([]);
      await bringIn(page, archive);
      await page.getByText("3 brought in").waitFor();
      expect(await shelves(page)).toEqual(everything);
      // Once more: they are the same things, not others.
      await bringIn(page, archive);
      await page.getByText("3 brought in").waitFor();
      expect(await shelves(page)).toEqual(everything);
      await page.getByRole("button", { name: "Show" }).click();
      expect(await savedText(page, "Save all figures (JSON)")).toBe(json);
      await goTo(page, "Keep");
      await page.getByRole("button", { name: "Use", exact: true }).click();
      expect(await page.getByLabel("The instrument, as in an instrument file").inputValue()).toBe(YAML);
      expect(misdeeds).toEqual([]);
    });
    for (const [what, spoil] of [
      ["cut off", (bytes: Buffer) => bytes.subarray(0, -200)],
      ["a recording", () => readFileSync(bench.file(NAME))],
      ["empty", () => Buffer.alloc(0)],
      [
        "its list damaged",
        (bytes: Buffer) =>
          Buffer.from(bytes.toString("latin1").replace('"tool": "g', '"tool": "x'), "latin1"),
      ],
    ] as const) {
      const bad = bench.file("bad.zip");
      writeFileSync(bad, spoil(readFileSync(archive)));
      await bench.open({}, async ({ page, misdeeds }) => {
        await goTo(page, "Keep");
        await bringIn(page, bad);
        await page.getByText("Nothing was brought in").waitFor();
        expect(await shelves(page), what).toEqual([]);
        expect(misdeeds).toEqual([]);
      });
    }
  });

  it("says so where there is no room, and goes on", async () => {
    await bench.open({}, async ({ page, misdeeds }) => {
      const session = await page.context().newCDPSession(page);
      await session.send("Storage.overrideQuotaForOrigin", {
        origin: new URL(bench.address()).origin,
        quotaSize: 1,
      });
      await choose(page, bench.file(NAME));
      await page.getByText("Read.", { exact: true }).waitFor();
      await page.getByRole("button", { name: "Keep", exact: true }).click();
      await page.getByRole("alert").filter({ hasText: "There is no room left" }).waitFor();
      expect(await page.getByRole("button", { name: "Kept" }).count()).toBe(0);
      await showReading(page);
      expect(misdeeds).toEqual([]);
    });
  });

  it("is seen in another window at once, and thrown away in both", async () => {
    await bench.open({}, async ({ page, misdeeds }) => {
      const other = await page.context().newPage();
      await other.goto(bench.address());
      await goTo(other, "Keep");
      await keepAll(page);
      await expect.poll(() => shelves(other)).toEqual(everything);
      other.on("dialog", (dialog) => void dialog.accept());
      await other.getByRole("button", { name: "Throw away" }).first().click();
      await expect.poll(() => shelves(page)).toEqual(everything.slice(1));
      expect(misdeeds).toEqual([]);
    });
  });
});

async function bringIn(page: Page, archive: string): Promise<void> {
  const chooser = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: "Bring in such a file" }).click();
  await (await chooser).setFiles(archive);
}
