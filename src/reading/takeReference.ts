import type { Finding } from "../audio/Finding.js";
import { commonOffset } from "../strings/commonOffset.js";
import { differenceInterval } from "../strings/differenceInterval.js";
import type { PairReading, StringReading } from "../strings/StringReading.js";
import type { MeasureOptions } from "./MeasureOptions.js";
import type { ReferencePitch } from "./TakeReading.js";

/** The pitch the instrument stands at, and the strings with what each is off from it. */
export interface TakeReference {
  readonly referencePitch: ReferencePitch | null;
  readonly strings: readonly StringReading[];
  readonly findings: readonly Finding[];
}

type Measured = StringReading & { readonly deviationCents: number };

/**
 * The reference pitch of a take: that of the anchor where one was named and read, else what the strings have in common
 * (see `commonOffset`); and every string's own error against it.
 *
 * @param pairs - of a pair that sounded together the interval is taken from the pair: a swing that both share cancels
 */
export function takeReference(
  strings: readonly StringReading[],
  pairs: readonly PairReading[],
  { anchor: name, a4Hz }: Pick<MeasureOptions, "anchor" | "a4Hz">,
): TakeReference {
  const anchor = name === undefined ? null : strings.find((string) => string.name === name);
  if (anchor && isMeasured(anchor)) {
    const { deviationCents: offsetCents, interval95Cents } = anchor;
    return {
      referencePitch: {
        a4Hz: a4Hz * 2 ** (offsetCents / 1200),
        offsetCents,
        interval95Cents,
        anchor: anchor.name,
      },
      strings: strings.map((string) => againstAnchor(string, anchor, pairs)),
      findings: [],
    };
  }
  const offset = commonOffset(strings.flatMap(({ deviationCents }) => deviationCents ?? []));
  const findings: Finding[] =
    name === undefined
      ? []
      : [
          {
            code: "anchor-not-heard",
            severity: "warning",
            values: { string: name, reason: anchor?.status === "unresolved" ? "unresolved" : "not-heard" },
          },
        ];
  if (offset === null) return { referencePitch: null, strings, findings };
  return {
    referencePitch: { a4Hz: a4Hz * 2 ** (offset.offsetCents / 1200), ...offset, anchor: null },
    strings: strings.map((string) =>
      isMeasured(string) ? { ...string, ownErrorCents: string.deviationCents - offset.offsetCents } : string,
    ),
    findings,
  };
}

function isMeasured(string: StringReading): string is Measured {
  return string.status === "measured" && string.deviationCents !== null;
}

function againstAnchor(
  string: StringReading,
  anchor: Measured,
  pairs: readonly PairReading[],
): StringReading {
  if (string === anchor) return { ...string, ownErrorCents: 0, ownErrorInterval95Cents: [0, 0] };
  if (!isMeasured(string)) return string;
  return {
    ...string,
    ownErrorCents: string.deviationCents - anchor.deviationCents,
    ownErrorInterval95Cents:
      intervalFromPair(string, anchor, pairs) ??
      (string.interval95Cents && anchor.interval95Cents
        ? differenceInterval(string.interval95Cents, anchor.interval95Cents)
        : null),
  };
}

/** Null where the two did not sound together, or one of them was read from other passages as well. */
function intervalFromPair(
  string: Measured,
  anchor: Measured,
  pairs: readonly PairReading[],
): readonly [number, number] | null {
  if (string.perPassage.length !== 1 || anchor.perPassage.length !== 1) return null;
  const pair = pairs.find(
    ({ lower, upper, basis }) =>
      basis === "measured" && [lower, upper].includes(string.name) && [lower, upper].includes(anchor.name),
  );
  if (!pair || pair.interval95Cents === null) return null;
  const ownError = string.deviationCents - anchor.deviationCents;
  const [low, high] = pair.interval95Cents.map((end) => end - pair.centsFromPure);
  return pair.upper === string.name ? [ownError + low, ownError + high] : [ownError - high, ownError - low];
}
