import type { ComparedSide, ComparisonFinding } from "./Comparison.js";
import type { TakeMeasures } from "./takeMeasures.js";

/** Copies, made louder or converted, agree that closely in all bands; newly placed takes never do (our policy). */
const COPIES_WITHIN_DB = 0.01;

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
    ...told("no-scatter", "warning", namesWhere(holdsCopies)),
  ];
}

function hasLowPart({ measures }: TakeMeasures): boolean {
  return measures.some(({ measure, string }) => measure === "lowRegisterDb" && string === null);
}

/** True where two takes are one and the same, which makes their side look surer than it is. */
function holdsCopies(takes: readonly TakeMeasures[]): boolean {
  const shares = takes.map(
    ({ measures }) =>
      new Map(
        measures
          .filter(({ measure, string }) => string === null && /^(lowRegister|octave\d+)Db$/.test(measure))
          .map(({ measure, value }) => [measure, value]),
      ),
  );
  return shares.some((one, i) =>
    shares
      .slice(0, i)
      .some(
        (other) =>
          one.size === other.size &&
          one.size > 0 &&
          [...one].every(
            ([measure, value]) => Math.abs(value - (other.get(measure) ?? Number.NaN)) < COPIES_WITHIN_DB,
          ),
      ),
  );
}
