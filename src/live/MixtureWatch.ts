import type { StringTarget } from "../instrument/Instrument.js";
import { type HeardMixture, listenTogether } from "./listenTogether.js";
import type { RecentBand } from "./RecentBand.js";

/** Shorter windows hold too few beats to part strings that share partials. */
const LEAST_SECONDS = 1.5;
const LONGEST_SECONDS = 4;
/** As long as this only where strings can't be told apart in less, and then looked at half as often. */
const LONGEST_NEEDED_SECONDS = 7.5;
/** A string that was just found may have joined as late as this before the end of the window. */
const NEW_SECONDS = 0.5;
const FIRST_SECONDS = 0.5;
/** Attack and the newest samples, which the fit needs on both sides. */
const TRIM_START_SECONDS = 0.2;
const TRIM_END_SECONDS = 0.11;

/** Asks which strings sound together, over a window that grows as long as they stay the same. */
export class MixtureWatch {
  private readonly band: RecentBand;
  private readonly targets: readonly StringTarget[];
  private heard: HeardMixture | null = null;
  private sinceSeconds = Number.POSITIVE_INFINITY;
  private isSkipped = false;

  constructor(band: RecentBand, targets: readonly StringTarget[]) {
    this.band = band;
    this.targets = targets;
  }

  /** What was last found; null where no several strings were. */
  get last(): HeardMixture | null {
    return this.heard;
  }

  /** Forgets what was found: the sound has ended. */
  forget(): void {
    this.heard = null;
    this.sinceSeconds = Number.POSITIVE_INFINITY;
    this.isSkipped = false;
  }

  /**
   * @param soundStartSeconds - since when something sounds without a break
   * @param needsSure - whether a clean reading as one string stands against it
   * @returns null where no two strings were found
   */
  listen(
    soundStartSeconds: number,
    needsSure: boolean,
    humFrequenciesHz: readonly number[],
  ): HeardMixture | null {
    if (this.targets.length < 2) return null;
    const endSeconds = this.band.end / this.band.rateHz - TRIM_END_SECONDS;
    const neededSeconds = this.heard?.neededSeconds ?? 0;
    const longest =
      neededSeconds > LONGEST_SECONDS && neededSeconds < LONGEST_NEEDED_SECONDS
        ? LONGEST_NEEDED_SECONDS
        : LONGEST_SECONDS;
    const length = Math.max(LEAST_SECONDS, Math.min(longest, endSeconds - this.sinceSeconds));
    this.isSkipped = length > LONGEST_SECONDS && !this.isSkipped;
    if (this.isSkipped) return this.heard;
    const firstSeconds = soundStartSeconds + TRIM_START_SECONDS;
    const startSeconds = Math.max(firstSeconds, endSeconds - length);
    // What is found as soon as there is enough sound has been there from its beginning.
    const isFirst = endSeconds - firstSeconds < LEAST_SECONDS + FIRST_SECONDS;
    const found =
      endSeconds - startSeconds < LEAST_SECONDS - 1e-6
        ? null
        : listenTogether(this.band, startSeconds, endSeconds, this.targets, humFrequenciesHz);
    if (found === null || (needsSure && !found.isSure)) {
      this.forget();
      return null;
    }
    const isSame = this.heard !== null && namesOf(found) === namesOf(this.heard);
    const isStill = found.strings.every(({ sound }) => sound.lack !== "moving") && !found.hasChanged;
    if (!isStill) this.sinceSeconds = endSeconds;
    else if (!isSame) this.sinceSeconds = isFirst ? startSeconds : endSeconds - NEW_SECONDS;
    this.heard = found;
    return found;
  }
}

function namesOf({ strings }: HeardMixture): string {
  return strings.map(({ targetIndex }) => targetIndex).join(" ");
}
