import type { ComparedSide, ComparisonFinding } from "./Comparison.js";
import { distinctTakes } from "./distinctTakes.js";
import type { TakeMeasures } from "./takeMeasures.js";

/** Why the low register of the takes says little: it can't be had, there is one take only, or takes are copies of each other. */
export function scatterFindings(
  sides: readonly ComparedSide[],
  perSide: readonly (readonly TakeMeasures[])[],
): ComparisonFinding[] {
  const namesWhere = (holds: (takes: readonly TakeMeasures[]) => boolean) =>
    sides.flatMap(({ name }, i) => (holds(perSide[i]) ? [name] : [])).join(", ");
  const told = (code: ComparisonFinding["code"], severity: ComparisonFinding["severity"], names: string) =>
    names === "" ? [] : [{ code, severity, values: { sides: names } }];
  return [
    ...told(
      "no-low-part",
      "problem",
      namesWhere((takes) => !takes.every(hasLowPart)),
    ),
    ...told(
      "one-take",
      "problem",
      namesWhere(({ length }) => length < 2),
    ),
    ...told(
      "no-scatter",
      "warning",
      namesWhere((takes) => distinctTakes(takes) < takes.length),
    ),
  ];
}

function hasLowPart({ measures }: TakeMeasures): boolean {
  return measures.some(({ measure, string }) => measure === "lowRegisterDb" && string === null);
}
