import type { HistoryDocument } from "../../history/historyDocumentSchema.js";
import { parseMoment } from "../../history/parseMoment.js";
import { printable } from "../printable.js";
import { shorten } from "../shorten.js";
import { signed } from "../signed.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { dayAxis } from "./dayAxis.js";
import { intervalSeries } from "./intervalSeries.js";
import { stackedDrawings } from "./stackedDrawings.js";
import { valueAxis } from "./valueAxis.js";

type InstrumentDocument = HistoryDocument["instruments"][number];
type StringDocument = InstrumentDocument["strings"][number];

const DRAWING_PIXELS = 82;
/** More points than that can't be told apart on a page. */
const LATEST_POINTS = 200;
/** Numbers of works nearer than this are written as one. */
const NUMBER_PIXELS = 34;
/** What the drawing leaves of the width. */
const BESIDE_PIXELS = 68;

/** How far each string was off from take to take, against the target it has now; upright lines are work done. */
export function historyChart(
  { takes, works }: InstrumentDocument,
  strings: readonly StringDocument[],
): Chart {
  const dayOf = (take: number) => parseMoment(takes[take]!.takenAt)!.days;
  const shown = strings.map((string) => string.takes.slice(-LATEST_POINTS));
  const days = shown.flatMap((moments) => moments.map(({ take }) => dayOf(take)));
  const workDays = works.map(({ take }) => dayOf(take));
  const stacked = stackedDrawings(
    strings.map(({ name }) => name),
    strings.map(() => "cents"),
    DRAWING_PIXELS,
  );
  const said = strings.map(({ name, takes: moments }) => {
    const [first, last] = [moments[0]!, moments.at(-1)!];
    return `${shorten(printable(name), 30)} ${signed(first.cents, 1)} at first, ${signed(last.cents, 1)} at last`;
  });
  const marks = works.length === 0 ? "" : " Upright lines are work done, by number.";
  return {
    title: "Each string from take to take",
    description:
      `Cents from the target that each string had last, sharp upwards, with the range that is 95 % sure.${marks} ${said.join("; ")}.` +
      (strings.some(({ takes: all }) => all.length > LATEST_POINTS)
        ? ` The last ${LATEST_POINTS} takes are drawn.`
        : ""),
    height: () => stacked.height,
    option: (width) => {
      const { axis, min, max } = dayAxis(days, width);
      const lines = workLines(workDays, [min, max], width - BESIDE_PIXELS);
      return {
        ...stacked.placed(width),
        xAxis: stacked.across(axis),
        yAxis: strings.map((_, i) =>
          valueAxis("", "y", {
            gridIndex: i,
            scale: true,
            splitNumber: 3,
            minInterval: 1,
            axisLabel: {
              color: chartColours.faint.light,
              hideOverlap: true,
              formatter: (cents: number) => signed(cents, 0),
            },
          }),
        ),
        series: shown.flatMap((moments, i) => [
          {
            ...intervalSeries(
              "y",
              moments.flatMap(({ take, cents, deviationCents, interval95Cents }) =>
                interval95Cents === null
                  ? []
                  : [
                      [
                        dayOf(take),
                        cents + interval95Cents[0] - deviationCents,
                        cents + interval95Cents[1] - deviationCents,
                      ] as const,
                    ],
              ),
            ),
            ...stacked.inDrawing(i),
          },
          {
            type: "line",
            silent: true,
            ...stacked.inDrawing(i),
            symbol: "circle",
            symbolSize: 7,
            showAllSymbol: true,
            lineStyle: { color: chartColours.first.light, width: 1.5 },
            itemStyle: { color: chartColours.first.light },
            data: moments.map(({ take, cents }) => [dayOf(take), cents]),
            markLine: {
              silent: true,
              symbol: "none",
              animation: false,
              lineStyle: { color: chartColours.accent.light, type: "dashed", width: 1.5 },
              label: { show: false },
              data: lines.map(({ day, text }) => {
                // Beside its line, towards the middle: over the drawing stands the string's name.
                const isLeft = day < (min + max) / 2;
                return {
                  xAxis: day,
                  label: {
                    show: i === 0 && text !== "",
                    formatter: text,
                    position: "end",
                    align: isLeft ? "left" : "right",
                    offset: isLeft ? [5, 16] : [-5, 16],
                    rotate: 0,
                    color: chartColours.accent.light,
                  },
                };
              }),
            },
          },
        ]),
      };
    },
  };
}

/** A line for each work that is in sight; the numbers of those that stand too near to each other stand at the first. */
function workLines(
  workDays: readonly number[],
  [low, high]: readonly [number, number],
  widthPixels: number,
): { readonly day: number; readonly text: string }[] {
  const groups: { day: number; first: number; last: number; days: number[] }[] = [];
  for (const [i, day] of workDays.entries()) {
    if (day < low || day > high) continue;
    const group = groups.at(-1);
    const apart =
      group === undefined ? Number.POSITIVE_INFINITY : ((day - group.day) / (high - low)) * widthPixels;
    if (group !== undefined && apart < NUMBER_PIXELS) {
      group.last = i + 1;
      group.days.push(day);
    } else groups.push({ day, first: i + 1, last: i + 1, days: [day] });
  }
  return groups.flatMap(({ first, last, days }) =>
    days.map((day, i) => ({ day, text: i > 0 ? "" : first === last ? `${first}` : `${first}-${last}` })),
  );
}
