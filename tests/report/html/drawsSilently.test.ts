import { expect, it, vi } from "vitest";
import { demoMeasured } from "../../../fixtures/demoMeasured.js";
import { htmlPage } from "../../../src/report/html/htmlPage.js";
import { measurePage } from "../../../src/report/html/measurePage.js";

// The chart library says each of its warnings once only: nothing else may draw in this file.
it("draws without a word on the console, where a JSON document goes", () => {
  const { document, pictured } = demoMeasured("0.1.0");
  const spies = (["log", "info", "warn", "error"] as const).map((name) =>
    vi.spyOn(console, name).mockImplementation(() => {}),
  );
  const html = htmlPage(measurePage(document, pictured));
  const said = spies.flatMap((spy) => spy.mock.calls);
  vi.restoreAllMocks();
  expect(said).toEqual([]);
  expect(html.match(/<svg /g)?.length).toBeGreaterThan(8);
  // Measures the demo take: a second or two, more on a busy machine.
}, 60_000);
