import type { TakeReading } from "../reading/TakeReading.js";
import type { ComparedSide, ComparisonFinding } from "./Comparison.js";

type FindingCode = TakeReading["findings"][number]["code"];

/** Tunings further apart than this move partials along the body's curve: another comparison. Our policy, as all of these. */
const TUNING_CENTS = 5;
/** A low cut further apart than this share, or on one side alone, is a difference of the microphones. */
const CUTOFF_SHARE = 1.2;
/** Upper limits further apart than this share, or on one side alone, come of different codecs or recorders. */
const LIMIT_SHARE = 1.1;
const NOISE_DB = 10;

/**
 * What makes a comparison unfair: differences between the sides that are not the instruments'. Each is told, with its
 * numbers, and weakens the verdict.
 *
 * @param common - the sounds that count
 */
export function fairnessFindings(
  sides: readonly ComparedSide[],
  common: readonly (readonly string[])[],
): ComparisonFinding[] {
  const [first, ...others] = sides;
  return [
    ...others.flatMap((other) => betweenTwo(first, other, new Set(common.flat()))),
    ...sides.flatMap(ofOne),
  ];
}

function betweenTwo(a: ComparedSide, b: ComparedSide, strings: ReadonlySet<string>): ComparisonFinding[] {
  const findings: ComparisonFinding[] = [];
  const names = { sideA: a.name, sideB: b.name };
  const rates = [a, b].map(({ takes }) => [...new Set(takes.map(({ sampleRateHz }) => sampleRateHz))].sort());
  if (rates[0].join() !== rates[1].join()) {
    findings.push({
      code: "sample-rates-differ",
      severity: "info",
      values: { ...names, ratesA: rates[0].join(", "), ratesB: rates[1].join(", ") },
    });
  }
  const [cutA, cutB] = [a, b].map(({ takes }) => largest(takes, "high-pass", "cutoffHz"));
  if ((cutA ?? 0) > CUTOFF_SHARE * (cutB ?? 0) || (cutB ?? 0) > CUTOFF_SHARE * (cutA ?? 0)) {
    findings.push({
      code: "low-cut-differs",
      severity: "warning",
      values: {
        ...names,
        ...(cutA !== null && { cutoffHzA: cutA }),
        ...(cutB !== null && { cutoffHzB: cutB }),
      },
    });
  } else if (cutA !== null && cutB !== null) {
    const [cutTakesA, cutTakesB] = [a, b].map(({ takes }) => valuesOf(takes, "high-pass", "cutoffHz").length);
    if (cutTakesA * b.takes.length !== cutTakesB * a.takes.length) {
      findings.push({
        code: "low-cut-differs",
        severity: "warning",
        values: { ...names, cutTakesA, cutTakesB },
      });
    }
  }
  const [codecsA, codecsB] = [a, b].map(lossyCodecs);
  if (codecsA !== codecsB) {
    findings.push({ code: "codecs-differ", severity: "warning", values: { ...names, codecsA, codecsB } });
  }
  findings.push(...bandLimitFindings(a, b));
  const [noiseA, noiseB] = [a, b].map(({ takes }) => mean(takes, "noise-floor", "noteToNoiseDb"));
  if (noiseA !== null && noiseB !== null && Math.abs(noiseA - noiseB) > NOISE_DB) {
    findings.push({
      code: "noise-differs",
      severity: "warning",
      values: { ...names, noteToNoiseDbA: noiseA, noteToNoiseDbB: noiseB },
    });
  }
  const apart = [...strings]
    .map((string) => ({ string, cents: tuningOf(a, string) - tuningOf(b, string) }))
    .filter(({ cents }) => Math.abs(cents) > TUNING_CENTS)
    .sort((x, y) => Math.abs(y.cents) - Math.abs(x.cents));
  if (apart.length > 0) {
    findings.push({
      code: "tunings-differ",
      severity: "warning",
      values: {
        ...names,
        strings: apart.map(({ string }) => string).join(", "),
        largestCents: Math.abs(apart[0].cents),
        string: apart[0].string,
      },
    });
  }
  return findings;
}

/** The lossy codecs of a side's takes, by name; those without loss are alike. */
function lossyCodecs({ takes }: ComparedSide): string {
  const codecs = takes.map(({ findings }) => {
    const codec = findings.find(({ code }) => code === "lossy-codec")?.values.codec;
    return typeof codec === "string" ? codec : "without loss";
  });
  return [...new Set(codecs)].sort().join(" and ");
}

/** Goes by the lowest limit of a side: in a dull take the same limit may not show, so how many takes show it says little. */
function bandLimitFindings(a: ComparedSide, b: ComparedSide): ComparisonFinding[] {
  const [limitA, limitB] = [a, b].map(({ takes }) => {
    const values = valuesOf(takes, "band-limit", "cutoffHz");
    return values.length === 0 ? null : Math.min(...values);
  });
  if (limitA === null && limitB === null) return [];
  const isAlike =
    limitA !== null && limitB !== null && Math.max(limitA, limitB) <= LIMIT_SHARE * Math.min(limitA, limitB);
  if (isAlike) return [];
  const values = {
    sideA: a.name,
    sideB: b.name,
    ...(limitA !== null && { cutoffHzA: limitA }),
    ...(limitB !== null && { cutoffHzB: limitB }),
  };
  return [{ code: "band-limit-differs", severity: "warning", values }];
}

function ofOne({ name, takes }: ComparedSide): ComparisonFinding[] {
  const count = (code: FindingCode) =>
    takes.filter(({ findings }) => findings.some((one) => one.code === code)).length;
  return (
    [
      ["gain-control", "gain-control-used"],
      ["clipping", "clipping-present"],
    ] as const
  ).flatMap(([code, told]): ComparisonFinding[] => {
    const takeCount = count(code);
    return takeCount === 0 ? [] : [{ code: told, severity: "warning", values: { side: name, takeCount } }];
  });
}

/** Mean deviation of a string over a side's takes, in cents; NaN where it has none. */
function tuningOf({ takes }: ComparedSide, string: string): number {
  const known = takes.flatMap(({ strings }) =>
    strings.flatMap(({ name, deviationCents }) =>
      name === string && deviationCents !== null ? [deviationCents] : [],
    ),
  );
  return known.reduce((sum, value) => sum + value, 0) / known.length;
}

function valuesOf(takes: readonly TakeReading[], code: FindingCode, key: string): number[] {
  return takes.flatMap(({ findings }) =>
    findings.flatMap((one) => {
      const value = one.code === code ? one.values[key] : undefined;
      return typeof value === "number" ? [value] : [];
    }),
  );
}

function largest(takes: readonly TakeReading[], code: FindingCode, key: string): number | null {
  const values = valuesOf(takes, code, key);
  return values.length === 0 ? null : Math.max(...values);
}

function mean(takes: readonly TakeReading[], code: FindingCode, key: string): number | null {
  const values = valuesOf(takes, code, key);
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
}
