import { median } from "../signal/median.js";
import type { FineStroke } from "./FineStroke.js";
import type { FineSpans } from "./fineSpans.js";

/** Strokes differ in strength at least so much, as a share, which keeps one band from counting for all. */
const OWN_SPREAD = 0.1;
/** So many silent frames show the level just before a stroke. */
const LEAST_LEVEL_FRAMES = 20;

/**
 * The bands of each stroke's fine course united: what stands above the silence, each band by what the first knocks add to it over how
 * much it scatters in silence (linear discriminant of independent bands, Fisher 1936).
 *
 * @returns one course a stroke, about 0 in the silence before it
 */
export function unitedBands(strokes: readonly FineStroke[], spans: readonly FineSpans[]): Float64Array[] {
  const bandCount = strokes[0].course.power.length;
  const bands = Array.from({ length: bandCount }, (_, b) => {
    let [sum, squares, frames, early, earlyFrames] = [0, 0, 0, 0, 0];
    for (const [i, { course }] of strokes.entries()) {
      const power = course.power[b];
      for (let k = spans[i].quiet[0]; k < spans[i].quiet[1]; k++) {
        sum += power[k];
        squares += power[k] ** 2;
        frames++;
      }
      for (let k = spans[i].early[0]; k < spans[i].early[1]; k++) {
        early += power[k];
        earlyFrames++;
      }
    }
    const silence = sum / frames;
    const added = early / earlyFrames - silence;
    const scatter = squares / frames - silence ** 2 + (OWN_SPREAD * added) ** 2;
    return { silence, weight: added > 0 && scatter > 0 ? added / scatter : 0 };
  });
  return strokes.map(({ course }, i) => {
    const united = new Float64Array(course.power[0].length);
    for (const [b, { silence, weight }] of bands.entries()) {
      if (weight > 0)
        for (let k = 0; k < united.length; k++) united[k] += weight * (course.power[b][k] - silence);
    }
    const [first, last] = spans[i].quiet;
    if (last - first < LEAST_LEVEL_FRAMES) return united;
    const level = median([...united.subarray(first, last)]);
    return united.map((value) => value - level);
  });
}
