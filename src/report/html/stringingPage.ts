import type { StringingDocument } from "../../stringing/stringingDocumentSchema.js";
import { tensionChart } from "../charts/tensionChart.js";
import { paintFor } from "../paintFor.js";
import { printable } from "../printable.js";
import { stringingAnswer } from "../stringingAnswer.js";
import { besideTableData, tensionTableData } from "../stringingTables.js";
import { capoSentences, noneBeside, stringingCautions, stringingHead } from "../stringingText.js";
import { blocksOfText, chartBlock, listBlock, notedBlocks } from "./blocks.js";
import { methodSection } from "./methodSection.js";
import type { ReportPage } from "./ReportPage.js";

/**
 * Tensions of an instrument's strings as a page.
 *
 * @param files - of the instruments
 */
export function stringingPage(document: StringingDocument, files: readonly string[]): ReportPage {
  const { strings, comparison } = document;
  return {
    title: `Stringing: ${printable(document.instrument)}`,
    subtitle: stringingHead(document, paintFor(false)),
    answer: stringingAnswer(document),
    sections: [
      {
        heading: "Strings",
        blocks: [
          ...notedBlocks("Every string, its weight and its tension", tensionTableData(document)),
          ...(strings.some(({ tensionNewton }) => tensionNewton !== null)
            ? [chartBlock(tensionChart(document))]
            : []),
        ],
      },
      { heading: "Capos", blocks: listBlock(capoSentences(document)) },
      {
        heading: `Beside it: ${printable(document.against ?? "")}`,
        blocks:
          comparison?.length === 0
            ? blocksOfText([noneBeside])
            : notedBlocks("The same strings there", besideTableData(document)),
      },
      { heading: "Mind", blocks: listBlock(stringingCautions) },
      methodSection("stringing", document.toolVersion, [], document.settings, files),
    ],
  };
}
