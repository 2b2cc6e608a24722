import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { chartColours } from "../../src/report/charts/chartColours.js";

describe("the style of the bench page", () => {
  it("has the colours of the charts, in both shades", () => {
    const style = readFileSync(new URL("../../cli/page/page.css", import.meta.url), "utf8");
    const [light, dark] = style.split("@media (prefers-color-scheme: dark)");
    for (const { variable, ...shades } of Object.values(chartColours)) {
      expect(light).toContain(`${variable}: ${shades.light};`);
      expect(dark).toContain(`${variable}: ${shades.dark};`);
    }
  });
});
