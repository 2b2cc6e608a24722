import type { KeyboardDocument } from "../../keyboard/keyboardDocumentSchema.js";
import { bodyLines } from "../bodyLines.js";
import { bodyCurveChart } from "../charts/bodyCurveChart.js";
import { keyDifferenceChart } from "../charts/keyDifferenceChart.js";
import { keysChart } from "../charts/keysChart.js";
import { keyHeadLines, keyTerms } from "../keyboardText.js";
import { keyDifferenceData } from "../keyDifferenceLines.js";
import { keyTableData } from "../keyLines.js";
import { printable } from "../printable.js";
import { blocksOfText, chartBlock, findingBlocks, tableBlock, WIDE } from "./blocks.js";
import { methodSection } from "./methodSection.js";
import type { ReportBlock, ReportPage } from "./ReportPage.js";

type ScaleDocument = NonNullable<KeyboardDocument["other"]>;

/**
 * The sheet of a keyboard as a page: what to do in the order of work, every key, the keys as pictures.
 *
 * @param alsoRead - files besides the recordings, such as the instrument's
 */
export function keyboardPage(document: KeyboardDocument, alsoRead: readonly string[] = []): ReportPage {
  const { other, differences, keys, bodyCurve } = document;
  const name = printable(document.string);
  const otherName = printable(other?.string ?? "");
  return {
    title: `Keyboard: ${name}${other === null ? "" : ` and ${otherName}`}`,
    subtitle: [
      ...(document.instrument === null
        ? []
        : [
            `${document.settings.tuning === null ? "Instrument" : "Tuning"}: ${printable(document.instrument)}.`,
          ]),
      `A4 = ${document.settings.a4Hz} Hz.`,
      ...keyHeadLines(document, document, WIDE),
      ...(other === null ? [] : keyHeadLines(document, other, WIDE)),
    ].join(" "),
    answer: document.inShort,
    sections: [
      { heading: `Keys of ${name}`, blocks: scaleBlocks(document) },
      ...(other === null
        ? []
        : [
            { heading: `Keys of ${otherName}`, blocks: scaleBlocks(other) },
            {
              heading: `${name} against ${otherName}`,
              blocks:
                differences.length === 0
                  ? []
                  : [
                      tableBlock("Keys that both strings have", keyDifferenceData(document)),
                      chartBlock(
                        keyDifferenceChart(
                          differences,
                          document.string,
                          other.string,
                          document.commonDifferenceCents ?? 0,
                        ),
                      ),
                    ],
            },
          ]),
      {
        heading: "The body, as these keys show it",
        blocks: [
          ...(keys.length === 0 ? [] : blocksOfText(bodyLines(document, WIDE, true))),
          ...(bodyCurve.length === 0 ? [] : [chartBlock(bodyCurveChart(bodyCurve, null))]),
        ],
      },
      { heading: "Cautions", blocks: findingBlocks(document.findings) },
      { heading: `Cautions for ${otherName}`, blocks: findingBlocks(other?.findings ?? []) },
      { heading: "What the words mean", blocks: keys.length === 0 ? [] : blocksOfText([keyTerms]) },
      methodSection(
        "keyboard",
        document.toolVersion,
        [document.file, ...(other === null ? [] : [other.file])],
        {
          string: document.string,
          otherString: other?.string ?? null,
          lengthMm: document.lengthMm,
          ...document.settings,
        },
        alsoRead,
      ),
    ],
  };
}

function scaleBlocks(scale: ScaleDocument): ReportBlock[] {
  if (scale.keys.length === 0) return [];
  const { columns, rows } = keyTableData(scale);
  return [
    tableBlock(`Every key of ${printable(scale.string)}, from the nut on`, { columns, rows }),
    chartBlock(keysChart(scale)),
  ];
}
