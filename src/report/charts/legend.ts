import { displayWidth } from "../displayWidth.js";
import { chartColours } from "./chartColours.js";

const ROW_PIXELS = 25;
/** Of a letter, as wide as fonts have them. */
const LETTER_PIXELS = 7.3;
const GAP_PIXELS = 20;
/** Between a mark and its name. */
const MARK_GAP_PIXELS = 5;
const LEFT_PIXELS = 8;

/**
 * What the marks of a chart stand for, above its plot; the series are found by their names.
 *
 * @param width - of the whole drawing, in pixels
 * @param markPixels - of the mark before each name
 * @returns what the chart library is told, and the height that it takes
 */
export function legend(names: readonly string[], width: number, markPixels = 16) {
  let [rows, used] = [names.length === 0 ? 0 : 1, 0];
  for (const name of names) {
    const pixels = markPixels + MARK_GAP_PIXELS + LETTER_PIXELS * displayWidth(name);
    if (used > 0 && used + pixels > width - 2 * LEFT_PIXELS) [rows, used] = [rows + 1, 0];
    used += pixels + GAP_PIXELS;
  }
  return {
    pixels: ROW_PIXELS * rows,
    option: {
      top: 0,
      left: LEFT_PIXELS,
      selectedMode: false,
      itemWidth: markPixels,
      itemGap: GAP_PIXELS,
      textStyle: { color: chartColours.ink.light, fontSize: 13 },
      data: names.map((name) => ({ name })),
    },
  };
}
