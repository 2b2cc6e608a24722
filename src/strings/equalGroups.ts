import type { StringTarget } from "../instrument/Instrument.js";
import { isOneNote } from "../units/isOneNote.js";

/**
 * Strings of one note together: indices of the targets, each group in the order in which its strings were played, as far as
 * `order` names them, else in that of the targets.
 */
export function equalGroups(targets: readonly StringTarget[], order: readonly string[]): number[][] {
  const groups: number[][] = [];
  for (const [t, target] of targets.entries()) {
    const group = groups.find(([first]) => isOneNote(target.targetHz, targets[first].targetHz));
    if (group === undefined) groups.push([t]);
    else group.push(t);
  }
  const place = (t: number) => {
    const named = order.indexOf(targets[t].name);
    return named < 0 ? order.length + t : named;
  };
  return groups.map((members) => members.sort((a, b) => place(a) - place(b)));
}
