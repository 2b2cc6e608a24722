import { source as axeSource } from "axe-core";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { chromiumPath, NO_CHROMIUM, startChromium } from "../../fixtures/chromium.js";
import { openPage } from "./openPage.js";
import {
  cutOnPaper,
  type DrawnText,
  documentWidths,
  drawnMarks,
  drawnTexts,
  scrolledTables,
  seenText,
} from "./pageReadings.js";
import { HOSTILE, reportPages } from "./reportPages.js";

// The pages in a real browser. Contrast: WCAG 2.1, success criterion 1.4.3, 4.5 to 1 for text, and 1.4.11, 3 to 1 for what else
// carries a meaning; the other rules of accessibility as
// axe-core checks them.
const path = chromiumPath();
if (path === null) console.log(`Skipped: ${NO_CHROMIUM}.`);

const PHONE = { width: 390, height: 844 };
const DESK = { width: 1280, height: 900 };
const LEAST_FONT_PIXELS = 10;
const LEAST_CONTRAST = 4.5;
const LEAST_MARK_CONTRAST = 3;
/** Boxes of letters have air above and below: two may touch by so much and their letters don't. */
const OVERLAP_PIXELS = 2;
/** What @page leaves of A4 (210 by 297 mm) and letter (215.9 by 279.4 mm), at 96 pixels an inch. */
const SHEETS = [
  { format: "A4", widthMm: 182, heightMm: 265 },
  { format: "Letter", widthMm: 187.9, heightMm: 247.4 },
] as const;
const MM = 96 / 25.4;

let browser: Browser;
beforeAll(async () => {
  if (path !== null) browser = await startChromium(path);
}, 60_000);
afterAll(async () => {
  await browser?.close();
});

/** What is wrong with the texts of the drawings. */
function faultsOf(texts: readonly DrawnText[]): string[] {
  const faults: string[] = [];
  for (const [i, one] of texts.entries()) {
    const [left, top, right, bottom] = one.box;
    const [svgLeft, svgTop, svgRight, svgBottom] = one.svgBox;
    const where = `"${one.text}" in drawing ${one.svg}`;
    if (one.fontPixels < LEAST_FONT_PIXELS) faults.push(`${where} is ${one.fontPixels.toFixed(1)} pixels`);
    if (one.contrast < LEAST_CONTRAST) faults.push(`${where} has a contrast of ${one.contrast.toFixed(2)}`);
    if (left < svgLeft - 1 || top < svgTop - 1 || right > svgRight + 1 || bottom > svgBottom + 1) {
      faults.push(`${where} stands beyond it`);
    }
    for (const other of texts.slice(i + 1)) {
      if (other.svg !== one.svg) continue;
      const across = Math.min(right, other.box[2]) - Math.max(left, other.box[0]);
      const down = Math.min(bottom, other.box[3]) - Math.max(top, other.box[1]);
      if (across > OVERLAP_PIXELS && down > OVERLAP_PIXELS) faults.push(`${where} overlaps "${other.text}"`);
    }
  }
  return faults;
}

