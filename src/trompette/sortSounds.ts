import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { median } from "../signal/median.js";
import { addedBelow } from "./addedBelow.js";
import type { FoundStroke } from "./findStrokes.js";
import { hasPace } from "./hasPace.js";
import type { OtherSoundReason, StrokeDoubt } from "./TrompetteReading.js";

/** Strokes, and sudden sounds that are none. */
export interface SortedSounds {
  readonly strokes: readonly FoundStroke[];
  /** Why these may be no strokes after all; null where nothing speaks against it. */
  readonly doubt: StrokeDoubt | null;
  readonly others: readonly { readonly seconds: number; readonly reason: OtherSoundReason }[];
}

interface SortedStroke extends FoundStroke {
  /** New power below 1 kHz over that above. */
  readonly belowShare: number;
}

/** Of one colour there must be so many to be told from a cough or a chair. */
const LEAST_STROKES = 4;
/** Most of the strokes of a bridge stay well below what a single one may have. */
const USUAL_NOTE_SHARE = 0.5;
const USUAL_KNOCK_SHARE = 0.62;
/** More new power below 1 kHz than above: a note. */
const NOTE_SHARE = 1;
/** What comes and goes below 1 kHz at so large a share of quiet moments, times this, is no note yet. */
const BEATS_SHARE = 0.8;
const BEATS_TIMES = 1.5;
/** Strokes last 40 ms or more; of a knock nearly all comes at once, but for the room. */
const KNOCK_SHARE = 0.7;
/** Strokes of one bridge have one colour: their bands agree to within this, root mean square. */
const ALIKE_DB = 6;
/** So few that could be strokes, beside so many times as many notes and knocks, are strays of these. */
const MOST_STRAY = 3;
const STRAY_TIMES = 2;
const LEAST_BESIDE_STRAYS = 3;
/** Bands more than this below the strongest count no more than that. */
const RANGE_DB = 15;

/**
 * Tells strokes of the wrist from notes, knocks and whatever else begins suddenly.
 *
 * @param quietSeconds - some moments without any sudden sound
 */
export function sortSounds(
  found: readonly FoundStroke[],
  segment: AnalysisSegment,
  quietSeconds: readonly number[],
): SortedSounds {
  // Strings that beat with each other come and go too.
  const usual = quietSeconds.map((seconds) => addedBelow(segment, seconds)).sort((a, b) => a - b);
  const byBeats = usual[Math.floor(BEATS_SHARE * usual.length)] ?? 0;
  const others: { seconds: number; reason: OtherSoundReason }[] = [];
  const known = found.map((one): SortedStroke => {
    const above = one.addedPower.reduce((sum, power) => sum + Math.max(0, power), 0);
    const below = Math.max(0, addedBelow(segment, one.onsetSeconds) - BEATS_TIMES * byBeats);
    return { ...one, belowShare: below / Math.max(above, 1e-30) };
  });
  const possible = known.filter((one) => {
    const reason = one.belowShare > NOTE_SHARE ? "note" : one.atOnceShare > KNOCK_SHARE ? "knock" : null;
    if (reason !== null) others.push({ seconds: one.onsetSeconds, reason });
    return reason === null;
  });
  const colours = possible.map(colourOf);
  const alike = colours.map((one) => colours.map((other) => distance(one, other) <= ALIKE_DB));
  const counts = alike.map((row) => row.filter(Boolean).length);
  const centre = counts.indexOf(Math.max(0, ...counts));
  const strokes = possible.filter((_, i) => alike[centre][i]);
  for (const [i, one] of possible.entries()) {
    if (!alike[centre][i]) others.push({ seconds: one.onsetSeconds, reason: "unlike" });
  }
  const kept = areStrays() ? [] : strokes;
  if (kept.length < strokes.length) {
    others.push(...strokes.map(({ onsetSeconds }) => ({ seconds: onsetSeconds, reason: "alone" as const })));
  }
  return { strokes: kept, doubt: doubtOf(kept), others: others.sort((a, b) => a.seconds - b.seconds) };

  function areStrays(): boolean {
    const beside = others.filter(({ reason }) => reason !== "unlike").length;
    return (
      strokes.length <= MOST_STRAY && beside >= Math.max(LEAST_BESIDE_STRAYS, STRAY_TIMES * strokes.length)
    );
  }
}

function doubtOf(strokes: readonly SortedStroke[]): StrokeDoubt | null {
  if (strokes.length < LEAST_STROKES) return "few";
  if (median(strokes.map(({ belowShare }) => belowShare)) > USUAL_NOTE_SHARE) return "notes";
  if (median(strokes.map(({ atOnceShare }) => atOnceShare)) > USUAL_KNOCK_SHARE) return "knocks";
  return hasPace(strokes.map(({ onsetSeconds }) => onsetSeconds)) ? null : "no-pace";
}

/** Bands in decibels about their own middle. */
function colourOf({ addedPower }: FoundStroke): number[] {
  const top = Math.max(...addedPower, 1e-30);
  const levels = addedPower.map((power) =>
    Math.max(-RANGE_DB, 10 * Math.log10(Math.max(power, 1e-30) / top)),
  );
  const middle = median(levels);
  return levels.map((level) => level - middle);
}

function distance(a: readonly number[], b: readonly number[]): number {
  const squares = a.reduce((sum, value, i) => sum + (value - b[i]) ** 2, 0);
  return Math.sqrt(squares / Math.max(1, a.length));
}
