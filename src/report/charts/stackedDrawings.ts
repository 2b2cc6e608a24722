import { displayWidth } from "../displayWidth.js";
import { printable } from "../printable.js";
import { shorten } from "../shorten.js";
import { chartColours } from "./chartColours.js";

const TOP_PIXELS = 36;
/** Between two drawings, for the name of the lower one. */
const GAP_PIXELS = 36;
/** Below the last one, for its axis and the axis' name. */
const BOTTOM_PIXELS = 58;
const RIGHT_PIXELS = 24;
/** Letters of a name, bold, and of what stands beside it. */
const NAME_LETTER_PIXELS = 9.5;
const ASIDE_LETTER_PIXELS = 8;
const LONGEST_NAME = 60;

/**
 * Drawings one under the other that share what is across, each under its name; the axis across is labelled at the last one only.
 *
 * @param asides - what stands at the right of each name: the unit of what goes up, and more
 * @param drawingPixels - height of each
 */
export function stackedDrawings(names: readonly string[], asides: readonly string[], drawingPixels: number) {
  const stepPixels = drawingPixels + GAP_PIXELS;
  const topOf = (i: number) => TOP_PIXELS + i * stepPixels;
  return {
    height: TOP_PIXELS + stepPixels * names.length - GAP_PIXELS + BOTTOM_PIXELS,
    /** Names and places, for a width of the whole in pixels. */
    placed: (width: number) => ({
      title: names.flatMap((name, i) => {
        const aside = asides[i] ?? "";
        return [
          {
            text: shorten(printable(name), lettersLeft(width, aside)),
            left: 40,
            top: topOf(i) - 25,
            textStyle: { fontSize: 14, color: chartColours.ink.light },
          },
          {
            text: aside,
            right: RIGHT_PIXELS,
            top: topOf(i) - 25,
            textStyle: { fontSize: 13, fontWeight: "normal", color: chartColours.faint.light },
          },
        ];
      }),
      grid: names.map((_, i) => ({
        outerBoundsMode: "none",
        left: 44,
        right: RIGHT_PIXELS,
        top: topOf(i),
        height: drawingPixels,
      })),
    }),
    /** The axis across, once for each drawing. */
    across: <Axis extends object>(axis: Axis) =>
      names.map((_, i) => ({
        ...axis,
        gridIndex: i,
        ...(i < names.length - 1 && { name: "", axisLabel: { show: false } }),
      })),
    /** What puts a series or an axis into drawing `i`. */
    inDrawing: (i: number) => ({ xAxisIndex: i, yAxisIndex: i }),
  };
}

/** Letters of a name that fit beside what stands at its right. */
function lettersLeft(width: number, aside: string): number {
  const pixels = width - 40 - RIGHT_PIXELS - ASIDE_LETTER_PIXELS * displayWidth(aside) - 12;
  return Math.min(LONGEST_NAME, Math.floor(pixels / NAME_LETTER_PIXELS));
}
