import { printable } from "../../../src/index.js";
import { blobByteSource } from "./blobByteSource.js";
import type { NamedSound } from "./Messages.js";

const BLOCK_BYTES = 1 << 20;

/**
 * What is to be said where one recording is there twice, whatever it is called: counted twice it would make the takes look more alike than
 * they are.
 *
 * @returns null where each is there once
 */
export function repeatedSound(sounds: readonly NamedSound[]): string | null {
  for (const [i, one] of sounds.entries()) {
    const again = sounds.slice(i + 1).find(({ blob }) => isSame(one.blob, blob));
    if (again === undefined) continue;
    const names = [one, again].map(({ name }) => printable(name));
    const what =
      names[0] === names[1] ? `${names[0]} was added twice.` : `${names.join(" and ")} are one recording.`;
    return `${what} Each take counts once, on one side.`;
  }
  return null;
}

function isSame(a: Blob, b: Blob): boolean {
  if (a.size !== b.size) return false;
  const [first, second] = [a, b].map(blobByteSource);
  for (let from = 0; from < a.size; from += BLOCK_BYTES) {
    const length = Math.min(BLOCK_BYTES, a.size - from);
    const other = second!.read(from, length);
    if (first!.read(from, length).some((byte, i) => byte !== other[i])) return false;
  }
  return true;
}
