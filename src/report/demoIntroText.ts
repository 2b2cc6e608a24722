import { sheetWidth } from "./sheetWidth.js";
import { wrapText } from "./wrapText.js";

/** What `demo` says before its measuring sheet. */
export function demoIntroText(width = 80): string {
  const lines = wrapText(
    "This is a demonstration. The instrument and its maker are invented, and the take is synthesised: nobody " +
      "played it and no such instrument exists. It has faults put into it so that every part of the sheet has " +
      "something to show. To measure a recording of your own: gurdybench measure TAKE.wav",
    sheetWidth(width),
  );
  return `${lines.join("\n")}\n\n`;
}
