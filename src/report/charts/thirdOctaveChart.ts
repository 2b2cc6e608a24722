import { count } from "../count.js";
import { signed } from "../signed.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { containedGrid } from "./containedGrid.js";
import { valueAxis } from "./valueAxis.js";

/** Nominal midbands as IEC 61260-1 calls them. */
function nominal(midbandHz: number): string {
  const names = [50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500];
  const nearest = names.reduce((a, b) =>
    Math.abs(Math.log(b / midbandHz)) < Math.abs(Math.log(a / midbandHz)) ? b : a,
  );
  return count(nearest);
}

/** Third-octave levels of a take as bars, those of the low register in another colour. */
export function thirdOctaveChart(
  bands: readonly { readonly midbandHz: number; readonly levelDb: number | null }[],
  lowEdgeHz: number,
): Chart {
  const levels = bands.flatMap(({ levelDb }) => levelDb ?? []);
  const said = bands.flatMap(({ midbandHz, levelDb }) =>
    levelDb === null ? [] : [`${nominal(midbandHz)} Hz ${signed(levelDb, 1)}`],
  );
  const floor = Math.floor(Math.max(-60, Math.min(-20, ...levels)) / 10) * 10;
  return {
    title: "Third-octave bands",
    description:
      `Decibels against the sum of all, each string (or set of strings that sounded together) counting alike. Bands below ${lowEdgeHz.toFixed(0)} Hz, ` +
      `the low register, are light with a broken edge. ${said.join(", ")}.`,
    height: (width) => (width < 500 ? 250 : 290),
    option: (width) => ({
      grid: containedGrid(12),
      xAxis: {
        type: "category",
        data: bands.map(({ midbandHz }) => nominal(midbandHz)),
        name: "middle of the band, Hz",
        nameLocation: "middle",
        nameGap: 28,
        nameTextStyle: { color: chartColours.faint.light },
        axisLabel: {
          color: chartColours.faint.light,
          hideOverlap: true,
          interval: width < 500 ? 2 : 0,
          fontSize: width < 500 ? 12 : 11,
        },
        axisTick: { show: false },
        axisLine: { lineStyle: { color: chartColours.rule.light } },
      },
      // Bars stand on the floor of the picture, not on 0 dB.
      yAxis: valueAxis("dB", "y", {
        min: 0,
        max: -floor,
        axisLabel: { color: chartColours.faint.light, formatter: (above: number) => String(above + floor) },
      }),
      series: [
        {
          type: "bar",
          silent: true,
          barCategoryGap: "25%",
          data: bands.map(({ midbandHz, levelDb }) => ({
            value: levelDb === null ? "-" : Math.max(0, levelDb - floor),
            itemStyle:
              midbandHz < lowEdgeHz
                ? {
                    color: chartColours.band.light,
                    borderColor: chartColours.accent.light,
                    borderWidth: 1.5,
                    borderType: "dashed",
                  }
                : { color: chartColours.first.light },
          })),
        },
      ],
    }),
  };
}
