import { copyFileSync } from "node:fs";
import { source as axeSource } from "axe-core";
import { describe, expect, it } from "vitest";
import { documentWidths } from "../browser/pageReadings.js";
import { choose, goTo, showReading, useInstrument } from "./benchPage.js";
import { DESK, demoInstrument, demoTake, noBrowser, PHONE, servedBench } from "./servedBench.js";

// Rules of accessibility as axe-core checks them, in every part of the page.
const bench = servedBench((file) => {
  copyFileSync(demoTake, file("demo-take.wav"));
});

describe.skipIf(noBrowser)("the bench page", () => {
  describe.each([
    ["phone", PHONE],
    ["desk", DESK],
  ] as const)("on a %s", (_, viewport) => {
    it.each(["light", "dark"] as const)(
      "passes the accessibility audit in all its parts, %s",
      async (colorScheme) => {
        // Only the audit itself needs to get past the page's policy.
        const options = { viewport, colorScheme, bypassCSP: true };
        await bench.open(options, async ({ page }) => {
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
          await page.getByLabel("Which strings").selectOption({ label: "Tuning: alto" });
          await page.getByRole("button", { name: "Begin my own from this tuning" }).click();
          const string = page.getByRole("group", { name: /^String 1/ });
          await string.getByText("Raising, weight and more").click();
          await string.getByLabel("Note").fill("H2");
          await string.getByText("Must be a note name").waitFor();
          await page.getByRole("button", { name: /^Take out: String 3/ }).click();
          await audit();
          const unfold = async () => {
            const folded = page.locator("details:not([open]) > summary:visible");
            while ((await folded.count()) > 0) await folded.first().click();
          };
          await useInstrument(page, demoInstrument);
          await unfold();
          await choose(page, bench.file("demo-take.wav"));
          await page.getByText("Read.", { exact: true }).waitFor();
          await audit();
          await page.getByRole("button", { name: "Keep", exact: true }).click();
          await page.getByRole("button", { name: "Kept" }).waitFor();
          await showReading(page);
          await audit();
          for (const part of ["Compare", "Keyboard", "More", "Keep"]) {
            await goTo(page, part);
            await audit();
          }
          // What is folded away, and the history of what was kept.
          await page.locator(".answer:visible").waitFor();
          for (const part of ["Compare", "Keyboard", "Keep", "More"]) {
            await goTo(page, part);
            await unfold();
            await audit();
          }
          for (const kind of ["trompette", "sympathetic", "tap", "stringing"]) {
            await page.getByLabel("What to read").selectOption(kind);
            await unfold();
            await audit();
          }
        });
      },
    );
  });
});
