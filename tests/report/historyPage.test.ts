import { describe, expect, it } from "vitest";
import { historyChart } from "../../src/report/charts/historyChart.js";
import { historyCsv } from "../../src/report/csv/historyCsv.js";
import { historyPage } from "../../src/report/html/historyPage.js";
import { logOf } from "../history/loggedTakes.js";
import { historyOf, inventedHistory, inventedTakes } from "./handMadeHistory.js";
import { dataOf, HOSTILE, pageOf, QUOTES } from "./pageOf.js";
import { parseCsv } from "./parseCsv.js";

describe("historyPage", () => {
  it("gives the answer, the pictures, every string, drift, weather, work and the lines left out", () => {
    const page = historyPage(inventedHistory());
    const html = pageOf(page);
    expect(page.title).toBe("History: Low Meadow");
    expect(page.sections.map(({ heading }) => heading)).toEqual([
      "Over time",
      "From take to take",
      "Drift",
      "With the weather",
      "After work",
      "Lines of the log",
      "What the words mean",
      "How it was reckoned",
    ]);
    expect(html).toContain("Line 10 was left out");
    expect(html).toContain("Also read: bench.log");
  });

  it("draws cents from the present target over the days, with their ranges", () => {
    const { instruments } = inventedHistory();
    const [one] = instruments;
    const chart = historyChart(one!, one!.strings.slice(0, 1));
    const [points] = dataOf(chart, "line");
    const [ranges] = dataOf(chart, "custom");
    expect(points).toHaveLength(9);
    // 2026-03-01 at noon is day 20513.5 from 1970: 56 years of 365 days, 14 leap days, 31 + 28 days.
    expect(points![0]![0]).toBe(56 * 365 + 14 + 59 + 0.5);
    expect(points![0]![1]).toBeCloseTo(one!.strings[0]!.takes[0]!.cents, 9);
    expect(ranges![0]![2]! - ranges![0]![1]!).toBeCloseTo(1, 3);
  });

  it("marks work, numbers that stand too near to each other as one", () => {
    const takes = inventedTakes().map((take, i) => ({ ...take, work: i < 3 ? `work ${i}` : null }));
    const [one] = historyOf(logOf(takes)).instruments;
    const { series } = historyChart(one!, one!.strings).option(350) as {
      series: { markLine?: { data: { label: { formatter: string; show: boolean } }[] } }[];
    };
    const shown = series.flatMap(({ markLine }) => markLine?.data ?? []).filter(({ label }) => label.show);
    expect(shown.map(({ label }) => label.formatter)).toEqual(["1-2", "3"]);
  });

  it("is whole with one take, several instruments, and names that are mark-up", () => {
    expect(pageOf(historyPage(historyOf(logOf(inventedTakes().slice(0, 1)))))).not.toContain("<svg");
    const hostile = inventedTakes({ instrument: HOSTILE, work: QUOTES });
    const html = pageOf(historyPage(historyOf(logOf([...inventedTakes(), ...hostile]))));
    expect(html).toContain("&lt;script&gt;");
    expect(html).toContain("Low Meadow: Over time");
  });
});

describe("historyCsv", () => {
  it("has one row for each string of each take, empty where nothing can be said", () => {
    const takes = inventedTakes({ instrument: "=Meadow" });
    const [headings, ...rows] = parseCsv(historyCsv(historyOf(logOf(takes))).slice(1));
    expect(rows).toHaveLength(6 * 9);
    for (const row of rows) expect(row).toHaveLength(headings!.length);
    const cell = (row: number, name: string) => rows[row]![headings!.indexOf(name)];
    expect(cell(0, "instrument")).toBe("'=Meadow");
    expect([cell(0, "string"), cell(0, "takenAt"), cell(0, "changeCents"), cell(0, "verdict")]).toEqual([
      "C2",
      "2026-03-01",
      "",
      "",
    ]);
    expect([cell(1, "daysSince"), cell(6, "work")]).toEqual(["4", "new cotton on the melody strings"]);
  });
});