describe.skipIf(path === null)("pages in a browser", () => {
  describe.each(reportPages)("$name", ({ name, html, sheets }) => {
    for (const [device, viewport] of [
      ["phone", PHONE],
      ["desk", DESK],
    ] as const) {
      it.each(["light", "dark"] as const)(`can be read on a ${device}, %s`, async (colorScheme) => {
        await openPage(browser, html, { viewport, colorScheme }, async ({ page, misdeeds }) => {
          const { needed, window } = await page.evaluate(documentWidths);
          expect(needed).toBeLessThanOrEqual(window);
          const texts = await page.evaluate(drawnTexts);
          // Without a chart the rest would say nothing; the least one has two axes with their names and a few numbers.
          expect(texts.length).toBeGreaterThan(5);
          expect(faultsOf(texts)).toEqual([]);
          const marks = (await page.evaluate(drawnMarks)).filter(({ isRule }) => !isRule);
          // A drawing that shows nothing would have no fault.
          expect(new Set(marks.map(({ svg }) => svg))).toEqual(new Set(texts.map(({ svg }) => svg)));
          expect(marks.filter(({ contrast }) => contrast < LEAST_MARK_CONTRAST)).toEqual([]);
          expect(misdeeds).toEqual([]);
        });
      });

      it.each(["light", "dark"] as const)(
        `passes the accessibility audit, ${device}, %s`,
        async (colorScheme) => {
          // Only the audit itself needs to get past the page's policy.
          const options = { viewport, colorScheme, bypassCSP: true };
          await openPage(browser, html, options, async ({ page }) => {
            await page.evaluate(axeSource);
            const violations = await page.evaluate(`axe.run().then(({ passes, violations }) => ({
            passed: passes.length,
            violations: violations.map(({ id, nodes }) => id + ": " + nodes.map(({ html }) => html.slice(0, 200)).join(" | ")),
          }))`);
            expect(violations).toEqual({
              passed: expect.toSatisfy((count: number) => count > 10),
              violations: [],
            });
          });
        },
      );
    }

    it("shows its tables on a phone without scrolling them, and they stay tables", async () => {
      const roles = ["table", "columnheader", "rowheader", "cell"] as const;
      const counts: number[][] = [];
      for (const viewport of [PHONE, DESK]) {
        await openPage(browser, html, { viewport }, async ({ page }) => {
          expect(await page.evaluate(scrolledTables)).toEqual([]);
          counts.push(await Promise.all(roles.map((role) => page.getByRole(role).count())));
        });
      }
      // Cells with nothing in them are left out of a card.
      const [phone, desk] = counts;
      expect(phone!.slice(0, 3)).toEqual(desk!.slice(0, 3));
      expect(phone![3]).toBeLessThanOrEqual(desk![3]!);
      expect(phone![3]! > 0).toBe(desk![0]! > 0);
    });

    it("is the same without script", async () => {
      const seen: string[] = [];
      for (const javaScriptEnabled of [true, false]) {
        await openPage(browser, html, { viewport: DESK, javaScriptEnabled }, async ({ page }) => {
          seen.push(await page.evaluate(seenText));
        });
      }
      // Two empty pages would be the same too; the shortest sheet has more letters.
      expect(seen[0]!.length).toBeGreaterThan(500);
      expect(seen[1]).toBe(seen[0]);
      expect(html).not.toMatch(/<script/i);
    });

    it.each(SHEETS)("prints whole on $format", async ({ format, widthMm, heightMm }) => {
      const viewport = { width: Math.floor(widthMm * MM), height: Math.floor(heightMm * MM) };
      await openPage(browser, html, { viewport, colorScheme: "dark" }, async ({ page, misdeeds }) => {
        await page.emulateMedia({ media: "print" });
        expect(await page.evaluate(cutOnPaper, viewport.height)).toEqual([]);
        expect(faultsOf(await page.evaluate(drawnTexts))).toEqual([]);
        const pdf = (await page.pdf({ format })).toString("latin1");
        const count = pdf.match(/\/Type \/Page\b/g)?.length ?? 0;
        expect(count).toBeGreaterThan(0);
        expect(count).toBeLessThanOrEqual(sheets);
        expect(misdeeds).toEqual([]);
      });
    });

    it.runIf(name.includes("hostile"))("shows the names as text", async () => {
      await openPage(browser, html, { viewport: PHONE }, async ({ page, misdeeds }) => {
        const shown = await page.evaluate(seenText);
        const readable = HOSTILE.slice(0, HOSTILE.indexOf("\u202e"));
        expect(shown).toContain(`${readable}\\u{202e}\\u{2066}\\u{0}\\u{1b}[2J.wav`);
        expect(shown).not.toMatch(/[\u202e\u2066]/);
        expect(await page.locator("img, script, iframe, [onerror], [onload]").count()).toBe(0);
        expect(misdeeds).toEqual([]);
      });
    });
  });

  it("sees what a bad page does", async () => {
    const bad = `<body style="background:#fff"><img src=x onerror="alert(1)"><script>console.log("hello")</script>
      <svg viewBox="0 0 100 50" width="100"><path d="M0 0L9 9" fill="none" stroke="#bbb"/><rect width="9" height="9" fill="#000" opacity="0.2"/><text y="20" font-size="9" fill="#999">one</text><text y="22">two</text></svg>
      <div class="scroll" aria-label="wide" style="overflow:auto"><table style="width:1000px"><tr><td>wide</table></div>
      <table style="width:2000px"><tr><td>wide</table>`;
    await openPage(browser, bad, { viewport: PHONE }, async ({ page, misdeeds }) => {
      const { needed, window } = await page.evaluate(documentWidths);
      expect(needed).toBeGreaterThan(window);
      expect(faultsOf(await page.evaluate(drawnTexts)).join("; ")).toMatch(
        /9\.0 pixels.*contrast.*overlaps "two"/,
      );
      const marks = await page.evaluate(drawnMarks);
      // #bbb on white, and black of which a fifth is left: (1.05) / (L + 0.05) by the definition.
      expect(marks.map(({ contrast }) => contrast.toFixed(2))).toEqual(["1.92", "1.61"]);
      expect(await page.evaluate(scrolledTables)).toEqual([expect.stringMatching(/^wide: 1000 in/)]);
      // The browser tells of them when it gets to it.
      for (const told of [/request: .*x/, /console: hello/, /dialog: 1/]) {
        await expect.poll(() => misdeeds.join("; "), { timeout: 10_000 }).toMatch(told);
      }
    });
  });
});
