import { expect, it } from "vitest";
import { demoMeasured } from "../../../fixtures/demoMeasured.js";
import { pitchChart } from "../../../src/report/charts/pitchChart.js";

it("shows each string over the time that it sounds, its passages one after another", () => {
  const { pictured } = demoMeasured("0.1.0");
  const [one, other] = pictured[0]!.strings.filter(({ perPassage }) => perPassage.length > 0);
  const passage = one!.perPassage[0]!;
  const twice = {
    ...one!,
    perPassage: [
      passage,
      { ...passage, startSeconds: passage.startSeconds + 300, endSeconds: passage.endSeconds + 300 },
    ],
  };
  const { series, xAxis } = pitchChart([twice, other!]).option(700) as {
    series: { data: [number, number | string][] }[];
    xAxis: { max: number }[];
  };
  const sounding = passage.endSeconds - passage.startSeconds;
  expect(xAxis[0]!.max).toBeGreaterThanOrEqual(2 * sounding);
  expect(xAxis[0]!.max).toBeLessThan(2.2 * sounding);
  const [course, single] = series.map(({ data }) => data);
  // A mark parts the two passages; nothing of either is left out.
  expect(course!.filter(([, cents]) => cents === "-")).toHaveLength(2);
  expect(Math.max(...course!.map(([seconds]) => seconds))).toBeLessThanOrEqual(xAxis[0]!.max);
  expect(single!.filter(([, cents]) => cents === "-")).toHaveLength(1);
  const mean = course!.flatMap(([, cents]) => (typeof cents === "number" ? [cents] : []));
  // What is drawn has the mean that is told; the ends of a passage weigh a little less.
  expect(mean.reduce((sum, cents) => sum + cents, 0) / mean.length).toBeCloseTo(one!.deviationCents!, 0);
}, 60_000);
