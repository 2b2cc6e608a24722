import type { SympatheticDocument } from "../../sympathetic/sympatheticDocumentSchema.js";
import { deviationChart } from "../charts/deviationChart.js";
import { printable } from "../printable.js";
import { sympatheticCharacterData, sympatheticPitchData } from "../sympatheticTables.js";
import { sympatheticTerms } from "../sympatheticText.js";
import { blocksOfText, chartBlock, findingBlocks, notedBlocks } from "./blocks.js";
import { methodSection } from "./methodSection.js";
import type { ReportPage } from "./ReportPage.js";

/**
 * Plucked strings as a page: what to do first, every string, how each rings.
 *
 * @param alsoRead - files besides the recordings, such as the instrument's
 */
export function sympatheticPage(document: SympatheticDocument, alsoRead: readonly string[] = []): ReportPage {
  const { file, instrument, settings, strings } = document;
  const heard = strings.filter(({ status }) => status === "measured");
  const rows = heard.flatMap(({ name, deviationCents, interval95Cents }) =>
    deviationCents === null ? [] : [{ name, deviationCents, interval95Cents }],
  );
  return {
    title: `Plucked strings: ${printable(file)}`,
    subtitle:
      `${instrument === null ? "" : `${settings.tuning === null ? "Instrument" : "Tuning"}: ${printable(instrument)}. `}A4 = ${settings.a4Hz} Hz. ` +
      `The take lasts ${document.durationSeconds.toFixed(1)} s.`,
    answer: document.inShort,
    sections: [
      {
        heading: "Strings",
        blocks: [
          ...notedBlocks("Every string: target, what was heard, what to do", {
            ...sympatheticPitchData(strings),
            notes: [],
          }),
          ...(rows.length === 0 ? [] : [chartBlock(deviationChart(rows))]),
        ],
      },
      {
        heading: "How each is",
        blocks: notedBlocks("How long each rings, what it answers to, how stiff it is", {
          ...sympatheticCharacterData(heard),
          notes: [],
        }),
      },
      {
        heading: "Cautions",
        blocks: findingBlocks([...document.findings, ...strings.flatMap(({ findings }) => findings)]),
      },
      { heading: "What the words mean", blocks: heard.length === 0 ? [] : blocksOfText(sympatheticTerms) },
      methodSection("sympathetic", document.toolVersion, [file], settings, alsoRead),
    ],
  };
}
