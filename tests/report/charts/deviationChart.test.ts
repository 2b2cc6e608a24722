import { describe, expect, it } from "vitest";
import { deviationChart } from "../../../src/report/charts/deviationChart.js";
import { dataOf } from "../pageOf.js";

const row = (name: string, deviationCents: number, half = 0.5) => ({
  name,
  deviationCents,
  interval95Cents: [deviationCents - half, deviationCents + half] as const,
});
const reachOf = (rows: readonly ReturnType<typeof row>[]) =>
  (deviationChart(rows).option(700) as { xAxis: { max: number } }).xAxis.max;

describe("deviationChart", () => {
  it("keeps the others apart where one string is far off, and points to that one", () => {
    const rows = [row("a", 2), row("b", -82), row("c", 6), row("d", -3)];
    expect(reachOf(rows)).toBeLessThanOrEqual(10);
    const [inSight, beyond] = dataOf(deviationChart(rows), "scatter");
    expect(inSight).toEqual([
      [2, 0],
      [6, 2],
      [-3, 3],
    ]);
    expect(beyond).toHaveLength(1);
    expect(beyond![0]![1]).toBe(1);
    expect(beyond![0]![0]).toBeLessThan(-3);
    const { description } = deviationChart(rows);
    expect(description).toContain("An arrow: further off than the picture reaches.");
    expect(description).toContain("b -82.0 (-82.5 to -81.5)");
  });

  it("reaches as far as all ranges do where none is far beyond the others", () => {
    const rows = [row("a", 12), row("b", -30, 3), row("c", 25)];
    expect(reachOf(rows)).toBeGreaterThanOrEqual(33);
    expect(dataOf(deviationChart(rows), "scatter")).toHaveLength(1);
    expect(deviationChart(rows).description).not.toContain("arrow");
  });

  it("writes every number beside its row", () => {
    const { yAxis } = deviationChart([row("a", 2), row("b", -82)]).option(350) as {
      yAxis: { data: string[] }[];
    };
    expect(yAxis[1]!.data).toEqual(["+2.0", "-82.0"]);
  });
});
