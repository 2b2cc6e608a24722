import type { StringTarget } from "../instrument/Instrument.js";
import { nearestNoteTarget } from "../instrument/nearestNoteTarget.js";

/** Where no instrument was named: the notes that the plucks are nearest to, from low to high. */
export function notesOfPlucks(
  plucks: readonly { readonly frequencyHz: number }[],
  a4Hz: number,
): StringTarget[] {
  const targets: StringTarget[] = [];
  for (const { frequencyHz } of [...plucks].sort((a, b) => a.frequencyHz - b.frequencyHz)) {
    const { note, targetHz } = nearestNoteTarget(frequencyHz, a4Hz);
    if (targets.at(-1)?.note !== note) targets.push({ name: note, note, targetHz, role: "sympathetic" });
  }
  return targets;
}
