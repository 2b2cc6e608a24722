import type { WheelDocument } from "../wheel/wheelDocumentSchema.js";
import { roundedOutward } from "./intervalText.js";
import { printable } from "./printable.js";
import type { TableData } from "./textTable.js";

type PassageDocument = WheelDocument["passages"][number];

/** One line for each passage: what turns, how fast, and how far pitch and level swing. */
export function wheelPassageTable(passages: readonly PassageDocument[]): TableData {
  const swing = ({ swing, interval95 }: PassageDocument["pitch"], digits: number) => {
    if (swing === null) return "none shown";
    if (interval95 === null) return swing.toFixed(digits);
    const [low, high] = roundedOutward(interval95, digits);
    return `${swing.toFixed(digits)} (${low.toFixed(digits)}-${high.toFixed(digits)})`;
  };
  return {
    columns: [
      { heading: ["seconds"], align: "left" },
      { heading: ["strings"], align: "left" },
      { heading: ["turns", "a second"], align: "right" },
      { heading: ["pitch, cents", "(95 % sure)"], align: "right" },
      { heading: ["level, dB", "(95 % sure)"], align: "right" },
    ],
    rows: passages.map((passage) => [
      `${passage.startSeconds.toFixed(0)}-${passage.endSeconds.toFixed(0)}`,
      passage.strings.map(({ name }) => printable(name)).join(" ") || "-",
      passage.turnsPerSecond === null
        ? passage.refusal === "too-short"
          ? "too short"
          : "none shown"
        : passage.turnsPerSecond.toFixed(2),
      passage.turnsPerSecond === null ? "-" : swing(passage.pitch, 1),
      passage.turnsPerSecond === null ? "-" : swing(passage.level, 1),
    ]),
  };
}
