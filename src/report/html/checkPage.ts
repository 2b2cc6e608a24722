import type { MeasureDocument } from "../../reading/measureDocumentSchema.js";
import { spectrogramChart } from "../charts/spectrogramChart.js";
import { checkedTake } from "../checkText.js";
import { paintFor } from "../paintFor.js";
import { printable } from "../printable.js";
import { takeHeadingLines } from "../takeLines.js";
import { blocksOfText, chartBlock, findingBlocks, WIDE } from "./blocks.js";
import { methodSection } from "./methodSection.js";
import type { PicturedTake } from "./PicturedTake.js";
import type { ReportPage, ReportSection } from "./ReportPage.js";

/**
 * Whether recordings are good enough to measure from, as a page.
 *
 * @param pictured - of each take of the document, in order
 */
export function checkPage(document: MeasureDocument, pictured: readonly PicturedTake[]): ReportPage {
  const { takes, failed, toolVersion } = document;
  const files = [...takes, ...failed].map(({ file }) => printable(file));
  return {
    title: files.length === 1 ? `Check: ${files[0]}` : `${files.length} recordings checked`,
    subtitle: takes.length === 1 && failed.length === 0 ? sizeOf(takes[0]!) : files.join(", "),
    answer:
      files.length === 1
        ? takes.map((take) => checkedTake(take).sentence)
        : takes.map((take) => `${printable(take.file)}: ${checkedTake(take).sentence}`),
    sections: [
      ...takes.map(
        (take, i): ReportSection => ({
          heading: files.length === 1 ? "The recording" : printable(take.file),
          blocks: [
            ...(files.length === 1 ? [] : blocksOfText([sizeOf(take)])),
            ...findingBlocks(checkedTake(take).findings),
            ...(pictured[i]?.spectrogram == null
              ? []
              : [chartBlock(spectrogramChart(pictured[i].spectrogram, take.passages, []))]),
          ],
        }),
      ),
      {
        heading: "Could not be read",
        blocks: findingBlocks(failed.map(({ message }) => ({ severity: "problem", message }))),
      },
      methodSection(
        "check",
        toolVersion,
        [...takes, ...failed].map(({ file }) => file),
        {},
      ),
    ],
  };
}

/** How long it is, and what is in it. */
function sizeOf(take: MeasureDocument["takes"][number]): string {
  return `${takeHeadingLines(take, paintFor(false), WIDE)[1]!}.`;
}
