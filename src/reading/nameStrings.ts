import type { Finding } from "../audio/Finding.js";
import type { StringTarget } from "../instrument/Instrument.js";
import { nearestNoteTarget } from "../instrument/nearestNoteTarget.js";
import { assignPassages } from "../strings/assignPassages.js";
import type { MeasuredPassage } from "../strings/MeasuredPassage.js";
import type { MixedStrings, StringMove } from "../strings/MixedStrings.js";
import type { StringReading } from "../strings/StringReading.js";
import { standingTime } from "../strings/standingMixtures.js";
import { isOneNote } from "../units/isOneNote.js";
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
 * @param moves - strings that moved in them: of each the latest pitch at which it stood counts
 */
export function nameStrings(
  passages: readonly MeasuredPassage[],
  mixtures: readonly MixedStrings[],
  options: MeasureOptions,
  moves: readonly StringMove[] = [],
): NamedStrings {
  const { targets, a4Hz, order, lowEdgeHz } = options;
  if (targets === null) return { strings: nearestNotes(passages, a4Hz, lowEdgeHz), findings: [] };
  const { perTarget, unmatched, unclearGroups } = assignPassages(passages, targets, order);
  return {
    strings: targets.map(({ name, role, targetHz }, t) => {
      const together = mixtures.flatMap(({ strings }) =>
        strings.filter(({ targetIndex }) => targetIndex === t),
      );
      const told = together
        .filter(({ neededSeconds, isGuess }) => neededSeconds === null && !isGuess)
        .map(({ reading }) => reading);
      const hidden = mixtures.flatMap((mixture) =>
        mixture.hidden.filter(({ targetIndex }) => targetIndex === t),
      );
      const disturbed = together.find(({ isGuess }) => isGuess)?.reading.findings ?? [];
      const needed = [...together, ...hidden].flatMap(({ neededSeconds }) => neededSeconds ?? []);
      const under = together.length > 0 ? undefined : hidden[0]?.under;
      const hiddenBy = under === undefined ? null : { ...under, other: targets[under.targetIndex].name };
      const all = [...perTarget[t], ...told].sort((a, b) => a.startSeconds - b.startSeconds);
      const target = { name, role, targetHz };
      const standing = standingTime(
        all,
        moves.filter(({ targetIndex }) => targetIndex === t),
      );
      if (all.length > 0) return readString(target, all, lowEdgeHz, standing);
      if (disturbed.length > 0) return unresolvedString(target, disturbed);
      return needed.length > 0
        ? unresolvedString(target, [notSeparable(Math.min(...needed), hiddenBy)])
        : readString(target, []);
    }),
    findings: eachOnce([
      ...equalTogether(mixtures, targets),
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
    ]),
  };
}

/**
 * Why a string was not told apart.
 *
 * @param hiddenBy - the string that was found whose partials cover all of its own, where it was not found by itself
 */
function notSeparable(
  neededSeconds: number,
  hiddenBy: { readonly other: string; readonly ratio: number; readonly withinCents: number } | null,
): Finding {
  if (hiddenBy === null) return { code: "not-separable", severity: "warning", values: { neededSeconds } };
  const { other, ratio, withinCents } = hiddenBy;
  return {
    code: ratio === 1 ? "unison-locked" : "hidden-under",
    severity: "warning",
    values: { neededSeconds, other, withinCents },
  };
}

/** Mixtures and single passages of one take may have the same to tell. */
function eachOnce(findings: readonly Finding[]): Finding[] {
  const told = new Map(findings.map((finding) => [JSON.stringify(finding), finding]));
  return [...told.values()];
}

/** Strings with one target in one mixture: which of them is which can't be heard. */
function equalTogether(mixtures: readonly MixedStrings[], targets: readonly StringTarget[]): Finding[] {
  const findings = new Map<string, Finding>();
  for (const { strings } of mixtures) {
    for (const { targetIndex } of strings) {
      const members = targets.flatMap(({ targetHz }, t) =>
        isOneNote(targetHz, targets[targetIndex].targetHz) ? [t] : [],
      );
      if (members.length < 2) continue;
      const heard = members.filter((t) => strings.some((one) => one.targetIndex === t));
      const values = { strings: (heard.length > 1 ? heard : members).map((t) => targets[t].name).join(", ") };
      const key = `${heard.length > 1} ${values.strings}`;
      findings.set(
        key,
        heard.length > 1
          ? { code: "equal-together", severity: "info", values }
          : { code: "equal-strings", severity: "warning", values },
      );
    }
  }
  return [...findings.values()];
}

function nearestNotes(
  passages: readonly MeasuredPassage[],
  a4Hz: number,
  lowEdgeHz?: number,
): StringReading[] {
  const seen = new Map<string, number>();
  return passages.map((passage) => {
    const { note, targetHz } = nearestNoteTarget(passage.frequencyHz, a4Hz);
    const count = (seen.get(note) ?? 0) + 1;
    seen.set(note, count);
    return readString(
      { name: count === 1 ? note : `${note} ${count}`, role: null, targetHz },
      [passage],
      lowEdgeHz,
    );
  });
}
