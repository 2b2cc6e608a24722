import type { StringTarget } from "../../instrument/Instrument.js";
import { printable } from "../printable.js";
import type { ListedTuning } from "../tuningTable.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { frequencyAxis, octavesOf } from "./frequencyAxis.js";
import { labelledGrid } from "./labelledGrid.js";
import { legend } from "./legend.js";
import { rowAxis } from "./rowAxis.js";
import { rowRules } from "./rowRules.js";

/** Marks of the kinds of strings, and where in the row each stands: a drone and a melody string may have one pitch. */
const kinds: Readonly<Record<StringTarget["role"], { mark: string; colour: string; place: number }>> = {
  melody: { mark: "circle", colour: chartColours.first.light, place: -0.22 },
  trompette: { mark: "triangle", colour: chartColours.third.light, place: 0 },
  drone: { mark: "rect", colour: chartColours.second.light, place: 0.22 },
  sympathetic: { mark: "diamond", colour: chartColours.fourth.light, place: 0 },
};
type Kind = keyof typeof kinds;

/** Where the strings of each tuning stand, over pitch. */
export function tuningsChart(tunings: readonly ListedTuning[]): Chart {
  const all = tunings.flatMap(({ targets }) => targets);
  const roles = (Object.keys(kinds) as Kind[]).filter((role) => all.some((one) => one.role === role));
  const frequencies = all.map(({ targetHz }) => targetHz);
  const said = tunings.map(({ name, targets }) => {
    const strings = roles.flatMap((role) => {
      const notes = targets.filter((one) => one.role === role).map(({ note }) => printable(note));
      return notes.length === 0 ? [] : [`${role} ${notes.join(", ")}`];
    });
    return `${printable(name)}: ${strings.join("; ")}`;
  });
  const key = (width: number) => legend(roles, width);
  return {
    title: "Strings of each tuning",
    description: `By pitch, an octave as wide as any other; strings of one kind and one note stand on each other. ${said.join(". ")}.`,
    height: (width) => 76 + 48 * tunings.length + key(width).pixels,
    option: (width) => ({
      legend: key(width).option,
      grid: labelledGrid({ left: 20, right: 24, top: 8 + key(width).pixels, bottom: 30 }),
      xAxis: {
        ...frequencyAxis(Math.min(...frequencies) / 1.2, Math.max(...frequencies) * 1.2, "x"),
        splitLine: { show: true, lineStyle: { color: chartColours.rule.light } },
      },
      yAxis: {
        ...rowAxis(
          tunings.map(({ name }) => name),
          width,
        ),
        axisLine: { show: true, onZero: false, lineStyle: { color: chartColours.rule.light } },
      },
      series: [
        ...rowRules(tunings.length),
        ...roles.map((role) => ({
          name: role,
          type: "scatter",
          silent: true,
          symbol: kinds[role].mark,
          symbolSize: 10,
          itemStyle: { opacity: 1, color: kinds[role].colour },
          data: tunings.flatMap(({ targets }, i) =>
            targets
              .filter((one) => one.role === role)
              .map(({ targetHz }) => [octavesOf(targetHz), i + kinds[role].place]),
          ),
        })),
      ],
    }),
  };
}
