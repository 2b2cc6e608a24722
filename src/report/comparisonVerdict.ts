import type {
  Comparison,
  ComparisonFinding,
  ComparisonFindingCode,
  MeasureComparison,
} from "../comparison/Comparison.js";
import { roundedOutward } from "./intervalText.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";

const WEAKENING: readonly ComparisonFindingCode[] = [
  "low-cut-differs",
  "codecs-differ",
  "band-limit-differs",
  "noise-differs",
  "gain-control-used",
  "clipping-present",
  "tunings-differ",
  "no-scatter",
  "microphone-short",
];
const HELD = "these instruments, this player, room and microphone";

/**
 * The answer in plain words for each pair of sides, never more than the numbers carry: what was shown and how surely, or what
 * could have been missed and how many takes would do.
 *
 * @param equalGain - levels compare as well: only then is there "more" of anything
 */
export function comparisonVerdict({ measures, findings }: Comparison, equalGain: boolean): string[] {
  const weakening = findings.filter(({ code }) => WEAKENING.includes(code));
  return measures
    .filter(({ primary }) => primary)
    .map((primary) => {
      const level = measures.find(
        ({ measure, sideB }) => measure === "lowLevelDb" && sideB === primary.sideB,
      );
      const weakened = weakening.some((one) => concerns(one, primary))
        ? " What is said under Fairness weakens this."
        : "";
      return `${sentence(primary, equalGain ? (level ?? null) : null)}${weakened}`;
    });
}

/** What is unfair between two sides, or about one, says nothing against a pair of others. */
function concerns({ values }: ComparisonFinding, { sideA, sideB }: MeasureComparison): boolean {
  if (values.sideB !== undefined) return values.sideB === sideB;
  if (values.side !== undefined) return values.side === sideA || values.side === sideB;
  const { sides } = values;
  return typeof sides !== "string" || [sideA, sideB].some((name) => sides.includes(name));
}

function sentence(primary: MeasureComparison, level: MeasureComparison | null): string {
  const { verdict, difference, interval95, takesA, takesB } = primary;
  const a = printable(primary.sideA);
  const b = printable(primary.sideB);
  const size = Math.abs(difference).toFixed(1);
  const [larger, smaller] = difference >= 0 ? [a, b] : [b, a];
  const reads =
    size === "0.0"
      ? `The low parts of ${a} and ${b} read alike to 0.1 dB`
      : `The low part of ${larger} reads ${size} dB larger than that of ${smaller}`;
  if (takesA.length < 2 || takesB.length < 2) {
    return (
      `${reads}, but from ${takes(takesA.length, takesB.length)} ` +
      "nothing says whether that is the instrument or the placing. It proves nothing yet."
    );
  }
  if (interval95 === null) {
    return `${reads}; how surely can't be said, since the takes of a side don't differ at all.`;
  }
  if (verdict !== "not-shown") {
    const held = `${between(interval95)}, ${takes(takesA.length, takesB.length)}, ${HELD}`;
    return `${larger} has a larger low part than ${smaller} by ${size} dB (${held}).${moreWords(larger, difference, level)}`;
  }
  const [low, high] = roundedOutward(interval95, 1);
  return `No difference of the low part is shown between ${a} and ${b} (${signed(difference, 1)} dB, 95 % between ${signed(low, 1)} and ${signed(high, 1)}, ${takes(takesA.length, takesB.length)}).${aloneWords(interval95)}${missedWords(primary)}`;
}

/** With equal gain: whether the larger part is also more. */
function moreWords(larger: string, difference: number, level: MeasureComparison | null): string {
  if (level === null) return "";
  const isMore = level.verdict === (difference > 0 ? "a-higher" : "b-higher");
  const size = Math.abs(level.difference).toFixed(1);
  return isMore
    ? ` It is more low register too: ${larger} is ${size} dB louder there (${between(level.interval95)}), the recordings having one gain.`
    : " Whether it is more low register, and not only less of the rest, is not shown: the levels of the low part don't differ surely.";
}

/** Where the interval of one pair would show what all pairs together don't. */
function aloneWords([low, high]: readonly [number, number]): string {
  return low > 0 || high < 0
    ? " That interval is of this pair by itself; where several pairs are compared, a difference must stand out further to be shown."
    : "";
}

/** Of a difference that is shown, so that both ends lie on one side of 0. */
function between(interval95: readonly [number, number] | null): string {
  if (interval95 === null) return "how surely can't be said";
  const [low, high] = roundedOutward(interval95, 1)
    .map(Math.abs)
    .sort((x, y) => x - y);
  return `95 % between ${low.toFixed(1)} and ${high.toFixed(1)}`;
}

function missedWords({ smallestDetectable, takesForOneDb }: MeasureComparison): string {
  if (smallestDetectable === null) return "";
  const missed = ` With takes that scatter like these a difference of up to ${smallestDetectable.toFixed(1)} dB could well have been missed`;
  const more = smallestDetectable > 1 && takesForOneDb !== null;
  return more
    ? `${missed}; about ${takesForOneDb} takes a side would show 1 dB in four cases of five.`
    : `${missed}.`;
}

function takes(countA: number, countB: number): string {
  if (countA === countB) return countA === 1 ? "one take a side" : `${countA} takes a side`;
  return `${countA} and ${countB} takes`;
}
