import type { StringingDocument } from "../../stringing/stringingDocumentSchema.js";
import { printable } from "../printable.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { labelledGrid } from "./labelledGrid.js";
import { legend } from "./legend.js";
import { rowAxis } from "./rowAxis.js";
import { rowRules } from "./rowRules.js";
import { valueAxis } from "./valueAxis.js";

const HERE = "as it is";
const BESIDE = "the same string beside it";

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
  const key = (width: number) => legend(besides.length === 0 ? [] : [HERE, BESIDE], width);
  return {
    title: "Tension of the strings",
    description: `Newtons; circles as the strings are${besides.length === 0 ? "" : ", diamonds the very same strings as they would stand beside it"}. ${said.join("; ")}.`,
    height: (width) => 62 + 32 * rows.length + key(width).pixels,
    option: (width) => ({
      legend: key(width).option,
      grid: labelledGrid({ left: 20, right: 24, top: 8 + key(width).pixels, bottom: 26 }),
      xAxis: valueAxis("tension, N", "x", { min: 0, boundaryGap: [0, "5%"] }),
      yAxis: rowAxis(
        rows.map(({ name }) => name),
        width,
      ),
      series: [
        ...rowRules(rows.length),
        {
          name: HERE,
          type: "scatter",
          silent: true,
          symbolSize: 10,
          itemStyle: { opacity: 1, color: chartColours.first.light },
          data: rows.map(({ tensionNewton }, i) => [tensionNewton, i]),
        },
        {
          name: BESIDE,
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
