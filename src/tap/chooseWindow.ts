/** Taps shorter than this before the next one say too little. */
const LEAST_SECONDS = 0.25;
const MOST_SECONDS = 1;
/** The next tap is kept away from by this much. */
const GUARD_SECONDS = 0.012;
/** Time constant of the longest modes that matter: what a longer window is worth falls off with it. */
const WORTH_SECONDS = 0.2;

/** How long the windows are, and which taps have room for one. */
export interface ChosenWindow {
  /** From the onset, in samples; 0 where no tap has room. */
  readonly length: number;
  readonly hasRoom: readonly boolean[];
}

/**
 * One length for all windows, so that most taps ring undisturbed for most of their time: the number of taps with room for it times
 * what so long a window is worth.
 *
 * @param onsets - of all taps, in samples, rising
 * @param end - of the recording
 */
export function chooseWindow(onsets: readonly number[], end: number, rateHz: number): ChosenWindow {
  const most = Math.round(MOST_SECONDS * rateHz);
  const room = onsets.map((onset, i) =>
    Math.min(most, Math.floor((onsets[i + 1] ?? end) - onset - GUARD_SECONDS * rateHz)),
  );
  const long = room.filter((length) => length >= LEAST_SECONDS * rateHz);
  let best = { length: 0, worth: 0 };
  for (const length of long) {
    const count = room.filter((one) => one >= length).length;
    const worth = count * (1 - Math.exp(-length / (WORTH_SECONDS * rateHz)));
    if (worth > best.worth) best = { length, worth };
  }
  return { length: best.length, hasRoom: room.map((one) => best.length > 0 && one >= best.length) };
}
