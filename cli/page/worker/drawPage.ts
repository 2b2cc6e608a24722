import type { ReportPage } from "../../../src/pages.js";
import type { DrawnPage } from "./Messages.js";

const WIDE_PIXELS = 700;
const NARROW_PIXELS = 350;

/** What draws charts; it comes in a part of its own, loaded once the first is wanted. */
export const loadPages = () => import("../../../src/pages.js");

/** Draws the charts of a page, each for a desk and for a phone. */
export async function drawPage(
  make: (pages: Awaited<ReturnType<typeof loadPages>>) => ReportPage,
): Promise<DrawnPage> {
  const pages = await loadPages();
  const { title, subtitle, answer, sections } = make(pages);
  return {
    title,
    subtitle,
    answer,
    sections: sections
      .filter(({ blocks }) => blocks.length > 0)
      .map(({ heading, blocks }, s) => ({
        heading,
        blocks: blocks.map((block, b) => {
          if (block.kind !== "chart") return block;
          const { title, description } = block.chart;
          return {
            kind: "chart",
            title,
            description,
            wideSvg: pages.chartSvg(block.chart, WIDE_PIXELS, `s${s}b${b}w`),
            narrowSvg: pages.chartSvg(block.chart, NARROW_PIXELS, `s${s}b${b}n`),
          };
        }),
      })),
  };
}
