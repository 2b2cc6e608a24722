import type { LoggedTake } from "./logLineSchema.js";

/** A line that holds a take which an earlier line holds already. */
export interface LogRepeat {
  readonly line: number;
  readonly sameAsLine: number;
}

interface LoggedLine {
  readonly line: number;
  readonly take: LoggedTake;
}

/**
 * Takes that were logged twice, as one: the same instrument, file and date, and the same readings. What only one of the lines says
 * (weather, work) is kept; where they say different things of one matter, both notes of work are, and one of the numbers.
 */
export function joinRepeats(lines: readonly LoggedLine[]): {
  readonly takes: readonly LoggedTake[];
  readonly repeats: readonly LogRepeat[];
} {
  const groups = new Map<string, LoggedLine[]>();
  for (const one of lines) {
    const key = keyOf(one.take);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [one]);
    else group.push(one);
  }
  return {
    takes: [...groups.values()].map((group) => joined(group.map(({ take }) => take))),
    repeats: [...groups.values()]
      .flatMap(([first, ...rest]) => rest.map(({ line }) => ({ line, sameAsLine: first!.line })))
      .sort((a, b) => a.line - b.line),
  };
}

function keyOf({ instrument, file, takenAt, strings, lowRegisterDb }: LoggedTake): string {
  const readings = strings.map(({ name, status, frequencyHz, levelDb }) => [
    name,
    status,
    frequencyHz,
    levelDb,
  ]);
  return JSON.stringify([instrument, file, takenAt, readings, lowRegisterDb]);
}

/** Whichever line came first, the result is the same. */
function joined(takes: readonly LoggedTake[]): LoggedTake {
  if (takes.length === 1) return takes[0]!;
  const sorted = takes
    .map((take) => ({ take, text: JSON.stringify(take) }))
    .sort((a, b) => (a.text < b.text ? -1 : 1))
    .map(({ take }) => take);
  const first = <T>(from: (take: LoggedTake) => T | null): T | null =>
    sorted.map(from).find((value) => value !== null) ?? null;
  const works = [...new Set(sorted.flatMap(({ work }) => work ?? []))];
  return {
    ...sorted[0]!,
    temperatureC: first(({ temperatureC }) => temperatureC),
    humidityPercent: first(({ humidityPercent }) => humidityPercent),
    work: works.length === 0 ? null : works.join("; "),
  };
}
