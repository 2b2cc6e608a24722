import type { TrompetteDocument } from "../../trompette/trompetteDocumentSchema.js";
import { strokesChart } from "../charts/strokesChart.js";
import { printable } from "../printable.js";
import { trompetteAdvice } from "../trompetteAdvice.js";
import { trompettePitchData, trompetteStrokeData, trompetteTogetherData } from "../trompetteTables.js";
import { trompetteCaution, trompetteTerms } from "../trompetteText.js";
import { blocksOfText, chartBlock, findingBlocks, listBlock, notedBlocks } from "./blocks.js";
import { methodSection } from "./methodSection.js";
import type { ReportPage } from "./ReportPage.js";

/**
 * What a take says about the buzzing bridge as a page: the answer, every stroke, strength and evenness, pitch.
 *
 * @param alsoRead - files besides the recordings, such as the instrument's
 */
export function trompettePage(document: TrompetteDocument, alsoRead: readonly string[] = []): ReportPage {
  const { file, instrument, settings, findings, strokes } = document;
  const together = { ...trompetteTogetherData(document), notes: [] };
  const pitch = { ...trompettePitchData(document), notes: [] };
  const told = (isGrave: boolean) => findings.filter(({ severity }) => (severity !== "info") === isGrave);
  return {
    title: `Buzzing bridge: ${printable(file)}`,
    subtitle:
      `${instrument === null ? "" : `${settings.tuning === null ? "Instrument" : "Tuning"}: ${printable(instrument)}. `}A4 = ${settings.a4Hz} Hz. ` +
      `The take lasts ${document.durationSeconds.toFixed(1)} s.`,
    answer: document.inShort,
    sections: [
      { heading: "The recording", blocks: findingBlocks(told(true)) },
      {
        heading: "Strokes",
        blocks: strokes.some(({ strengthDb }) => strengthDb !== null)
          ? [chartBlock(strokesChart(document))]
          : [],
      },
      { heading: "Strokes together", blocks: notedBlocks("Strength, length, evenness and pace", together) },
      { heading: "Pitch", blocks: notedBlocks("Pitch of the drone with and without buzz", pitch) },
      { heading: "What to try", blocks: listBlock(trompetteAdvice(document)) },
      {
        heading: "Each stroke",
        blocks: notedBlocks("Strokes in order of time", trompetteStrokeData(document)),
      },
      { heading: "To know", blocks: findingBlocks(told(false)) },
      { heading: "Caution", blocks: blocksOfText([trompetteCaution]) },
      { heading: "What the words mean", blocks: strokes.length > 0 ? blocksOfText([trompetteTerms]) : [] },
      methodSection("trompette", document.toolVersion, [file], settings, alsoRead),
    ],
  };
}
