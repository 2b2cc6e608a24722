import { valueAxis } from "./valueAxis.js";

/** Steps between two dates of an axis, in days. */
const STEPS = [1 / 24, 1 / 8, 1 / 4, 1 / 2, 1, 2, 7, 14, 28, 61, 91, 182, 365, 730, 1826, 3652];
/** A date takes so much of the width. */
const DATE_PIXELS = 110;
const MS_A_DAY = 86_400_000;

/**
 * An axis of dates.
 *
 * @param days - of all that is drawn, counted from 1970-01-01
 */
export function dayAxis(days: readonly number[], width: number) {
  const first = days.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const last = days.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const margin = Math.max(0.04 * (last - first), 0.02);
  const [min, max] = [first - margin, last + margin];
  const most = Math.max(2, Math.floor(width / DATE_PIXELS));
  const step = STEPS.find((one) => (max - min) / one <= most) ?? (max - min) / 2;
  const marks: number[] = [];
  for (let at = step * Math.ceil(min / step); at <= max; at += step) marks.push(at);
  const axis = valueAxis("", "x", {
    min,
    max,
    splitLine: { show: false },
    axisLabel: {
      ...valueAxis("", "x").axisLabel,
      customValues: marks,
      formatter: (at: number) => dateText(at, step < 1),
    },
  });
  return { axis, min, max };
}

function dateText(days: number, hasTime: boolean): string {
  const iso = new Date(Math.round(days * 1440) * (MS_A_DAY / 1440)).toISOString();
  return hasTime ? iso.slice(5, 16).replace("T", " ") : iso.slice(0, 10);
}
