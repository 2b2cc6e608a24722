import type { MeasureOptions } from "./MeasureOptions.js";
import type { TakeTargets } from "./takeTargets.js";

/** How a take is to be read by what was chosen; the turns of the wheel and the progress are added to it. */
export function measureOptionsOf({
  targets,
  settings,
}: Pick<TakeTargets, "targets" | "settings">): MeasureOptions {
  const { a4Hz, lowEdgeHz, order, sounding, anchor } = settings;
  return {
    targets,
    a4Hz,
    lowEdgeHz,
    ...(order !== null && { order }),
    ...(sounding !== null && { sounding }),
    ...(anchor !== null && { anchor }),
  };
}
