import type { TapDocument } from "../../tap/tapDocumentSchema.js";
import { modesChart } from "../charts/modesChart.js";
import { tapBowChart } from "../charts/tapBowChart.js";
import { printable } from "../printable.js";
import { tapBowData } from "../tapBowLines.js";
import { tapComparisonData } from "../tapComparisonLines.js";
import { tapModeData } from "../tapModeLines.js";
import { tapHowToTell, tapTerms } from "../tapText.js";
import { blocksOfText, chartBlock, findingBlocks, listBlock, notedBlocks, tableBlock } from "./blocks.js";
import { methodSection } from "./methodSection.js";
import type { ReportPage } from "./ReportPage.js";

/**
 * What taps say of a body as a page: the answer, the modes, the other body, tapped over bowed.
 *
 * @param alsoRead - files besides the recordings, such as the instrument's
 */
export function tapPage(document: TapDocument, alsoRead: readonly string[] = []): ReportPage {
  const { takes, comparison, bowed } = document;
  const hasModes = takes.some(({ modes }) => modes.length > 0);
  const titled = (title: string, name: string) => (takes.length > 1 ? `${title}, ${printable(name)}` : title);
  return {
    title: `Taps: ${takes.map(({ name }) => printable(name)).join(", ")}`,
    subtitle: takes
      .map(
        ({ file, durationSeconds, taps, tapsUsed }) =>
          `${printable(file)}, ${durationSeconds.toFixed(1)} s, ${tapsUsed} of ${taps.length} taps used.`,
      )
      .join(" "),
    answer: document.inShort,
    sections: [
      { heading: "The modes over frequency", blocks: hasModes ? [chartBlock(modesChart(takes))] : [] },
      ...takes.map((take) => ({
        heading: titled("Modes", take.name),
        blocks:
          take.modes.length === 0 ? [] : [tableBlock("Every mode, from the lowest up", tapModeData(take))],
      })),
      {
        heading: comparison === null ? "" : `${printable(comparison.a)} less ${printable(comparison.b)}`,
        blocks:
          comparison === null
            ? []
            : notedBlocks("Modes that both bodies have", tapComparisonData(comparison)),
      },
      {
        heading: "Tapped and bowed over each other",
        blocks:
          bowed === null || bowed.bands.length === 0
            ? []
            : [
                chartBlock(tapBowChart(bowed.bands)),
                ...notedBlocks("Both curves by third-octaves, and where they have peaks", tapBowData(bowed)),
              ],
      },
      ...takes.map((take) => ({
        heading: titled("Cautions", take.name),
        blocks: findingBlocks(take.findings),
      })),
      { heading: "Cautions, bowed take", blocks: bowed === null ? [] : findingBlocks(bowed.findings) },
      { heading: "What is what", blocks: hasModes ? listBlock(tapHowToTell) : [] },
      { heading: "What the words mean", blocks: hasModes ? blocksOfText([tapTerms]) : [] },
      methodSection(
        "tap",
        document.toolVersion,
        [...takes.map(({ file }) => file), ...(bowed === null ? [] : [bowed.file])],
        bowed?.settings ?? {},
        alsoRead,
      ),
    ],
  };
}
