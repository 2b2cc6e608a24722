import type { JointState, JointString } from "./JointState.js";

/** Partials of other strings within this of a partial are taken out along with it. */
export const NEIGHBOUR_HZ = 9;

/** A partial of another string that lies near a partial. */
export interface Neighbour {
  readonly string: JointString;
  readonly number: number;
}

/** Partials of the other strings that lie within `widthHz` of partial `number` of a string. */
export function neighbours(
  { strings }: JointState,
  string: JointString,
  number: number,
  widthHz: number,
): Neighbour[] {
  const partialHz = number * string.baseHz;
  const found: Neighbour[] = [];
  for (let i = 0; i < strings.length; i++) {
    const other = strings[i];
    if (other === string) continue;
    const nearest = Math.max(1, Math.round(partialHz / other.baseHz));
    if (Math.abs(nearest * other.baseHz - partialHz) < widthHz)
      found.push({ string: other, number: nearest });
  }
  return found;
}
