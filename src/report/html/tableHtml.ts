import { displayWidth } from "../displayWidth.js";
import { escapeHtml } from "./escapeHtml.js";
import type { ReportBlock } from "./ReportPage.js";

type Table = Extract<ReportBlock, { kind: "table" }>;

/** What a table may take side by side on a phone, in pixels: of a letter, in a wide font, and beside a column. */
const PHONE_PIXELS = 354;
const LETTER_PIXELS = 8.1;
const BESIDE_PIXELS = 7;
/** Longest cell, in letters, that has room in one of three columns of a card, and in two. */
const CARD_LETTERS = { one: 14, two: 30 } as const;

/**
 * A table. One that is too wide for a phone is set as cards there, a card for each row, each cell with the heading of its column: by style alone, so
 * that it is the same table on paper, in a copy and to a screen reader; the roles are written out since not every browser keeps them when the style
 * makes something else of a table.
 *
 * @param sectionHeading - regions of a page are told apart by their names: two takes have a table each by the same caption
 */
export function tableHtml({ caption, columns, rows }: Table, sectionHeading: string): string {
  const widest = columns.map(({ heading }, c) => ({
    cell: Math.max(0, ...rows.map((row) => displayWidth(row[c] ?? ""))),
    word: Math.max(...heading.split(" ").map(displayWidth)),
  }));
  const pixels = widest.map(({ cell, word }) => LETTER_PIXELS * Math.max(cell, word) + BESIDE_PIXELS);
  const isCards = pixels.reduce((sum, one) => sum + one, 0) > PHONE_PIXELS;
  const classOf = (column: number, ...more: readonly string[]) => {
    const names = [...(columns[column]?.align === "right" ? ["number"] : []), ...more];
    return names.length === 0 ? "" : ` class="${names.join(" ")}"`;
  };
  const labels = labelsOf(columns.map(({ heading }) => heading));
  const head = columns
    .map(({ heading }, c) =>
      heading === ""
        ? `<td role="cell"></td>`
        : `<th scope="col" role="columnheader"${classOf(c)}>${escapeHtml(heading)}</th>`,
    )
    .join("");
  const body = rows.map((row) => {
    const cells = row.map((cell, c) => {
      const label = isCards && labels[c] !== "" ? ` data-label="${escapeHtml(labels[c] ?? "")}"` : "";
      const text = escapeHtml(cell);
      return c === 0
        ? `<th scope="row" role="rowheader"${classOf(c)}${label}>${text}</th>`
        : `<td role="cell"${classOf(c, ...(isCards ? spanOf(widest[c]?.cell ?? 0) : []))}${label}>${text}</td>`;
    });
    return `<tr role="row">${cells.join("")}</tr>`;
  });
  const label = escapeHtml(`${sectionHeading}: ${caption}`);
  return `<div class="scroll" tabindex="0" role="region" aria-label="${label}"><table role="table"${isCards ? ' class="cards"' : ""}><caption><span>${escapeHtml(caption)}</span></caption>
<thead role="rowgroup"><tr role="row">${head}</tr></thead>
<tbody role="rowgroup">${body.join("\n")}</tbody></table></div>`;
}

/**
 * Headings as they stand over single cells, short. One that several columns have is told apart by that of the column it belongs to, unless
 * it stands right behind it.
 */
function labelsOf(headings: readonly string[]): string[] {
  const isRepeated = (heading: string) => headings.filter((one) => one === heading).length > 1;
  return headings.map((heading, c) => {
    const short = heading === "95 % sure between" ? "95 % sure" : heading;
    const before = headings.slice(0, c);
    const own = before.filter((one) => !isRepeated(one)).at(-1);
    const isFar = own !== undefined && own !== before.at(-1);
    return heading !== "" && isRepeated(heading) && isFar ? `${own}: ${short}` : short;
  });
}

/** How many of a card's columns the longest cell needs. */
function spanOf(letters: number): string[] {
  return letters <= CARD_LETTERS.one ? [] : [letters <= CARD_LETTERS.two ? "two" : "whole"];
}
