import type { WheelDocument } from "../../wheel/wheelDocumentSchema.js";
import { printable } from "../printable.js";
import { shorten } from "../shorten.js";
import { signed } from "../signed.js";
import type { Chart } from "./Chart.js";
import { chartColours, seriesColours, seriesDashes, seriesSymbols } from "./chartColours.js";
import { intervalSeries } from "./intervalSeries.js";
import { legend } from "./legend.js";
import { valueAxis } from "./valueAxis.js";

type StringDocument = WheelDocument["passages"][number]["strings"][number];

/** A line in the legend shows its dashes. */
const LEGEND_LINE_PIXELS = 44;
const LEGEND_TO_PANEL_PIXELS = 40;
const LONGEST_NAME = 24;
const PANEL_PIXELS = 210;
const BETWEEN_PIXELS = 58;
const BOTTOM_PIXELS = 50;
/** Strings stand this far beside each other, so that their ranges don't cover one another. */
const ASIDE_DEGREES = 2;
/** Half as wide as places are apart on a phone. */
const TURN_CAP_PIXELS = 4;

const panels = [
  { quantity: "pitch", unit: "cents" },
  { quantity: "level", unit: "dB" },
] as const;

/** Pitch and level of each string, unrolled over one turn of the wheel. */
export function turnChart(strings: readonly StringDocument[]): Chart {
  const shown = strings.filter(({ pitch }) => pitch.turn.length > 0);
  const names = shown.map(({ name }, s) => nameOf(name, s));
  const topOf = (panel: number, width: number) =>
    legend(names, width, LEGEND_LINE_PIXELS).pixels +
    LEGEND_TO_PANEL_PIXELS +
    panel * (PANEL_PIXELS + BETWEEN_PIXELS);
  const said = shown.flatMap(({ name, pitch, level }) => [
    `${printable(name)}: pitch ${extremes(pitch.turn, "cents")}, level ${extremes(level.turn, "dB")}`,
  ]);
  return {
    title: "One turn of the wheel, unrolled",
    description:
      "Above the pitch, below the level of each string against its mean over the turn, at 24 places, each with the range that is 95 % sure over " +
      `the turns. ${said.join("; ")}.`,
    height: (width) => topOf(1, width) + PANEL_PIXELS + BOTTOM_PIXELS,
    option: (width) => ({
      legend: legend(names, width, LEGEND_LINE_PIXELS).option,
      title: panels.map(({ quantity, unit }, p) => ({
        text: `${quantity}, ${unit}`,
        left: 40,
        top: topOf(p, width) - 26,
        textStyle: { fontSize: 14, color: chartColours.ink.light },
      })),
      grid: panels.map((_, p) => ({
        outerBoundsMode: "none",
        left: 50,
        right: 20,
        top: topOf(p, width),
        height: PANEL_PIXELS,
      })),
      xAxis: panels.map((_, p) => ({
        ...valueAxis("degrees of the turn", "x", { gridIndex: p, min: 0, max: 360, interval: 45 }),
        ...(p === 0 && { name: "" }),
      })),
      yAxis: panels.map((_, p) =>
        valueAxis("", "y", {
          gridIndex: p,
          axisLabel: {
            color: chartColours.faint.light,
            formatter: (value: number) => signed(value, Number.isInteger(value) ? 0 : 1),
          },
        }),
      ),
      series: panels.flatMap(({ quantity }, p) =>
        shown.flatMap((string, s) => {
          const colour = seriesColours[s % seriesColours.length]!;
          const turn = string[quantity].turn;
          const aside = (s - (shown.length - 1) / 2) * ASIDE_DEGREES;
          const place = { xAxisIndex: p, yAxisIndex: p };
          return [
            {
              ...intervalSeries(
                "y",
                turn.map(({ degrees, interval95 }) => [degrees + aside, ...interval95] as const),
                colour,
                TURN_CAP_PIXELS,
              ),
              ...place,
            },
            {
              type: "line",
              silent: true,
              name: names[s],
              ...place,
              symbol: seriesSymbols[s % seriesSymbols.length],
              symbolSize: 7,
              showAllSymbol: true,
              lineStyle: { color: colour, width: 1.75, type: seriesDashes[s % seriesDashes.length] },
              itemStyle: { color: colour },
              data: turn.map(({ degrees, mean }) => [degrees + aside, mean]),
            },
          ];
        }),
      ),
    }),
  };

  /** Two strings may look alike once their names are made fit to print; the legend needs one name each. */
  function nameOf(name: string, s: number): string {
    const short = shorten(printable(name), LONGEST_NAME);
    const alike = shown
      .slice(0, s)
      .filter((one) => shorten(printable(one.name), LONGEST_NAME) === short).length;
    return alike === 0 ? short : `${short} (${alike + 1})`;
  }
}

function extremes(turn: StringDocument["pitch"]["turn"], unit: string): string {
  const highest = turn.reduce((a, b) => (b.mean > a.mean ? b : a));
  const lowest = turn.reduce((a, b) => (b.mean < a.mean ? b : a));
  const at = ({ mean, degrees }: typeof highest) =>
    `${signed(mean, 2)} ${unit} at ${degrees.toFixed(0)} degrees`;
  return `highest ${at(highest)}, lowest ${at(lowest)}`;
}
