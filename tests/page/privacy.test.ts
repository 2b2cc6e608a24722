import { copyFileSync, writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { choose, goTo, savedText, showReading, useInstrument } from "./benchPage.js";
import { startBench } from "./benchServer.js";
import { demoInstrument, demoTake, noBrowser, servedBench } from "./servedBench.js";

// No request leaves this computer, and none is needed.
const bench = servedBench((file) => {
  copyFileSync(demoTake, file("demo-take.wav"));
  writeFileSync(file("demo.yaml"), demoInstrument);
});

describe.skipIf(noBrowser)("the bench page keeps to itself:", () => {
  it("lets no request out, neither of the page nor of its threads, and its proxy would see one", async () => {
    await bench.open({}, async ({ page, misdeeds, outgoing }) => {
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
      await bench.open(
        {},
        async ({ page, misdeeds }) => {
          await goTo(page, "Keep");
          await page.getByText("works without a network").waitFor();
          expect(await own.end()).toBe(0);
          await page.reload();
          await useInstrument(page, demoInstrument);
          await choose(page, bench.file("demo-take.wav"));
          await showReading(page);
          expect(await page.locator("figure .wide svg").count()).toBeGreaterThan(5);
          expect(await savedText(page, "Save all figures (JSON)")).toBe(
            bench.command("measure", "demo-take.wav", "--instrument", "demo.yaml", "--json"),
          );
          expect(misdeeds).toEqual([]);
        },
        own.address,
      );
    } finally {
      own.remove();
    }
  });
});
