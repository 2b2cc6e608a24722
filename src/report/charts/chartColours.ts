/**
 * Colours of the charts, told apart by people who see red and green alike (Okabe & Ito 2008; from memory), in a shade for
 * light paper and one for dark. Charts are drawn with the first; `chartSvg` puts a style variable in its place, so that the
 * page decides. What carries a meaning stands 3 to 1 against the page (WCAG 2.1, 1.4.11), but for the rules of grids and the inside of
 * bands, which have an edge. None carries a meaning alone: lines differ in dash, points in shape.
 */
export const chartColours = {
  ink: { variable: "--ink", light: "#23211d", dark: "#ece7dd" },
  faint: { variable: "--faint", light: "#6b665d", dark: "#aaa397" },
  rule: { variable: "--rule", light: "#ddd6c9", dark: "#454038" },
  paper: { variable: "--paper", light: "#fbfaf7", dark: "#1e1c19" },
  accent: { variable: "--accent", light: "#7a4a21", dark: "#d9a878" },
  band: { variable: "--band", light: "#ead9c6", dark: "#4b3a2a" },
  bandEdge: { variable: "--edge", light: "#9b7a58", dark: "#a98a6a" },
  first: { variable: "--c1", light: "#0067a3", dark: "#6cbcf0" },
  second: { variable: "--c2", light: "#b84a00", dark: "#f2935c" },
  third: { variable: "--c3", light: "#00785a", dark: "#3fc79f" },
  fourth: { variable: "--c4", light: "#9c4c7d", dark: "#dd9cc2" },
  fifth: { variable: "--c5", light: "#8a6100", dark: "#e3b04b" },
  sixth: { variable: "--c6", light: "#4a5aa8", dark: "#a3b0f0" },
  seventh: { variable: "--c7", light: "#5b5b5b", dark: "#bdbdbd" },
} as const;

/** Colours of strings or sides, in their order; they come again after the seventh. */
export const seriesColours: readonly string[] = [
  chartColours.first,
  chartColours.second,
  chartColours.third,
  chartColours.fourth,
  chartColours.fifth,
  chartColours.sixth,
  chartColours.seventh,
].map(({ light }) => light);

/** Shapes of their points. */
export const seriesSymbols = ["circle", "rect", "triangle", "diamond", "roundRect", "pin", "arrow"] as const;

/** Dashes of their lines. */
export const seriesDashes = ["solid", "dashed", "dotted", [8, 3, 2, 3], [2, 5], [12, 4], "solid"] as const;
