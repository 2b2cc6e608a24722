import { outlyingValue } from "../statistics/outlyingValue.js";
import type { ComparedSide, ComparisonFinding } from "./Comparison.js";
import type { TakeMeasures } from "./takeMeasures.js";

/** Takes whose low part stands apart from the others of their side: to be listened to. */
export function takesApart(
  sides: readonly ComparedSide[],
  perSide: readonly (readonly TakeMeasures[])[],
): ComparisonFinding[] {
  return sides.flatMap(({ name }, i): ComparisonFinding[] => {
    const values = perSide[i].flatMap(({ measures }) =>
      measures
        .filter(({ measure, string }) => measure === "lowRegisterDb" && string === null)
        .map(({ value }) => value),
    );
    const apart = values.length === perSide[i].length ? outlyingValue(values) : null;
    if (apart === null) return [];
    return [
      {
        code: "take-apart",
        severity: "warning",
        values: { side: name, take: apart + 1, takeCount: values.length, value: values[apart] },
      },
    ];
  });
}
