import { sheetWidth } from "./sheetWidth.js";
import { wrapText } from "./wrapText.js";

/** What `demo compare` says before its comparison. */
export function demoCompareIntroText(width = 80): string {
  const lines = wrapText(
    "This is a demonstration. Three instruments of one tuning, with a short, a middle and a long scale, are invented, and so " +
      "are their takes: three of each, player and microphone placed anew for every one. To compare recordings of your own: " +
      "gurdybench compare --a FIRST-*.wav --b OTHER-*.wav --instrument FILE",
    sheetWidth(width),
  );
  return `${lines.join("\n")}\n\n`;
}
