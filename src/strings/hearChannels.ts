import type { TimeSpan } from "../audio/findPauses.js";
import type { StringTarget } from "../instrument/Instrument.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { type FitElsewhere, fitsElsewhere } from "../partials/joint/fitsElsewhere.js";
import type { JointFit } from "../partials/joint/JointFit.js";
import { readJointly } from "../partials/joint/readJointly.js";
import type { RestLine } from "../partials/joint/restLine.js";
import { type UnexplainedLine, unexplainedLine } from "../partials/unexplainedLine.js";
import { withoutHum } from "../partials/withoutHum.js";
import { averageSpectrum } from "../signal/averageSpectrum.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import { totalOf } from "../signal/totalOf.js";
import { cents } from "../units/cents.js";
import { isOneNote } from "../units/isOneNote.js";
import type { PartialPower } from "./MeasuredPassage.js";
import type { ChannelSound, StrongestChannel } from "./strongestChannel.js";

/** A string that was found in one channel or several, and read in the one that shows it best. */
export interface HeardString {
  readonly targetIndex: number;
  readonly fit: JointFit;
  /** All that were fitted in the channel it was read in. */
  readonly together: readonly JointFit[];
  /** Powers are the mean of all channels. */
  readonly partials: readonly PartialPower[];
  /** Of what the others leave at its strongest partials, the share that it explains where it was read. */
  readonly explainedShare: number;
  /** The strongest line that no string explains in the channel it was read in. */
  readonly line: UnexplainedLine | null;
  /** True where another channel has a string of its note at another pitch, which no further target answers to. */
  readonly hasRival: boolean;
}

/** What the channels of a part gave. */
export interface HeardChannels {
  readonly strings: readonly HeardString[];
  /** The strongest line of each channel that no string explains; the strongest channel first. */
  readonly lines: readonly (UnexplainedLine | null)[];
  /** The channels besides the strongest that some string was read in. */
  readonly alsoRead: readonly AnalysisSegment[];
  /** What the strings leave of the strongest channel at partials of strings that were not found. */
  readonly rest: RestLine | null;
}

interface Found {
  readonly targetIndex: number;
  readonly fit: JointFit;
  readonly together: readonly JointFit[];
  readonly channel: number;
  readonly hasRival: boolean;
}

const SPECTRUM_SECONDS = 0.5;
/** Wheel swing of 4 cents has this standard deviation. */
const TYPICAL_UNSTEADINESS_CENTS = 3;
/** What the strings known so far leave of a channel, as a line or at their partials: more than this is looked into. */
const LEFT_SHARE = 10 ** -2.6;
/** A string comes out as one pitch in all channels (within 0.2 cent, measured); two of one note may not. */
const ONE_PITCH_CENTS = 1;
const WELL_EXPLAINED = 0.9;

/**
 * Finds the strings of a part in all its channels.
 *
 * The strongest channel is read first. Another one is read as well where the strings found so far leave something of it:
 * a line between their partials, or power at their partials that does not go along their courses (an octave on the other
 * side has all its lines where the lower string has some). A string that is found in two channels is read in the one where
 * it is followed on partials of its own and explains the most. Every string then gets its power in every channel.
 *
 * @param candidates - indices of the targets that may sound
 * @param humFrequenciesHz - lines of mains hum, which are no strings
 */
export function hearChannels(
  channel: StrongestChannel,
  part: TimeSpan,
  targets: readonly StringTarget[],
  candidates: readonly number[],
  humFrequenciesHz: readonly number[],
): HeardChannels {
  const { startSeconds, endSeconds } = part;
  const channels: readonly ChannelSound[] = [channel, ...channel.others];
  const targetsHz = candidates.map((c) => targets[c].targetHz);
  let restOfFirst: RestLine | null = null;
  const read = (c: number): Found[] => {
    const { strings: readings, rest } = readJointly(channels[c].segment, startSeconds, endSeconds, targetsHz);
    if (c === 0) restOfFirst = rest;
    const together = readings.map(({ fit }) => fit);
    return readings.map(({ index, fit }) => ({
      targetIndex: candidates[index],
      fit,
      together,
      channel: c,
      hasRival: false,
    }));
  };
  const elsewhere = (c: number, found: readonly Found[]) =>
    fitsElsewhere(
      channels[c].segment,
      startSeconds,
      endSeconds,
      found.map(({ fit }) => fit),
    );
  const lineIn = (c: number, found: readonly Found[]) =>
    otherLine(
      channels[c].segment,
      part,
      found.map(({ fit }) => fit),
      humFrequenciesHz,
    );

  const first = read(0);
  let found = first;
  let lines = channels.map((_, c) => lineIn(c, found));
  const own = found.map(({ fit }): FitElsewhere => ({ ...fit, leftShare: 0 }));
  let powers = channels.map((_, c) => (c === 0 ? own : elsewhere(c, found)));
  for (let c = 1; c < channels.length; c++) {
    const line = lines[c];
    const holdsMore =
      (line !== null && line.levelDb > 10 * Math.log10(LEFT_SHARE)) ||
      powers[c].some(({ leftShare }) => leftShare > LEFT_SHARE);
    if (!holdsMore) continue;
    const all = joined(found, read(c), targets, candidates);
    if (all.every(({ fit, hasRival }, i) => fit === found[i]?.fit && !hasRival)) continue;
    found = all;
    lines = channels.map((_, one) => lineIn(one, found));
    powers = channels.map((_, one) => elsewhere(one, found));
  }
  return {
    strings: found.map((one, i) => ({
      ...one,
      partials: meanPartials(
        channels,
        powers.map((inChannel) => inChannel[i]),
      ),
      explainedShare: powers[one.channel][i].explainedShare,
      line: lines[one.channel],
    })),
    lines,
    // What another channel's string has in the strongest one is no longer left over.
    rest: found.length === first.length ? restOfFirst : null,
    alsoRead: channels
      .slice(1)
      .flatMap(({ segment }, c) => (found.some(({ channel: at }) => at === c + 1) ? segment : [])),
  };
}

