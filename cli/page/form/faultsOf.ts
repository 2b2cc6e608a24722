import { type instrumentProblems, printable } from "../../../src/index.js";

/** What is wrong with an instrument, for whoever shows a part of it. */
export interface Faults {
  /** What is wrong at a place such as `strings[2].note` or in a list there; null where nothing is. */
  at(path: string): string | null;
  /** What is wrong at no place that the form has, such as an unknown entry: of one string, or of the instrument itself (null). */
  elsewhere(string: number | null): readonly string[];
}

/** @param shown - places that the form has, such as `a4Hz` and `strings[0].note` */
export function faultsOf(
  problems: ReturnType<typeof instrumentProblems>,
  shown: ReadonlySet<string>,
): Faults {
  const found = problems.map(({ details: { path, problem } }) => ({
    place: shown.has(path) ? path : path.replace(/\[\d+\]$/, ""),
    path,
    problem: printable(problem),
  }));
  const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
  return {
    at: (path) => {
      const fault = found.find(({ place }) => place === path);
      return fault === undefined ? null : capital(fault.problem);
    },
    elsewhere: (string) =>
      found
        .filter(({ place }) => !shown.has(place))
        .filter(({ path }) =>
          string === null ? !path.startsWith("strings[") : path.startsWith(`strings[${string}].`),
        )
        .map(({ path, problem }) => {
          const entry = path.replace(/^strings\[\d+\]\.?/, "");
          return entry === "" ? capital(problem) : `${printable(entry)}: ${problem}`;
        }),
  };
}
