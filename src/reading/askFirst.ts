import type { TimeSpan } from "../audio/findPauses.js";
import type { RecordingSurvey } from "../audio/RecordingSurvey.js";
import type { SteadyPassage } from "../pitch/SteadyPassage.js";
import type { MixedStrings } from "../strings/MixedStrings.js";
import { isClean } from "./isClean.js";
import type { MeasureOptions } from "./MeasureOptions.js";
import { readMixtures } from "./readMixtures.js";
import { sureReading } from "./sureReading.js";
import type { Work } from "./Work.js";

/** A steady passage that fills this share of its stretch of sound is all there is in it. */
const LEAST_SHARE = 0.7;

/** What asking first gave. */
export interface AskedFirst {
  /** Mixtures that stand. */
  readonly mixtures: readonly MixedStrings[];
  /** Passages that hold no such mixture: asking them again would give the same. */
  readonly asked: ReadonlySet<SteadyPassage>;
}

/**
 * Asks stretches of sound that hold one steady passage whether several strings sound, before they are read as one string:
 * a single reading that a joint one will replace takes a third of the time of both.
 */
export function askFirst(
  survey: RecordingSurvey,
  sounding: readonly TimeSpan[],
  passages: readonly SteadyPassage[],
  { targets, sounding: names }: MeasureOptions,
  humFrequenciesHz: readonly number[],
  work: Work,
): AskedFirst {
  const mixtures: MixedStrings[] = [];
  const asked = new Set<SteadyPassage>();
  if (targets === null || names !== undefined) return { mixtures, asked };
  const doubtful = sounding.flatMap((stretch) => {
    const inside = passages.filter((one) => overlapSeconds(one, stretch) > 0);
    const [only] = inside;
    if (inside.length !== 1 || !isClean(stretch, survey)) return [];
    const isMost =
      only.endSeconds - only.startSeconds >= LEAST_SHARE * (stretch.endSeconds - stretch.startSeconds);
    return isMost ? [{ stretch, only }] : [];
  });
  const readings = readMixtures(
    doubtful.map(({ stretch }) => stretch),
    null,
    false,
    humFrequenciesHz,
    work,
  );
  for (const [i, { only }] of doubtful.entries()) {
    const reading = readings[i];
    const sure = sureReading(reading).mixtures;
    const covered = sure.reduce((sum, one) => sum + overlapSeconds(one, only), 0);
    const isWhole = [reading.moves, reading.changing, reading.foreign].every(({ length }) => length === 0);
    const covers = covered >= LEAST_SHARE * (only.endSeconds - only.startSeconds);
    if (covers && isWhole) mixtures.push(...sure);
    else if (sure.length === 0) asked.add(only);
  }
  return { mixtures, asked };
}

function overlapSeconds(a: TimeSpan, b: TimeSpan): number {
  return Math.max(0, Math.min(a.endSeconds, b.endSeconds) - Math.max(a.startSeconds, b.startSeconds));
}