/** The strings of a channel with those of another: a string that both have keeps the better reading. */
function joined(
  known: readonly Found[],
  more: readonly Found[],
  targets: readonly StringTarget[],
  candidates: readonly number[],
): Found[] {
  const all = [...known];
  const isNote = (a: number, b: number) => isOneNote(targets[a].targetHz, targets[b].targetHz);
  for (const one of more) {
    const alike = all.filter(({ targetIndex }) => isNote(targetIndex, one.targetIndex));
    const apart = ({ fit }: Found) => Math.abs(cents(fit.frequencyHz, one.fit.frequencyHz));
    const nearest = alike.reduce<Found | null>((a, b) => (a === null || apart(b) < apart(a) ? b : a), null);
    if (nearest === null) {
      all.push(one);
      continue;
    }
    const isOther = apart(nearest) > ONE_PITCH_CENTS && isSure(nearest.fit) && isSure(one.fit);
    const free = candidates.find(
      (c) => isNote(c, one.targetIndex) && !alike.some(({ targetIndex }) => targetIndex === c),
    );
    if (isOther && free !== undefined) {
      all.push({ ...one, targetIndex: free });
    } else {
      const best = isBetter(one.fit, nearest.fit) ? one : nearest;
      const hasRival = nearest.hasRival || isOther;
      all[all.indexOf(nearest)] = { ...best, targetIndex: nearest.targetIndex, hasRival };
    }
  }
  return all.sort((a, b) => a.targetIndex - b.targetIndex);
}

function isSure({ followed, explainedShare }: JointFit): boolean {
  return followed && explainedShare >= WELL_EXPLAINED;
}

function isBetter(a: JointFit, b: JointFit): boolean {
  if (a.followed !== b.followed) return a.followed;
  if (a.hasOwnPartials !== b.hasOwnPartials) return a.hasOwnPartials;
  return a.explainedShare > b.explainedShare;
}

/** Power means over the channels, and the signal-to-noise of the best. */
function meanPartials(channels: readonly ChannelSound[], inChannel: readonly FitElsewhere[]): PartialPower[] {
  // A partial at the upper limit may be one too many in one of them.
  const count = Math.min(...inChannel.map(({ partials }) => partials.length));
  return inChannel[0].partials.slice(0, count).map(({ number }, n) => {
    const same = inChannel.map(({ partials }) => partials[n]);
    const together = same.flatMap(({ togetherPower }, c) =>
      togetherPower === null ? [] : [togetherPower * channels[c].levelScale],
    );
    const ratios = same.flatMap(({ signalToNoise }) => signalToNoise ?? []);
    return {
      number,
      power: same.reduce((sum, { power }, c) => sum + (power ?? 0) * channels[c].levelScale, 0),
      signalToNoise: ratios.length === 0 ? null : Math.max(...ratios),
      shared: same.every(({ power }) => power === null),
      togetherPower: together.length === 0 ? null : together.reduce((sum, power) => sum + power, 0),
    };
  });
}

/** The strongest line that no partial of the strings found explains, against the power of the whole passage. */
function otherLine(
  { samples, sampleRateHz, firstSeconds }: AnalysisSegment,
  { startSeconds, endSeconds }: TimeSpan,
  fits: readonly JointFit[],
  humFrequenciesHz: readonly number[],
): UnexplainedLine | null {
  const from = Math.max(0, Math.round((startSeconds - firstSeconds) * sampleRateHz));
  const part = samples.subarray(from, Math.round((endSeconds - firstSeconds) * sampleRateHz));
  const spectrum = averageSpectrum(part, sampleRateHz, nextPowerOfTwo(SPECTRUM_SECONDS * sampleRateHz));
  const total = totalOf(spectrum.density) * spectrum.binHz;
  return unexplainedLine(
    withoutHum(spectrum, humFrequenciesHz),
    fits.map(({ frequencyHz }) => frequencyHz),
    total,
    TYPICAL_UNSTEADINESS_CENTS,
  );
}
