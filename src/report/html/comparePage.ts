import type { CompareDocument } from "../../comparison/compareDocumentSchema.js";
import { bodyCurveDifferenceData } from "../bodyCurveDifferenceLines.js";
import { curveDifferenceChart } from "../charts/curveDifferenceChart.js";
import { measuresChart } from "../charts/measuresChart.js";
import { takesChart } from "../charts/takesChart.js";
import { comparedMeasureData, isListed } from "../comparedMeasureLines.js";
import { compareAnswer, compareHeadLines, fairnessSentence } from "../compareText.js";
import { paintFor } from "../paintFor.js";
import { partialDifferenceData } from "../partialDifferenceLines.js";
import { printable } from "../printable.js";
import { sideTableData } from "../sideLines.js";
import { blocksOfText, chartBlock, findingBlocks, notedBlocks, WIDE } from "./blocks.js";
import { methodSection } from "./methodSection.js";
import type { ReportPage, ReportSection } from "./ReportPage.js";

/**
 * A comparison as a page: the verdict, every take, then each pair of sides, and what is unfair about it.
 *
 * @param alsoRead - files besides the recordings, such as the instrument's
 */
export function comparePage(document: CompareDocument, alsoRead: readonly string[] = []): ReportPage {
  const { sides, settings, findings, ranking } = document;
  const names = sides.map(({ name }) => printable(name));
  return {
    title: names.join(names.length === 2 ? " and " : ", "),
    subtitle: compareHeadLines(document, paintFor(false), WIDE).map(oneLine).join(" "),
    answer: compareAnswer(document),
    sections: [
      {
        heading: "Low part, take by take",
        blocks: [
          ...notedBlocks("The low part of every take", sideTableData(document)),
          ...(ranking.length === 0 ? [] : [chartBlock(takesChart(document))]),
        ],
      },
      ...sides.slice(1).flatMap(({ name }) => pairSections(document, name)),
      {
        heading: "Fairness",
        blocks: [...findingBlocks(findings), ...blocksOfText([fairnessSentence(document)])],
      },
      methodSection(
        "compare",
        document.toolVersion,
        sides.flatMap(({ files }) => files),
        settings,
        alsoRead,
      ),
    ],
  };
}

function pairSections(document: CompareDocument, sideB: string): ReportSection[] {
  const sideA = document.sides[0]!.name;
  const between = `${printable(sideA)} less ${printable(sideB)}`;
  const points = document.bodyCurveDifference.filter((one) => one.sideB === sideB);
  const others = document.measures.filter((one) => !one.primary && one.sideB === sideB).filter(isListed);
  return [
    {
      heading: `Other measures, ${between}`,
      blocks: [
        ...notedBlocks(`All measures but the low part, ${between}`, comparedMeasureData(document, sideB)),
        ...(others.some(({ unit }) => unit === "dB")
          ? [chartBlock(measuresChart(others, sideA, sideB))]
          : []),
      ],
    },
    {
      heading: `Body curve, ${between}`,
      blocks: [
        ...(points.length === 0 ? [] : [chartBlock(curveDifferenceChart(points, sideA, sideB))]),
        ...notedBlocks(`Difference of the body curves, ${between}`, bodyCurveDifferenceData(document, sideB)),
      ],
    },
    {
      heading: `Partials that differ most, ${between}`,
      blocks: notedBlocks(`Single partials, ${between}`, partialDifferenceData(document, sideB)),
    },
  ];
}

function oneLine(line: string): string {
  return line.trim();
}
