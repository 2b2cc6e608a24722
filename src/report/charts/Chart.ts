import type { EChartsCoreOption } from "echarts/core";

/** A picture to be drawn at one width or another. */
export interface Chart {
  readonly title: string;
  /** What can be seen in it, for those who don't see it and as a caption. */
  readonly description: string;
  /** Height in pixels at a width. */
  readonly height: (width: number) => number;
  /** What the chart library is to draw at a width. */
  readonly option: (width: number) => EChartsCoreOption;
  /** SVG that lies under the drawing; `id` begins the names of its parts. */
  readonly backdrop?: (width: number, id: string) => string;
}
