import type { StringingDocument } from "../../stringing/stringingDocumentSchema.js";
import { printable } from "../printable.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { labelledGrid } from "./labelledGrid.js";
import { rowAxis } from "./rowAxis.js";
import { valueAxis } from "./valueAxis.js";

/** Tension of each string as it is, and of the very same string as it would stand beside it. */
export function tensionChart({ strings, comparison }: StringingDocument): Chart {
  const rows = strings.filter(({ tensionNewton }) => tensionNewton !== null);
  const there = new Map((comparison ?? []).map(({ name, sameStringNewton }) => [name, sameStringNewton]));
  const besides = rows.flatMap(({ name }, i) => {
    const newton = there.get(name) ?? null;
    return newton === null ? [] : [[newton, i]];
  });
  const said = rows.map(({ name, tensionNewton }) => {
    const newton = there.get(name) ?? null;
    return `${printable(name)} ${tensionNewton?.toFixed(1)}${newton === null ? "" : `, beside it ${newton.toFixed(1)}`}`;
  });
  return {
    title: "Tension of the strings",
    description: `Newtons; circles as the strings are${besides.length === 0 ? "" : ", diamonds the very same strings as they would stand beside it"}. ${said.join("; ")}.`,
    height: () => 62 + 32 * rows.length,
    option: (width) => ({
      grid: labelledGrid({ left: 20, right: 24, top: 8, bottom: 26 }),
      xAxis: valueAxis("tension, N", "x", { min: 0 }),
      yAxis: rowAxis(
        rows.map(({ name }) => name),
        width,
      ),
      series: [
        {
          type: "scatter",
          silent: true,
          symbolSize: 10,
          itemStyle: { opacity: 1, color: chartColours.first.light },
          data: rows.map(({ tensionNewton }, i) => [tensionNewton, i]),
        },
        {
          type: "scatter",
          silent: true,
          symbol: "diamond",
          symbolSize: 13,
          itemStyle: {
            opacity: 1,
            color: "transparent",
            borderColor: chartColours.second.light,
            borderWidth: 2,
          },
          data: besides,
        },
      ],
    }),
  };
}
