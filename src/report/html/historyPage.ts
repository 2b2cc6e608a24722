import type { HistoryDocument } from "../../history/historyDocumentSchema.js";
import { historyChart } from "../charts/historyChart.js";
import { driftData, stringTakesData, weatherData, workData } from "../historyTables.js";
import {
  historyHead,
  historyTerms,
  latestWorks,
  lineSentences,
  olderNote,
  workCaution,
  workHead,
} from "../historyText.js";
import { instrumentText } from "../historyWords.js";
import { printable } from "../printable.js";
import { blocksOfText, chartBlock, listBlock, notedBlocks } from "./blocks.js";
import { inGroups } from "./inGroups.js";
import { methodSection } from "./methodSection.js";
import type { ReportPage, ReportSection } from "./ReportPage.js";

/** A log as a page: what moved, each string over time, drift, weather, and what was different after work. */
export function historyPage(document: HistoryDocument): ReportPage {
  const { instruments } = document;
  const isOne = instruments.length === 1;
  return {
    title: `History: ${isOne ? instrumentText(instruments[0]!.name) : printable(document.log)}`,
    subtitle: historyHead(document),
    answer: instruments.flatMap(({ name, inShort }) =>
      inShort.map((sentence) => (isOne ? sentence : `${instrumentText(name)}: ${sentence}`)),
    ),
    sections: [
      ...instruments.flatMap((one) => instrumentSections(one, isOne ? "" : `${instrumentText(one.name)}: `)),
      { heading: "Lines of the log", blocks: listBlock(lineSentences(document)) },
      { heading: "What the words mean", blocks: blocksOfText(historyTerms) },
      methodSection("history", document.toolVersion, [], document.settings, [document.log]),
    ],
  };
}

function instrumentSections(one: HistoryDocument["instruments"][number], before: string): ReportSection[] {
  const { strings, takes, works } = one;
  const latest = latestWorks(one);
  return [
    {
      heading: `${before}Over time`,
      blocks: takes.length < 2 ? [] : inGroups(strings).map((group) => chartBlock(historyChart(one, group))),
    },
    {
      heading: `${before}From take to take`,
      blocks: strings.flatMap((string) =>
        notedBlocks(`${printable(string.name)}, target ${string.targetHz.toFixed(2)} Hz`, {
          ...stringTakesData(one, string),
          notes: olderNote(string.takes.length),
        }),
      ),
    },
    {
      heading: `${before}Drift`,
      blocks: takes.length < 2 ? [] : notedBlocks("Drift a day, of all strings and of each", driftData(one)),
    },
    {
      heading: `${before}With the weather`,
      blocks:
        takes.length < 2 ? [] : notedBlocks("How pitch went with temperature and humidity", weatherData(one)),
    },
    {
      heading: `${before}After work`,
      blocks:
        works.length === 0
          ? []
          : [
              ...latest.works.flatMap(({ work, index }) =>
                work.days === null
                  ? blocksOfText([`${workHead(one, index)}: no take before it.`])
                  : notedBlocks(workHead(one, index), { ...workData(work), notes: [] }),
              ),
              ...blocksOfText([...latest.notes, workCaution]),
            ],
    },
  ];
}
