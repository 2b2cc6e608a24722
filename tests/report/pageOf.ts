import { expect } from "vitest";
import type { Chart } from "../../src/report/charts/Chart.js";
import { htmlPage } from "../../src/report/html/htmlPage.js";
import type { ReportPage } from "../../src/report/html/ReportPage.js";

/** Names that would be run, would end an attribute, or would steer a terminal. */
export const HOSTILE = "<script>alert(1)</script>";
export const QUOTES = "\"'><img src=x onerror=alert(1)>\u202e";

/**
 * The page as HTML, after looking at what every page must have: it loads and runs nothing, its headings and tables can be found
 * their way in without eyes, and each picture, wide and narrow, has its text.
 */
export function pageOf(page: ReportPage): string {
  const html = htmlPage(page);
  expect(html).toMatch(/^<!doctype html>\n<html lang="en">/);
  expect(html).not.toMatch(/<(script|iframe|link|object|embed|form)\b/i);
  // What stands between quotes is text.
  expect(html.replaceAll(/"[^"]*"/g, '""')).not.toMatch(/<[^>]*\s(on\w+|src)=/i);
  expect(html.replaceAll("http://www.w3.org/", "")).not.toMatch(/https?:/);
  expect(html).not.toContain("\u202e");
  // An SVG number that could not be worked out.
  expect(html).not.toMatch(/\b(NaN|undefined|Infinity)\b/);
  const ids = [...html.matchAll(/\sid="([^"]*)"/g)].map(([, id]) => id);
  expect(new Set(ids).size).toBe(ids.length);
  const charts = page.sections.flatMap(({ blocks }) =>
    blocks.flatMap((block) => (block.kind === "chart" ? [block.chart] : [])),
  );
  const labels = [...html.matchAll(/<svg role="img" aria-label="([^"]+)"/g)].map(([, label]) => label);
  expect(labels).toHaveLength(2 * charts.length);
  expect(html.match(/<figcaption>/g) ?? []).toHaveLength(charts.length);
  for (const { title, description } of charts) {
    expect(title).not.toBe("");
    expect(description.length).toBeGreaterThan(40);
  }
  expect(html.match(/<table /g) ?? []).toHaveLength((html.match(/<caption>/g) ?? []).length);
  expect(page.answer.length).toBeGreaterThan(0);
  expect(html.indexOf('class="answer"')).toBeLessThan(html.indexOf("<h2"));
  return html;
}

/** Pairs of numbers that the series of a chart are drawn from, of one kind. */
export function dataOf(chart: Chart, type: "scatter" | "line" | "custom", width = 700): number[][][] {
  const { series } = chart.option(width) as {
    series: { type: string; data: (number[] | { value: number[] })[] }[];
  };
  return series
    .filter((one) => one.type === type && one.data.length > 0)
    .map(({ data }) => data.map((point) => (Array.isArray(point) ? point : point.value)));
}
