import type { Finding } from "../audio/Finding.js";
import { nearestNoteTarget } from "../instrument/nearestNoteTarget.js";
import { assignPassages } from "../strings/assignPassages.js";
import type { MeasuredPassage } from "../strings/MeasuredPassage.js";
import type { MixedStrings } from "../strings/MixedStrings.js";
import type { StringReading } from "../strings/StringReading.js";
import type { MeasureOptions } from "./MeasureOptions.js";
import { readString, unresolvedString } from "./readString.js";

/** The strings of a take, and what was odd about telling them apart. */
export interface NamedStrings {
  readonly strings: readonly StringReading[];
  readonly findings: readonly Finding[];
}

/**
 * Gives every passage its string: one of the instrument's, or without an instrument the nearest note.
 *
 * @param mixtures - passages in which several strings sound, told apart already
 */
export function nameStrings(
  passages: readonly MeasuredPassage[],
  mixtures: readonly MixedStrings[],
  options: MeasureOptions,
): NamedStrings {
  const { targets, a4Hz, order } = options;
  if (targets === null) return { strings: nearestNotes(passages, a4Hz), findings: [] };
  const { perTarget, unmatched, unclearGroups } = assignPassages(passages, targets, order);
  return {
    strings: targets.map(({ name, role, targetHz }, t) => {
      const together = mixtures.flatMap(({ strings }) =>
        strings.filter(({ targetIndex }) => targetIndex === t),
      );
      const told = together
        .filter(({ neededSeconds }) => neededSeconds === null)
        .map(({ reading }) => reading);
      const hidden = mixtures.flatMap((mixture) =>
        mixture.hidden.filter(({ targetIndex }) => targetIndex === t),
      );
      const needed = [...together, ...hidden].flatMap(({ neededSeconds }) => neededSeconds ?? []);
      const all = [...perTarget[t], ...told].sort((a, b) => a.startSeconds - b.startSeconds);
      return all.length === 0 && needed.length > 0
        ? unresolvedString({ name, role, targetHz }, Math.min(...needed))
        : readString({ name, role, targetHz }, all);
    }),
    findings: [
      ...unclearGroups.map(
        (members): Finding => ({
          code: "equal-strings",
          severity: "warning",
          values: { strings: members.map((t) => targets[t].name).join(", ") },
        }),
      ),
      ...unmatched.map(
        ({ startSeconds, endSeconds, frequencyHz }): Finding => ({
          code: "unmatched-passage",
          severity: "warning",
          values: { startSeconds, endSeconds, frequencyHz },
        }),
      ),
    ],
  };
}

function nearestNotes(passages: readonly MeasuredPassage[], a4Hz: number): StringReading[] {
  const seen = new Map<string, number>();
  return passages.map((passage) => {
    const { note, targetHz } = nearestNoteTarget(passage.frequencyHz, a4Hz);
    const count = (seen.get(note) ?? 0) + 1;
    seen.set(note, count);
    return readString({ name: count === 1 ? note : `${note} ${count}`, role: null, targetHz }, [passage]);
  });
}
