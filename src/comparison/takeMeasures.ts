import { LOWEST_EDGE_HZ } from "../body/bandEdges.js";
import { type BodyCurve, bodyCurve } from "../body/bodyCurve.js";
import { lowRegister } from "../body/lowRegister.js";
import { stringPartials } from "../body/stringPartials.js";
import type { TakeReading } from "../reading/TakeReading.js";
import { powerToDb } from "../units/decibels.js";
import type { ComparisonOptions, MeasureName } from "./Comparison.js";
import { soundsAmong } from "./commonSounds.js";

/** One number of one take. */
export interface TakeMeasure {
  readonly measure: MeasureName;
  readonly string: string | null;
  readonly value: number;
}

/** All that a take gives to a comparison. */
export interface TakeMeasures {
  readonly measures: readonly TakeMeasure[];
  readonly bodyCurve: BodyCurve;
}

type StringReading = TakeReading["strings"][number];

/** So many of each string's partials are compared by themselves. */
const FIRST_PARTIALS = 4;

/**
 * The numbers of one take that are compared, made of what every take has.
 *
 * @param common - the strings and sets of strings that count
 */
export function takeMeasures(
  take: TakeReading,
  common: readonly (readonly string[])[],
  { equalGain, lowEdgeHz }: ComparisonOptions,
): TakeMeasures {
  const partials = soundsAmong(take.sounds, common).flatMap((sound) => sound.partials);
  const whole = lowRegister(partials, lowEdgeHz);
  const lowPower = partials.reduce(
    (sum, { frequencyHz, power }) =>
      frequencyHz >= LOWEST_EDGE_HZ && frequencyHz < lowEdgeHz ? sum + power : sum,
    0,
  );
  const names = new Set(common.flat());
  const strings = take.strings.filter(({ name, status }) => status === "measured" && names.has(name));
  const curve = bodyCurve(strings.flatMap((string) => stringPartials(string)));
  const reach = curve.status === "fitted" ? curve.lowReach : null;
  return {
    bodyCurve: curve,
    measures: [
      ...known("lowRegisterDb", null, whole.lowRegisterDb),
      ...(equalGain ? known("lowLevelDb", null, lowPower > 0 ? powerToDb(lowPower) : null) : []),
      ...Object.entries(whole.octaveBandsDb).flatMap(([band, value]) =>
        known(`octave${Number(band)}Db`, null, value),
      ),
      ...known("centroidHz", null, whole.centroidHz),
      // At or below the lowest partial: that is where the playing ends, not the body.
      ...known("lowReachHz", null, reach === null || reach.isAtOrBelow ? null : reach.lowReachHz),
      ...strings.flatMap((string) => [
        ...known("lowRegisterDb", string.name, string.lowRegisterDb),
        ...firstPartials(string),
      ]),
    ],
  };
}

/** Levels of the first partials within their string; of none where some of the string's power is not its own alone. */
function firstPartials({ name, levelDb, partials }: StringReading): TakeMeasure[] {
  if (levelDb === null) return [];
  return partials
    .filter(({ number }) => number <= FIRST_PARTIALS)
    .flatMap((partial) => known(`partial${partial.number}Db`, name, partial.levelDb));
}

function known(measure: MeasureName, string: string | null, value: number | null): TakeMeasure[] {
  return value === null ? [] : [{ measure, string, value }];
}
