import { printable } from "../printable.js";
import { shorten } from "../shorten.js";
import { chartColours } from "./chartColours.js";

const TOP_PIXELS = 36;
/** Between two drawings, for the name of the lower one. */
const GAP_PIXELS = 36;
/** Below the last one, for its axis and the axis' name. */
const BOTTOM_PIXELS = 58;

/**
 * Drawings one under the other that share what is across, each under its name; the axis across is labelled at the last one only.
 *
 * @param unit - of what goes up, told beside the first name
 * @param drawingPixels - height of each
 */
export function stackedDrawings(names: readonly string[], unit: string, drawingPixels: number) {
  const stepPixels = drawingPixels + GAP_PIXELS;
  const topOf = (i: number) => TOP_PIXELS + i * stepPixels;
  return {
    height: TOP_PIXELS + stepPixels * names.length - GAP_PIXELS + BOTTOM_PIXELS,
    /** Names and places, for a width of the whole in pixels. */
    placed: (width: number) => ({
      title: names.map((name, i) => ({
        text: `${shorten(printable(name), width < 500 ? 26 : 60)}${i === 0 ? `, ${unit}` : ""}`,
        left: 40,
        top: topOf(i) - 25,
        textStyle: { fontSize: 14, color: chartColours.ink.light },
      })),
      grid: names.map((_, i) => ({
        outerBoundsMode: "none",
        left: 44,
        right: 24,
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
