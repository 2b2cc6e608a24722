import type { HistoryDocument } from "../history/historyDocumentSchema.js";
import { historyChangeSentences } from "./historyChangeSentences.js";
import { leavesOutZero, namesText, sizeText, sureText, takenText } from "./historyWords.js";
import { intervalText } from "./intervalText.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { trendLack } from "./trendLack.js";

type InstrumentDocument = Omit<HistoryDocument["instruments"][number], "inShort">;
type TrendDocument = InstrumentDocument["common"]["perDay"];

type DifferenceDocument = InstrumentDocument["works"][number]["common"];

/** Less is not worth a word (our policy). */
const LEAST: Readonly<Record<string, number>> = { cents: 1, dB: 0.1 };

/** The answer of a history: what moved last and with what, the drift, the weather, the last work. */
export function historyVerdict(document: InstrumentDocument): string[] {
  const { takes, strings, common } = document;
  if (takes.length < 2)
    return [
      `One take only, of ${takenText(takes[0]!)}: there is nothing yet to set beside it. Add another of this instrument to the log.`,
    ];
  return [
    ...historyChangeSentences(document),
    ...driftSentences(common.perDay, strings),
    ...weatherSentences(common),
    ...workSentences(document),
    ...doubtSentences(document),
  ];
}

function driftSentences(perDay: TrendDocument, strings: InstrumentDocument["strings"]): string[] {
  const own = strings.filter(({ ownPerDay }) => leavesOutZero(ownPerDay.interval95));
  const rate = (trend: TrendDocument) =>
    `${trend.slope! < 0 ? "falls" : "rises"} ${sizeText(trend.slope!, null, 2)} cents a day ${sureText(trend.interval95!, trend.takeCount, 2)}`;
  return [
    perDay.slope === null || perDay.interval95 === null
      ? `A drift a day of all strings can't be given: ${trendLack(perDay)}.`
      : leavesOutZero(perDay.interval95)
        ? `Over all takes, what the strings have in common ${rate(perDay)}.`
        : `Over all takes, no drift of all strings is shown: ${signed(perDay.slope, 2)} cents a day ${sureText(perDay.interval95, perDay.takeCount, 2)}.`,
    ...own.map(
      ({ name, ownPerDay }) =>
        `Beyond that ${printable(name)} ${rate(ownPerDay)} by itself: look at this string and its peg.`,
    ),
  ];
}

function weatherSentences({ perDegreeC, perPercentHumidity }: InstrumentDocument["common"]): string[] {
  const said = [
    { trend: perDegreeC, per: "for each degree warmer", digits: 2 },
    { trend: perPercentHumidity, per: "for each percent more humidity", digits: 2 },
  ].flatMap(({ trend: { slope, interval95, takeCount }, per, digits }) =>
    slope === null || interval95 === null || !leavesOutZero(interval95)
      ? []
      : [`${signed(slope, digits)} cents ${per} ${sureText(interval95, takeCount, digits)}`],
  );
  return said.length === 0
    ? []
    : [
        `Pitch went with the weather: ${said.join("; ")}. That they go together does not show that one makes the other.`,
      ];
}

function workSentences({ works, takes }: InstrumentDocument): string[] {
  const last = works.at(-1);
  if (last === undefined || last.days === null) return [];
  const { strings, common, lowRegisterDb: low } = last;
  const hasOwn = common.interval95 !== null;
  const judged = strings.map(({ name, own, ...one }) => ({ name, one: hasOwn ? own : one }));
  const said = (name: string, { difference, interval95 }: DifferenceDocument, unit: string) =>
    difference !== null && Math.abs(difference) >= LEAST[unit]! && leavesOutZero(interval95)
      ? [`${name} ${signed(difference, 1)} ${unit} (${intervalText(interval95!, 1)})`]
      : [];
  const parts = [
    ...(hasOwn ? said("all together", common, "cents") : []),
    ...judged.flatMap(({ name, one }) =>
      said(`${printable(name)}${hasOwn ? " of its own" : ""}`, one, "cents"),
    ),
    ...said("low register", low, "dB"),
  ];
  const head = `After "${printable(last.work)}" (${takenText(takes[last.take]!)}), against before:`;
  if (parts.length > 0) return [`${head} ${parts.join("; ")}. Drift in between is in it.`];
  const names = judged.filter(({ one }) => one.interval95 !== null).map(({ name }) => name);
  return names.length === 0
    ? []
    : [`${head} ${namesText(names)} stand where they stood, as far as these takes can show.`];
}

function doubtSentences({ doubtfulDays, takes }: InstrumentDocument): string[] {
  const fileTimes = takes.filter(({ takenAtBasis }) => takenAtBasis === "file-time").length;
  return [
    ...(doubtfulDays.length === 0
      ? []
      : [
          `Which takes of ${doubtfulDays.slice(0, 3).join(", ")}${doubtfulDays.length > 3 ? " and other days" : ""} came before the work and which after can't be told from ` +
            "their dates: takes that name no work are put before. Give --date with the time.",
        ]),
    ...(fileTimes === 0
      ? []
      : [
          `The dates of ${fileTimes === 1 ? "one take" : `${fileTimes} takes`} (~) are those of the files; copying a file may change its date.`,
        ]),
  ];
}
