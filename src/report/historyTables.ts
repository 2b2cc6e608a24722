import type { HistoryDocument } from "../history/historyDocumentSchema.js";
import { halfText, takenText } from "./historyWords.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import type { NotedTable, TableData, TextColumn } from "./textTable.js";
import { trendLackNotes } from "./trendLack.js";

type InstrumentDocument = HistoryDocument["instruments"][number];
type StringDocument = InstrumentDocument["strings"][number];
type TrendDocument = StringDocument["perDay"];
type DifferenceDocument = InstrumentDocument["works"][number]["lowRegisterDb"];

/** Rows of one string that are printed; all are in the documents. */
export const LATEST_TAKES = 20;
/** The same of work. */
export const LATEST_WORKS = 6;

/** What all strings have in common, as a row of its own. */
const ALL = "all together";

const WEATHER_CAUTION =
  "Pitch and weather that go together don't show that one makes the other: the season, heating and the string's own stretching go along, and the drift is " +
  "not taken out. Wood takes up damp over days, not at once (common practice, no source), so the humidity of the moment says little by itself.";

const right = (...heading: string[]): TextColumn => ({ heading, align: "right" });
const left = (...heading: string[]): TextColumn => ({ heading, align: "left" });

/** A string from take to take, the latest ones. Work is told by its number. */
export function stringTakesData({ takes, works }: InstrumentDocument, string: StringDocument): TableData {
  const rows = string.takes.slice(-LATEST_TAKES).map((moment) => {
    const take = takes[moment.take]!;
    const { change } = moment;
    const work = works.findIndex((one) => one.take === moment.take);
    return [
      takenText(take),
      signed(moment.deviationCents, 1),
      withinText(moment.interval95Cents, 1),
      change === null ? (moment.changeLacking === "other-note" ? "new note" : "") : signed(change.cents, 1),
      withinText(change?.interval95Cents ?? null, 1),
      change === null || change.othersCents === null ? "" : signed(change.othersCents, 1),
      weatherText(take),
      work < 0 ? "" : `[${work + 1}]`,
    ];
  });
  return {
    columns: [
      left("taken"),
      right("off", "cents"),
      right("95 %", "within"),
      right("change", "cents"),
      right("95 %", "within"),
      right("others", "cents"),
      right("weather"),
      left("work"),
    ],
    rows,
  };
}

function weatherText({ temperatureC, humidityPercent }: InstrumentDocument["takes"][number]): string {
  return [
    ...(temperatureC === null ? [] : [`${Number(temperatureC.toFixed(1))}°C`]),
    ...(humidityPercent === null ? [] : [`${Number(humidityPercent.toFixed(0))}%`]),
  ].join(" ");
}

/** The drift a day of all strings and of each, and of each beyond all. */
export function driftData({ common, strings }: InstrumentDocument): NotedTable {
  const row = (name: string, all: TrendDocument, own: TrendDocument | null) => [
    name,
    String(all.takeCount),
    ...trendCells(all),
    ...(own === null ? ["", ""] : trendCells(own)),
  ];
  return {
    columns: [
      left("string"),
      right("takes"),
      right("drift", "cents a day"),
      right("95 %", "within"),
      right("of its own", "cents a day"),
      right("95 %", "within"),
    ],
    rows: [
      row(ALL, common.perDay, null),
      ...strings.map(({ name, perDay, ownPerDay }) => row(printable(name), perDay, ownPerDay)),
    ],
    notes: trendLackNotes([
      common.perDay,
      ...strings.flatMap(({ perDay, ownPerDay }) => [perDay, ownPerDay]),
    ]),
  };
}

/** How pitch went with temperature and humidity; no row where no take has either. */
export function weatherData({ takes, common, strings }: InstrumentDocument): NotedTable {
  const hasWeather = takes.some(
    ({ temperatureC, humidityPercent }) => temperatureC !== null || humidityPercent !== null,
  );
  const row = (name: string, degree: TrendDocument, percent: TrendDocument) => [
    name,
    String(degree.takeCount),
    ...trendCells(degree),
    String(percent.takeCount),
    ...trendCells(percent),
  ];
  return {
    columns: [
      left("string"),
      right("takes"),
      right("cents a", "degree"),
      right("95 %", "within"),
      right("takes"),
      right("cents a %", "humidity"),
      right("95 %", "within"),
    ],
    rows: hasWeather
      ? [
          row(ALL, common.perDegreeC, common.perPercentHumidity),
          ...strings.map((one) => row(printable(one.name), one.perDegreeC, one.perPercentHumidity)),
        ]
      : [],
    notes: [
      ...trendLackNotes([common, ...strings].flatMap((one) => [one.perDegreeC, one.perPercentHumidity])),
      WEATHER_CAUTION,
    ],
  };
}

/** What was different after one work, of each string and of each beyond all. */
export function workData({ strings, common, lowRegisterDb }: InstrumentDocument["works"][number]): TableData {
  const row = (name: string, one: DifferenceDocument, own: DifferenceDocument | null, unit = "") => [
    name,
    ...differenceCells(one, unit),
    ...(own === null ? ["", ""] : differenceCells(own, "")),
    `${one.beforeCount} / ${one.afterCount}`,
    one.basis === "welch" ? "takes" : one.basis === "read" ? "reading" : lacks[one.lacking ?? "no-interval"],
  ];
  return {
    columns: [
      left("string"),
      right("difference", "cents"),
      right("95 %", "within"),
      right("of its own", "cents"),
      right("95 %", "within"),
      right("before", "/ after"),
      left("range from"),
    ],
    rows: [
      row(ALL, common, null),
      ...strings.map(({ name, own, ...one }) => row(printable(name), one, own)),
      row("low register", lowRegisterDb, null, " dB"),
    ],
  };
}

function differenceCells({ difference, interval95 }: DifferenceDocument, unit: string): [string, string] {
  return [difference === null ? "-" : `${signed(difference, 1)}${unit}`, withinText(interval95, 1) || "-"];
}

const lacks: Readonly<Record<NonNullable<DifferenceDocument["lacking"]>, string>> = {
  "nothing-before": "none before",
  "nothing-after": "none after",
  "no-interval": "no range",
  "other-sounds": "other strings heard",
};

function trendCells({ slope, interval95 }: TrendDocument): [string, string] {
  return slope === null || interval95 === null
    ? ["-", "-"]
    : [signed(slope, SLOPE_DIGITS), withinText(interval95, SLOPE_DIGITS)];
}

const SLOPE_DIGITS = 2;

function withinText(interval: readonly [number, number] | null, digits: number): string {
  return interval === null ? "" : `±${halfText(interval, digits)}`;
}
