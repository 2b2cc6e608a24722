import { commonCourse } from "./commonCourse.js";
import { compareChange, type SingleChange } from "./compareChange.js";
import type { InstrumentHistory, PitchTrends, StringHistory } from "./HistoryReading.js";
import type { LoggedTake } from "./logLineSchema.js";
import { latestChange, type SingleMoment, stringMoments } from "./stringMoments.js";
import { doubtfulDays, type PlacedTake, takesInOrder } from "./takesInOrder.js";
import { type TrendPoint, trendOf } from "./trendOf.js";
import { workEffects } from "./workEffects.js";

/** With fewer there is no telling which of them moved. */
const LEAST_STRINGS = 3;
/** Weather is asked of so many takes at the least (our policy). */
const LEAST_WITH_WEATHER = 5;

type NamedChange = SingleChange & { readonly name: string };
type LatestChange = { readonly name: string } & Partial<NonNullable<ReturnType<typeof latestChange>>>;

interface StringMoments {
  readonly name: string;
  readonly moments: readonly SingleMoment[];
  /** What the other strings have in common, take by take. */
  readonly othersCents: readonly (number | null)[];
}

/**
 * How strings drift between takes, instrument by instrument: the change from each take to the next against that of the other strings, the drift
 * a day, how pitch went with the weather, and what was different after work on the instrument. Pitch is compared by frequency, so
 * another A4 or temperament in between makes no change. The order of the takes does not matter.
 */
export function readHistory(takes: readonly LoggedTake[]): InstrumentHistory[] {
  const byInstrument = new Map<string | null, LoggedTake[]>();
  for (const take of takes) {
    const its = byInstrument.get(take.instrument);
    if (its === undefined) byInstrument.set(take.instrument, [take]);
    else its.push(take);
  }
  return [...byInstrument]
    .sort(([a], [b]) => (a === null ? 1 : b === null ? -1 : a < b ? -1 : 1))
    .map(([name, its]) => instrumentHistory(name, takesInOrder(its)));
}

function instrumentHistory(name: string | null, takes: readonly PlacedTake[]): InstrumentHistory {
  // In the order of the last take; those it does not have follow.
  const names = new Set([...takes].reverse().flatMap(({ strings }) => strings.map((one) => one.name)));
  const heard = [...names]
    .map((one) => ({ name: one, moments: stringMoments(one, takes) }))
    .filter(({ moments }) => moments.length > 0);
  const points = heard.flatMap(({ name: string, moments }) =>
    moments.map(({ take, note, cents }) => ({ string, take, row: `${note} ${string}`, cents })),
  );
  const commonCents = commonCourse(points, takes.length, LEAST_STRINGS);
  const strings = heard.map((one) => ({
    ...one,
    othersCents: commonCourse(
      points.filter(({ string }) => string !== one.name),
      takes.length,
      LEAST_STRINGS - 1,
    ),
  }));
  const common = commonCents.flatMap((cents, take) =>
    cents === null ? [] : [{ take, cents, stretch: takes[take]!.stretch }],
  );
  const trends = trendsOf(common, takes);
  const changes = changesByTake(strings, takes.length);
  const latest = strings.map(({ name: string, moments }) => ({
    name: string,
    ...latestChange(moments, takes),
  }));
  return {
    name,
    takes,
    strings: strings.map((string) => stringHistory(string, changes, latest, takes)),
    commonCents,
    common: common.length === 0 ? withoutStrings(trends) : trends,
    works: workEffects(takes, strings, commonCents),
    doubtfulDays: doubtfulDays(takes),
  };
}

function stringHistory(
  { name, moments, othersCents }: StringMoments,
  changes: readonly (readonly NamedChange[])[],
  latest: readonly LatestChange[],
  takes: readonly PlacedTake[],
): StringHistory {
  const last = moments.at(-1)!;
  const own = moments.flatMap(({ take, cents, stretch }) => {
    const others = othersCents[take] ?? null;
    return others === null ? [] : [{ x: takes[take]!.moment.days, cents: cents - others, stretch }];
  });
  const ownPerDay = trendOf(sinceFirst(own));
  return {
    name,
    role: takes[last.take]!.strings.find((one) => one.name === name)!.role,
    targetHz: last.targetHz,
    moments: moments.map(({ note: _note, stretch: _stretch, change, ...moment }) => ({
      ...moment,
      change:
        change &&
        compareChange(
          change,
          changes[moment.take]!.filter((one) => one.name !== name && one.fromTake === change.fromTake),
        ),
    })),
    latest: comparedLatest(name, latest),
    ...trendsOf(moments, takes),
    ownPerDay: own.length === 0 ? { ...ownPerDay, lacking: "too-few-strings" } : ownPerDay,
  };
}

function comparedLatest(name: string, latest: readonly LatestChange[]): StringHistory["latest"] {
  const its = latest.find((one) => one.name === name);
  if (its?.change === undefined || its.take === undefined) return null;
  const { take, change } = its;
  const others = latest.flatMap((one) =>
    one.name !== name && one.take === take && one.change?.fromTake === change.fromTake ? [one.change] : [],
  );
  return { take, change: compareChange(change, others) };
}

/** Changes of all strings, by the take that they lead to. */
function changesByTake(all: readonly StringMoments[], takeCount: number): NamedChange[][] {
  const changes: NamedChange[][] = Array.from({ length: takeCount }, () => []);
  for (const { name, moments } of all) {
    for (const { take, change } of moments) if (change !== null) changes[take]!.push({ name, ...change });
  }
  return changes;
}

function trendsOf(
  points: readonly { readonly take: number; readonly cents: number; readonly stretch: number }[],
  takes: readonly PlacedTake[],
): PitchTrends {
  const against = (pick: (take: PlacedTake) => number | null): TrendPoint[] =>
    points.flatMap(({ take, cents, stretch }) => {
      const x = pick(takes[take]!);
      return x === null ? [] : [{ x, cents, stretch }];
    });
  return {
    perDay: trendOf(sinceFirst(against(({ moment }) => moment.days))),
    perDegree: trendOf(
      against(({ temperatureC }) => temperatureC),
      LEAST_WITH_WEATHER,
    ),
    perPercent: trendOf(
      against(({ humidityPercent }) => humidityPercent),
      LEAST_WITH_WEATHER,
    ),
  };
}

/** Days counted from the first take: counted from 1970 they would cost digits. */
function sinceFirst(points: readonly TrendPoint[]): TrendPoint[] {
  const first = points[0]?.x ?? 0;
  return points.map((point) => ({ ...point, x: point.x - first }));
}

function withoutStrings({ perDay, perDegree, perPercent }: PitchTrends): PitchTrends {
  const lacking = { lacking: "too-few-strings" as const };
  return {
    perDay: { ...perDay, ...lacking },
    perDegree: { ...perDegree, ...lacking },
    perPercent: { ...perPercent, ...lacking },
  };
}
