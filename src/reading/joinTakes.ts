import type { StringRole } from "../instrument/Instrument.js";
import { tQuantile } from "../statistics/tQuantile.js";
import { type VarianceComponents, varianceComponents } from "../statistics/varianceComponents.js";
import type { BodyReading, TakeReading } from "./TakeReading.js";
import { takeBody } from "./takeBody.js";

/** Mean of one measure over takes. */
interface JoinedValue {
  readonly takeCount: number;
  /** Mean of the takes' values; null where no take has one. */
  readonly mean: number | null;
  /** Standard deviation between takes; null for fewer than two. */
  readonly spread: number | null;
  /** 95 % interval of the mean from the spread between takes (Student's t); null for fewer than two. */
  readonly interval95: readonly [number, number] | null;
}

/** What several takes together say of one string. */
interface JoinedString {
  readonly name: string;
  readonly role: StringRole | null;
  readonly targetHz: number;
  readonly deviationCents: JoinedValue;
  /** Interval of the deviation: between takes where there are two or more, else the one take's own. */
  readonly interval95Cents: readonly [number, number] | null;
  readonly intervalBasis: "between-takes" | "within-take" | null;
  /** Cents from the anchor, over the takes in which it was heard; without an anchor no take counts. */
  readonly ownErrorCents: JoinedValue;
  /** Interval of the own error: between takes where there are two or more, else the one take's own. */
  readonly ownErrorInterval95Cents: readonly [number, number] | null;
  readonly lowRegisterDb: JoinedValue;
  /**
   * Where the string sounds more than once in a take: how far its pitch differs from take to take and from passage to passage of
   * one, in cents, as standard deviations; null where nothing was repeated.
   */
  readonly pitchComponents: VarianceComponents | null;
}

/** What several takes together say. */
export interface JoinedTakes {
  readonly strings: readonly JoinedString[];
  readonly lowRegisterDb: JoinedValue;
  /** The body curve of all takes together; null where no string was measured. */
  readonly body: BodyReading | null;
}

/**
 * Joins the takes of one call, string by string, with the take as the sample: each take counts once, however long
 * it is and however many passages it has.
 *
 * Only strings with status `measured` count. What the strings have in common differs with the strings that were
 * recorded, so own errors are joined only where they are counted from an anchor. Strings are joined by name, in the order they are first met.
 */
export function joinTakes(takes: readonly TakeReading[]): JoinedTakes {
  const names = [...new Set(takes.flatMap((take) => take.strings.map((string) => string.name)))];
  return {
    strings: names.map((name) => joinString(name, takes)),
    lowRegisterDb: join(takes.map((take) => take.lowRegister?.lowRegisterDb ?? null)),
    body: takes.length === 1 ? takes[0]!.body : takeBody(takes.map((take) => take.strings)),
  };
}

function joinString(name: string, takes: readonly TakeReading[]): JoinedString {
  const perTake = takes.map((take) => take.strings.filter((string) => string.name === name));
  const first = perTake.flat()[0]!;
  const measured = perTake.map((strings) => strings.filter((string) => string.status === "measured"));
  const deviationCents = join(measured.map((strings) => mean(strings.map((one) => one.deviationCents))));
  const within = onlyInterval(
    measured
      .flat()
      .filter((one) => one.deviationCents !== null)
      .map((one) => one.interval95Cents),
  );
  const anchored = measured.map((strings, t) => (takes[t]!.referencePitch?.anchor ? strings : []));
  const ownErrorCents = join(anchored.map((strings) => mean(strings.map((one) => one.ownErrorCents))));
  const withinAnchored = onlyInterval(anchored.flat().map((one) => one.ownErrorInterval95Cents));
  return {
    name,
    role: first.role,
    targetHz: first.targetHz,
    deviationCents,
    interval95Cents: deviationCents.interval95 ?? within,
    intervalBasis: deviationCents.interval95 ? "between-takes" : within ? "within-take" : null,
    ownErrorCents,
    ownErrorInterval95Cents: ownErrorCents.interval95 ?? withinAnchored,
    lowRegisterDb: join(measured.map((strings) => mean(strings.map((one) => one.lowRegisterDb)))),
    pitchComponents: varianceComponents(
      measured.map((strings) =>
        strings.flatMap(({ perPassage }) => perPassage.map((passage) => passage.deviationCents)),
      ),
    ),
  };
}

/** The interval of a single reading; several have none in common. */
function onlyInterval(intervals: readonly (readonly [number, number] | null)[]) {
  return intervals.length === 1 ? intervals[0]! : null;
}

function join(values: readonly (number | null)[]): JoinedValue {
  const known = values.filter((value) => value !== null);
  const centre = mean(known);
  const count = known.length;
  if (centre === null || count < 2) return { takeCount: count, mean: centre, spread: null, interval95: null };
  const spread = Math.sqrt(known.reduce((sum, value) => sum + (value - centre) ** 2, 0) / (count - 1));
  const half = (tQuantile(0.975, count - 1) * spread) / Math.sqrt(count);
  return { takeCount: count, mean: centre, spread, interval95: [centre - half, centre + half] };
}

function mean(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0) / known.length;
}
