import { isMap, isSeq, type ToStringOptions, visit } from "yaml";
import { onOneLine } from "./onOneLine.js";
import type { OpenInstrument } from "./openInstrument.js";

/** The text of an instrument file after its document was changed, laid out like the text it was read from. */
export function printInstrument(yamlText: string, { document }: OpenInstrument): string {
  const printed = document.toString({ ...onOneLine, ...layoutOf(yamlText, document) });
  // An empty comment of a text with such line ends holds the first half of one.
  const mark = yamlText.startsWith("\uFEFF") ? "\uFEFF" : "";
  return mark + (yamlText.includes("\r\n") ? printed.replace(/\r*\n/g, "\r\n") : printed);
}

/** How far lists are moved in, and whether blanks stand within braces. */
function layoutOf(yamlText: string, document: OpenInstrument["document"]): ToStringOptions {
  let indent = 2;
  let indentSeq = true;
  let flowCollectionPadding = true;
  visit(document, {
    Collection: (_key, node) => {
      const [start] = node.range ?? [];
      if (start === undefined) return;
      if (node.flow) {
        if (isMap(node) && /\S/.test(yamlText[start + 1] ?? " ")) flowCollectionPadding = false;
      } else if (isSeq(node)) {
        const column = start - (yamlText.lastIndexOf("\n", start - 1) + 1);
        indentSeq = column > 0;
        if (column > 0 && column <= 8) indent = column;
      }
    },
  });
  return { indent, indentSeq, flowCollectionPadding };
}
