import { BarChart, CustomChart, LineChart, ScatterChart } from "echarts/charts";
import { GridComponent, LegendComponent, MarkLineComponent, TitleComponent } from "echarts/components";
import { type EChartsCoreOption, init, use } from "echarts/core";
import { SVGRenderer } from "echarts/renderers";
import { escapeHtml } from "../html/escapeHtml.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";

use([
  BarChart,
  CustomChart,
  GridComponent,
  LegendComponent,
  LineChart,
  MarkLineComponent,
  ScatterChart,
  SVGRenderer,
  TitleComponent,
]);

/**
 * Draws a chart as SVG text, without a browser.
 *
 * @param width - in pixels; the text in it keeps its size, so a phone needs a drawing of its own
 * @param id - parts of the drawing are called by it; another one for each drawing of a page
 */
export function chartSvg(chart: Chart, width: number, id: string): string {
  const height = chart.height(width);
  const drawing = init(null, null, { renderer: "svg", ssr: true, width, height });
  const option: EChartsCoreOption = {
    animation: false,
    backgroundColor: "transparent",
    textStyle: { fontFamily: "inherit", fontSize: 13, color: chartColours.ink.light },
    ...chart.option(width),
  };
  drawing.setOption(option);
  const svg = drawing.renderToSVGString();
  drawing.dispose();
  const whole = chart.backdrop === undefined ? svg : svg.replace(">", `>${chart.backdrop(width, id)}`);
  return labelled(withVariables(whole).replaceAll(/\bzr\d+-/g, `${id}-`), chart);
}

function withVariables(svg: string): string {
  return Object.values(chartColours).reduce(
    (text, { variable, light }) => text.replaceAll(new RegExp(light, "gi"), `var(${variable})`),
    svg,
  );
}

function labelled(svg: string, { title, description }: Chart): string {
  const label = escapeHtml(`${title}. ${description}`);
  return svg.replace("<svg ", `<svg role="img" aria-label="${label}" `);
}
