import { Scratch } from "../../signal/Scratch.js";
import type { ComplexFrames } from "./ComplexFrames.js";

/** Frames to work with that are used again (see `Scratch`), several at a time by their index. */
export class FrameScratch {
  private readonly parts: Scratch[] = [];

  /** `count` frames of which nothing is promised, until the same index is asked for again. */
  take(index: number, count: number): ComplexFrames {
    while (this.parts.length < 2 * index + 2) this.parts.push(new Scratch());
    return { real: this.parts[2 * index].take(count), imaginary: this.parts[2 * index + 1].take(count) };
  }
}
