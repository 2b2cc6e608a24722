import type { MeasureDocument } from "../../reading/measureDocumentSchema.js";
import { bodyLines } from "../bodyLines.js";
import { bodyCurveChart } from "../charts/bodyCurveChart.js";
import { deviationChart } from "../charts/deviationChart.js";
import { partialsChart } from "../charts/partialsChart.js";
import { pitchChart } from "../charts/pitchChart.js";
import { spectrogramChart } from "../charts/spectrogramChart.js";
import { thirdOctaveChart } from "../charts/thirdOctaveChart.js";
import { inShortLines } from "../inShortLines.js";
import { lowRegisterLines } from "../lowRegisterLines.js";
import { lowStringLines } from "../lowStringLines.js";
import { headLines, measureTerms } from "../measureText.js";
import { paintFor } from "../paintFor.js";
import { pairTableData } from "../pairLines.js";
import { printable } from "../printable.js";
import { referenceLines } from "../referenceLines.js";
import { stringTableData, wordLines } from "../stringLines.js";
import { summaryLines } from "../summaryLines.js";
import { tuningSentences } from "../tuningSentences.js";
import { wheelLine } from "../wheelLine.js";

import { blocksOfText, chartBlock, findingBlocks, listBlock, tableBlock, WIDE } from "./blocks.js";
import { inGroups } from "./inGroups.js";

import { methodSection } from "./methodSection.js";
import type { PicturedTake } from "./PicturedTake.js";
import type { ReportBlock, ReportPage, ReportSection } from "./ReportPage.js";

type TakeDocument = MeasureDocument["takes"][number];

/**
 * The measuring sheet as a page: the answer, the strings, then pictures.
 *
 * @param pictured - of each take of the document, in order
 * @param alsoRead - files besides the recordings, such as the instrument's
 */
export function measurePage(
  document: MeasureDocument,
  pictured: readonly PicturedTake[],
  alsoRead: readonly string[] = [],
): ReportPage {
  const { takes, settings } = document;
  const only = takes.length === 1 ? takes[0]! : null;
  const paint = paintFor(false);
  return {
    title: only === null ? `${takes.length} takes measured` : printable(only.file),
    subtitle: headLines(document, WIDE).join(" "),
    answer:
      only === null
        ? summaryLines(document.summary, settings.anchor, WIDE).slice(0, 1)
        : inShortLines(only, WIDE).map((line) => line.trim()),
    sections: [
      ...(only === null
        ? [
            {
              heading: "All takes together",
              blocks: blocksOfText(summaryLines(document.summary, settings.anchor, WIDE)),
            },
            ...takes.flatMap((take, i) => [
              {
                heading: printable(take.file),
                blocks: [...grave(take), ...stringBlocks(take, document, pictured[i])],
              },
            ]),
          ]
        : takeSections(only, document, pictured[0])),
      { heading: "What the words mean", blocks: blocksOfText([measureTerms(settings.lowEdgeHz)]) },
      methodSection(
        "measure",
        document.toolVersion,
        takes.map(({ file }) => file),
        settings,
        alsoRead,
      ),
    ],
  };

  function takeSections(
    take: TakeDocument,
    context: MeasureDocument,
    shown: PicturedTake | undefined,
  ): ReportSection[] {
    const low = take.lowRegister;
    const mild = take.findings.filter(({ severity }) => severity === "info");
    return [
      { heading: "The recording", blocks: grave(take) },
      { heading: "Strings", blocks: stringBlocks(take, context, shown) },
      {
        heading: "Pairs of strings",
        blocks: pairBlocks(take),
      },
      {
        heading: "What to do, step by step",
        blocks: take.pairs.length === 0 ? [] : stepBlocks(tuningSentences(take, context)),
      },
      { heading: "The wheel", blocks: blocksOfText(wheelLine(take.wheel, WIDE)) },
      { heading: "Low register", blocks: low === null ? [] : lowBlocks(take, low, settings.lowEdgeHz) },
      { heading: "The take as a picture", blocks: pictureBlocks(take, shown) },
      { heading: "More about the recording", blocks: findingBlocks(mild) },
    ];
  }

  function stringBlocks(
    take: TakeDocument,
    context: MeasureDocument,
    shown: PicturedTake | undefined,
  ): ReportBlock[] {
    if (take.strings.length === 0) return blocksOfText(["No string was heard."]);
    const anchor = take.referencePitch?.anchor ?? null;
    const measured = take.strings.flatMap(({ name, deviationCents, interval95Cents }) =>
      deviationCents === null ? [] : [{ name, deviationCents, interval95Cents }],
    );
    const followed = (shown?.strings ?? []).filter(
      ({ status, perPassage }) => status === "measured" && perPassage.length > 0,
    );
    return [
      tableBlock("Every string: target and what was heard", stringTableData(take, anchor)),
      ...listBlock(wordLines(take, paint, WIDE)),
      ...blocksOfText(referenceLines(take, context, WIDE)),
      ...(measured.length === 0 ? [] : [chartBlock(deviationChart(measured))]),
      ...inGroups(followed).map((strings) => chartBlock(pitchChart(strings))),
    ];
  }
}

/** Steps with their numbers, and what is said before and after them. */
function stepBlocks(sentences: readonly string[]): ReportBlock[] {
  const isStep = (sentence: string) => /^\s*\d+\. /.test(sentence);
  const first = sentences.findIndex(isStep);
  if (first < 0) return blocksOfText(sentences);
  const end = first + sentences.slice(first).filter(isStep).length;
  return [
    ...blocksOfText(sentences.slice(0, first)),
    ...listBlock(sentences.slice(first, end)),
    ...blocksOfText(sentences.slice(end)),
  ];
}

function pairBlocks(take: TakeDocument): ReportBlock[] {
  if (take.pairs.length === 0) return [];
  const { notes, ...data } = pairTableData(take);
  return [
    ...(data.rows.length === 0 ? [] : [tableBlock("Pairs near a pure interval, and their beats", data)]),
    ...blocksOfText(notes),
  ];
}

function lowBlocks(
  take: TakeDocument,
  low: NonNullable<TakeDocument["lowRegister"]>,
  lowEdgeHz: number,
): ReportBlock[] {
  const rows = take.strings.filter(({ partials }) => partials.length > 0);
  return [
    ...blocksOfText([
      ...lowRegisterLines(low, lowEdgeHz, WIDE),
      ...bodyLines(low, WIDE),
      ...lowStringLines(low.lowStrings, lowEdgeHz, WIDE),
    ]),
    chartBlock(thirdOctaveChart(low.thirdOctaveDb, lowEdgeHz)),
    ...(low.bodyCurve.length === 0 ? [] : [chartBlock(bodyCurveChart(low.bodyCurve, low.lowReachHz))]),
    ...inGroups(rows).map((strings) => chartBlock(partialsChart(strings, lowEdgeHz))),
  ];
}

function pictureBlocks(take: TakeDocument, shown: PicturedTake | undefined): ReportBlock[] {
  if (shown?.spectrogram == null) return [];
  return [chartBlock(spectrogramChart(shown.spectrogram, take.passages, take.strings))];
}

function grave(take: TakeDocument): ReportBlock[] {
  return findingBlocks(take.findings.filter(({ severity }) => severity !== "info"));
}
