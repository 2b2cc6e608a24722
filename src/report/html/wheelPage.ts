import type { WheelDocument } from "../../wheel/wheelDocumentSchema.js";
import { phaseChart } from "../charts/phaseChart.js";
import { turnChart } from "../charts/turnChart.js";
import { printable } from "../printable.js";
import { toldPassages } from "../toldPassages.js";
import { wheelAdvice, wheelRateSentences } from "../wheelAdvice.js";
import { wheelAnswer } from "../wheelAnswer.js";
import { wheelLeftOver } from "../wheelLeftOver.js";
import { wheelPassageTable } from "../wheelPassageTable.js";
import { wheelPhaseData } from "../wheelPhaseLines.js";
import { wheelStringData } from "../wheelStringLines.js";
import { wheelCaution, wheelTerms } from "../wheelTerms.js";
import { tooFewTurns, wheelTurnData } from "../wheelTurnLines.js";
import { blocksOfText, chartBlock, findingBlocks, listBlock, notedBlocks, tableBlock } from "./blocks.js";
import { methodSection } from "./methodSection.js";
import type { ReportBlock, ReportPage, ReportSection } from "./ReportPage.js";

type PassageDocument = WheelDocument["passages"][number];

/**
 * What a take says about the wheel as a page: the answer, the strings, one turn unrolled, what to try.
 *
 * @param alsoRead - files besides the recordings, such as the instrument's
 */
export function wheelPage(document: WheelDocument, alsoRead: readonly string[] = []): ReportPage {
  const { passages, findings, file, instrument, settings } = document;
  const { isLong, turning, advised } = toldPassages(document);
  return {
    title: `Wheel: ${printable(file)}`,
    subtitle:
      `${instrument === null ? "" : `${settings.tuning === null ? "Instrument" : "Tuning"}: ${printable(instrument)}. `}A4 = ${settings.a4Hz} Hz. ` +
      `The take lasts ${document.durationSeconds.toFixed(1)} s.`,
    answer: wheelAnswer(document),
    sections: [
      {
        heading: "Passages",
        blocks: isLong ? [tableBlock("Every passage", wheelPassageTable(passages))] : [],
      },
      {
        heading: "The recording",
        blocks: findingBlocks(findings.filter(({ severity }) => severity !== "info")),
      },
      ...turning.flatMap((passage) => passageSections(passage, passages.length > 1)),
      { heading: "What to try", blocks: listBlock([...new Set(advised.flatMap(wheelAdvice))]) },
      { heading: "Caution", blocks: blocksOfText([wheelCaution]) },
      {
        heading: "What the words mean",
        blocks: turning.length === 0 ? [] : blocksOfText([wheelTerms]),
      },
      methodSection("wheel", document.toolVersion, [file], settings, alsoRead),
    ],
  };
}

function passageSections(passage: PassageDocument, isOneOfSeveral: boolean): ReportSection[] {
  const span = `${passage.startSeconds.toFixed(1)} to ${passage.endSeconds.toFixed(1)} s`;
  const titled = (title: string) => (isOneOfSeveral ? `${title}, ${span}` : title);
  const { notes, ...swings } = wheelStringData(passage);
  return [
    {
      heading: titled("Swing by string, to either side"),
      blocks: [tableBlock("Swing of every string in pitch and level", swings), ...listBlock(notes)],
    },
    { heading: titled("One turn of the wheel"), blocks: turnBlocks(passage) },
    { heading: titled("The strings against each other"), blocks: phaseBlocks(passage) },
    { heading: titled("What does not come round"), blocks: blocksOfText(wheelLeftOver(passage)) },
    { heading: titled("The rate"), blocks: blocksOfText(wheelRateSentences(passage)) },
  ];
}

function turnBlocks(passage: PassageDocument): ReportBlock[] {
  const data = wheelTurnData(passage);
  return data.rows.length === 0
    ? blocksOfText([tooFewTurns])
    : [chartBlock(turnChart(passage.strings)), tableBlock("One turn at eight places", data)];
}

function phaseBlocks(passage: PassageDocument): ReportBlock[] {
  const data = wheelPhaseData(passage);
  return data.rows.length === 0
    ? blocksOfText(data.notes)
    : [
        ...notedBlocks("How much later the second string of each pair is highest", data),
        chartBlock(phaseChart(passage.differences)),
      ];
}
