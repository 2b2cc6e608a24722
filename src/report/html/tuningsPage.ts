import { tuningsChart } from "../charts/tuningsChart.js";
import { printable } from "../printable.js";
import { tuningsIntro } from "../tuningsText.js";
import { type ListedTuning, tuningTable } from "../tuningTable.js";
import { chartBlock, tableBlock } from "./blocks.js";
import { methodSection } from "./methodSection.js";
import type { ReportPage } from "./ReportPage.js";

/**
 * Tunings as a page: a picture of all, and the strings of each.
 *
 * @param a4Hz - the pitch of A4 that the targets were made for
 */
export function tuningsPage(tunings: readonly ListedTuning[], a4Hz: number, toolVersion: string): ReportPage {
  const names = tunings.map(({ name }) => printable(name));
  return {
    title: "Built-in tunings",
    subtitle: `Equal temperament, A4 = ${a4Hz} Hz.`,
    answer: [`${names.length} tunings are built in: ${names.join(", ")}.`, tuningsIntro(a4Hz)],
    sections: [
      { heading: "All tunings", blocks: [chartBlock(tuningsChart(tunings))] },
      ...tunings.map((tuning) => ({
        heading: printable(tuning.name),
        blocks: [tableBlock(`Strings of ${printable(tuning.name)}`, tuningTable(tuning))],
      })),
      methodSection("tunings", toolVersion, [], { a4Hz }),
    ],
  };
}
