import { targetNames } from "../instrument/targetNames.js";
import type { MeasureOptions } from "./MeasureOptions.js";

/**
 * The options with the names of strings as the targets have them.
 *
 * @throws AnalysisError `string-unknown`, `string-repeated`
 */
export function withKnownNames(options: MeasureOptions): MeasureOptions {
  const { order, sounding, anchor } = options;
  const targets = options.targets ?? [];
  return {
    ...options,
    ...(order && { order: targetNames("order", order, targets) }),
    ...(sounding && { sounding: targetNames("sounding", sounding, targets) }),
    ...(anchor !== undefined && { anchor: targetNames("anchor", [anchor], targets)[0] }),
  };
}
