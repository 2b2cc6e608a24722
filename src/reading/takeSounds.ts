import type { PartialEnergy } from "../body/lowRegister.js";
import type { StringTarget } from "../instrument/Instrument.js";
import { isHeard } from "../strings/isHeard.js";
import type { MeasuredPassage } from "../strings/MeasuredPassage.js";
import type { MixedStrings } from "../strings/MixedStrings.js";
import type { StringReading } from "../strings/StringReading.js";
import type { SoundReading } from "./TakeReading.js";

interface Passage {
  readonly strings: readonly string[];
  readonly seconds: number;
  readonly partials: readonly PartialEnergy[];
}

/**
 * What sounded in a take, alone or together: one entry for each string or set of strings, its passages taken together.
 * Passages that no string was found for are left out, so are those in which a strong foreign sound stood, and so are sympathetic
 * strings, which are not bowed.
 *
 * @param strings - the named readings of the take, by which passages of one string know whose they are
 * @param targets - those that the mixtures count in; null without an instrument, where there are none
 */
export function takeSounds(
  strings: readonly StringReading[],
  measured: readonly MeasuredPassage[],
  mixtures: readonly MixedStrings[],
  targets: readonly StringTarget[] | null,
): SoundReading[] {
  const alone = measured.flatMap((passage): Passage[] => {
    const string = strings.find(({ perPassage }) =>
      perPassage.some(({ startSeconds }) => startSeconds === passage.startSeconds),
    );
    return string === undefined || string.role === "sympathetic"
      ? []
      : [passageOf(passage, [string.name], energies(passage))];
  });
  const together = mixtures
    .filter((mixture) => mixture.strings.every(({ isGuess }) => !isGuess))
    .map((mixture) => {
      const bowed = mixture.strings.filter(
        ({ targetIndex }) => targets?.[targetIndex].role !== "sympathetic",
      );
      const indices = bowed.map(({ targetIndex }) => targetIndex).sort((a, b) => a - b);
      const names = indices.map((index) => targets?.[index].name ?? "");
      return passageOf(
        mixture,
        names,
        bowed.flatMap(({ reading }) => energies(reading)),
      );
    })
    .filter(({ strings }) => strings.length > 0);
  const groups = new Map<string, Passage[]>();
  for (const passage of [...alone, ...together]) {
    const key = JSON.stringify(passage.strings);
    groups.set(key, [...(groups.get(key) ?? []), passage]);
  }
  return [...groups.values()].map((passages) => {
    const durationSeconds = passages.reduce((sum, { seconds }) => sum + seconds, 0);
    return {
      strings: passages[0].strings,
      durationSeconds,
      partials: passages.flatMap(({ seconds, partials }) =>
        partials.map(({ frequencyHz, power }) => ({
          frequencyHz,
          power: (power * seconds) / durationSeconds,
        })),
      ),
    };
  });
}

function passageOf(
  { startSeconds, endSeconds }: { readonly startSeconds: number; readonly endSeconds: number },
  strings: readonly string[],
  partials: readonly PartialEnergy[],
): Passage {
  return { strings, seconds: endSeconds - startSeconds, partials };
}

function energies({ frequencyHz, partials }: MeasuredPassage): PartialEnergy[] {
  return partials.flatMap((partial) => {
    const power = isHeard(partial) ? partial.power : (partial.togetherPower ?? 0);
    return power > 0 ? [{ frequencyHz: partial.number * frequencyHz, power }] : [];
  });
}
