import type { HistoryDocument } from "../history/historyDocumentSchema.js";
import { count } from "./count.js";
import {
  driftData,
  LATEST_TAKES,
  LATEST_WORKS,
  stringTakesData,
  weatherData,
  workData,
} from "./historyTables.js";
import { instrumentText, takenText } from "./historyWords.js";
import type { TextOptions } from "./measureText.js";
import { paintFor } from "./paintFor.js";
import { printable } from "./printable.js";
import { section } from "./section.js";
import { sheetWidth } from "./sheetWidth.js";
import { type TableData, textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

type InstrumentDocument = HistoryDocument["instruments"][number];

/** What the words mean, and how far they carry. */
export const historyTerms = [
  "Off: cents from the target of that take, + is sharp; 95 % within: so far to either side it may be off. Change: of the pitch itself since the take before, whatever the targets were. Others: " +
    "what the other strings did meanwhile (their median). The answer goes from the last take of an earlier day to the last take.",
  "The range of a change holds how surely the two takes are read, not what another cranking, cotton or hand would change.",
  "Drift: a straight line through all takes; after each work on the instrument it starts at a new level. Of its own: beyond what the other strings have in " +
    "common. Its range holds where takes scatter about the line without a pattern. Of 20 such ranges one misses by chance.",
];

/** Said of every table of differences after work. */
export const workCaution =
  "Up to five takes on either side. Range from takes: by how much takes differ among themselves (Welch). From the reading: one take on a side, so the " +
  "range holds only how surely each is read. What strings drift by in between is in every difference.";

/** The sheet of a log: what moved, each string from take to take, drift, weather, and what was different after work. */
export function historyText(document: HistoryDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = sheetWidth(options.width);
  const lines = [
    ...wrapText(historyHead(document), width),
    ...document.instruments.flatMap((one) => instrumentLines(one, width, paint.heading)),
    ...section(
      paint.heading("Lines of the log"),
      lineSentences(document).flatMap((one) => wrapText(one, width, "  ", "    ")),
    ),
    "",
    ...historyTerms.flatMap((text) => wrapText(text, width)),
  ];
  return `${lines.join("\n")}\n`;
}

/** File, number of takes and what was asked for. */
export function historyHead({ log, instruments, settings }: HistoryDocument): string {
  const takeCount = instruments.reduce((sum, { takes }) => sum + takes.length, 0);
  const { since, strings } = settings;
  return (
    `${printable(log)}: ${count(takeCount)} ${takeCount === 1 ? "take" : "takes"}${since === null ? "" : ` since ${since}`}` +
    `${strings === null ? "" : `, strings ${strings.map(printable).join(", ")}`}.`
  );
}

/** What became of lines that are no take of their own. */
export function lineSentences({ problems, repeats }: HistoryDocument): string[] {
  return [
    ...problems.map(({ line, message }) => `Line ${line} was left out: ${message}`),
    ...repeats.map(
      ({ line, sameAsLine }) => `Line ${line} holds the take of line ${sameAsLine}; it counts once.`,
    ),
  ];
}

/** Which takes are not printed. */
export function olderNote(takeCount: number): string[] {
  const older = takeCount - LATEST_TAKES;
  return older <= 0 ? [] : [`${count(older)} older takes are in --csv and --json.`];
}

/** Work that is printed, with its place, and what is said of work that is not. */
export function latestWorks({ works }: InstrumentDocument) {
  const older = Math.max(0, works.length - LATEST_WORKS);
  return {
    works: works.map((work, index) => ({ work, index })).slice(older),
    notes: older === 0 ? [] : [`What was different after ${count(older)} earlier works is in --json.`],
  };
}

/** Work with its number, date and words. */
export function workHead({ works, takes }: InstrumentDocument, index: number): string {
  const { work, take, days } = works[index]!;
  const between =
    days === null ? "" : `; ${days.toFixed(days < 10 ? 1 : 0)} days between the mean dates of both sides`;
  return `[${index + 1}] ${printable(work)} (${takenText(takes[take]!)}${between})`;
}

function instrumentLines(
  one: InstrumentDocument,
  width: number,
  heading: (text: string) => string,
): string[] {
  const table = ({ columns, rows }: TableData) =>
    rows.length === 0 ? [] : textTable(columns, rows, width - 2).map((line) => `  ${line}`);
  const noted = (lines: readonly string[], notes: readonly string[]) =>
    lines.length === 0 ? [] : [...lines, ...notes.flatMap((note) => wrapText(note, width, "  "))];
  const latest = latestWorks(one);
  return [
    ...section(
      heading(instrumentText(one.name)),
      one.inShort.flatMap((sentence) => wrapText(sentence, width, "  ")),
    ),
    ...one.strings.flatMap((string) =>
      section(heading(`${printable(string.name)}, target ${string.targetHz.toFixed(2)} Hz`), [
        ...table(stringTakesData(one, string)),
        ...olderNote(string.takes.length).map((note) => `  ${note}`),
      ]),
    ),
    ...(one.takes.length < 2
      ? []
      : [
          ...section(heading("Drift"), noted(table(driftData(one)), driftData(one).notes)),
          ...section(heading("With the weather"), noted(table(weatherData(one)), weatherData(one).notes)),
        ]),
    ...section(
      heading("After work"),
      noted(
        [
          ...latest.works.flatMap(({ work, index }) => [
            ...wrapText(workHead(one, index), width, "  ", "    "),
            ...(work.days === null ? ["  No take before it."] : table(workData(work))),
          ]),
          ...latest.notes.map((note) => `  ${note}`),
        ],
        [workCaution],
      ),
    ),
  ];
}
