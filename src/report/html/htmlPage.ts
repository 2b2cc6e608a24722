import { chartSvg } from "../charts/chartSvg.js";
import { escapeHtml } from "./escapeHtml.js";
import { pageStyle } from "./pageStyle.js";
import type { ReportBlock, ReportPage, ReportSection } from "./ReportPage.js";
import { tableHtml } from "./tableHtml.js";

const WIDE_PIXELS = 700;
const NARROW_PIXELS = 350;
const severityWords = { problem: "problem", warning: "warning", info: "note" } as const;

/**
 * The page as one file: nothing is loaded and nothing runs; every text in it is escaped. Each chart is drawn twice, for a desk
 * (and paper) and for a phone, so that its letters can be read on both.
 */
export function htmlPage({ title, subtitle, answer, sections }: ReportPage): string {
  const filled = sections.filter(({ blocks }) => blocks.length > 0);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width,initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<meta name="generator" content="gurdybench">
<title>${escapeHtml(title)}</title>
<style>${pageStyle}</style>
</head>
<body>
<header>
<h1>${escapeHtml(title)}</h1>
<p class="about">${escapeHtml(subtitle)}</p>
</header>
<main>
<div class="answer">
${answer.map((sentence) => `<p>${escapeHtml(sentence)}</p>`).join("\n")}
</div>
${filled.map(sectionHtml).join("\n")}
</main>
<footer>
<p>Made by Gurdybench from the files named above. A measurement informs a judgement at the bench; it does not replace it.</p>
</footer>
</body>
</html>
`;
}

function sectionHtml({ heading, blocks }: ReportSection, index: number): string {
  const id = `s${index + 1}`;
  return `<section aria-labelledby="${id}">
<h2 id="${id}">${escapeHtml(heading)}</h2>
${blocks.map((block, i) => blockHtml(block, heading, `${id}b${i}`)).join("\n")}
</section>`;
}

function blockHtml(block: ReportBlock, heading: string, id: string): string {
  switch (block.kind) {
    case "text":
      return `<p>${escapeHtml(block.text)}</p>`;
    case "list": {
      const tag = block.isNumbered ? "ol" : "ul";
      return `<${tag}>${block.items.map((item) => `<li>${escapeHtml(item)}</li>`).join("")}</${tag}>`;
    }
    case "table":
      return tableHtml(block, heading);
    case "chart": {
      const { title, description } = block.chart;
      const wide = chartSvg(block.chart, WIDE_PIXELS, `${id}w`);
      const narrow = chartSvg(block.chart, NARROW_PIXELS, `${id}n`);
      return figureHtml(
        `<div class="wide">${wide}</div><div class="narrow">${narrow}</div>`,
        title,
        description,
      );
    }
    case "findings":
      return block.findings
        .map(
          ({ severity, message }) =>
            `<p class="finding ${severity}"><b>${severityWords[severity]}</b> ${escapeHtml(message)}</p>`,
        )
        .join("\n");
  }
}

function figureHtml(picture: string, title: string, description: string): string {
  return `<figure>${picture}<figcaption><b>${escapeHtml(title)}.</b> ${escapeHtml(description)}</figcaption></figure>`;
}
