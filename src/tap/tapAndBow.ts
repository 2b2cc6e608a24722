import { thirdOctaveBands } from "../body/bandEdges.js";
import type { BodyCurve } from "../body/bodyCurve.js";
import type { TapReading } from "./TapReading.js";

/** One third-octave band, tapped and bowed. */
export interface TapAndBowBand {
  readonly frequencyHz: number;
  readonly tappedDb: number | null;
  readonly tappedInterval95Db: readonly [number, number] | null;
  readonly bowedDb: number | null;
  readonly bowedInterval95Db: readonly [number, number] | null;
  /**
   * Which of the two has a peak here; null where neither does. `unclear`: one has, and the other can't say, having no value there or
   * none beside it, or too wide a range.
   */
  readonly peak: "both" | "tapped" | "bowed" | "unclear" | null;
  /** Modes that lie in the band, in hertz. */
  readonly modesHz: readonly number[];
}

/** A tapped and a bowed curve over each other. */
export interface TapAndBow {
  /** Empty where one of the two can't be had. */
  readonly bands: readonly TapAndBowBand[];
  /** Why there is nothing to compare. */
  readonly lacking: "no-response" | "no-body-curve" | null;
}

/** A peak stands over the line through its neighbours by this much: our policy. */
const LEAST_PEAK_DB = 1.5;
/** A neighbour that can't be had may be this many bands away. */
const FURTHEST_NEIGHBOUR = 2;
/** With a 95 % range wider than this to either side a peak may be missed: our policy. */
const WIDEST_DB = 4;

/**
 * Lays the energy of the taps and the body curve of bowed strings over each other, by third-octaves, each against its own middle (355
 * to 1413 Hz), and says which bands are peaks of both.
 *
 * Bowing excites all frequencies down from the strings' partials, a tap all up to what its contact time lets through; strings,
 * their slopes and the push differ between the two, body, room and microphone don't. So a peak of both is the body's, or else that of a
 * room in which instrument and microphone stood in the same places.
 */
export function tapAndBow({ response, modes }: TapReading, curve: BodyCurve | null): TapAndBow {
  if (response.every(({ levelDb }) => levelDb === null)) return { bands: [], lacking: "no-response" };
  if (curve === null || curve.status !== "fitted") return { bands: [], lacking: "no-body-curve" };
  const tapped = response.map(({ levelDb }) => levelDb);
  const bowed = curve.points.map(({ levelDb }) => levelDb);
  const bands = thirdOctaveBands.map(({ midbandHz, lowerHz, upperHz }, b) => {
    return {
      frequencyHz: midbandHz,
      tappedDb: tapped[b] ?? null,
      tappedInterval95Db: response[b]?.interval95Db ?? null,
      bowedDb: bowed[b] ?? null,
      bowedInterval95Db: curve.points[b]?.interval95Db ?? null,
      peak: peakOf(
        peakAt(tapped, b, response[b]?.interval95Db ?? null),
        peakAt(bowed, b, curve.points[b]?.interval95Db ?? null),
      ),
      modesHz: modes
        .map(({ frequencyHz }) => frequencyHz.value)
        .filter((hz) => hz >= lowerHz && hz < upperHz),
    };
  });
  return { bands, lacking: null };
}

/** True for a peak, false where there is none, null where that can't be said. */
type Peak = boolean | null;

function peakOf(tapped: Peak, bowed: Peak): TapAndBowBand["peak"] {
  if (tapped === true && bowed === true) return "both";
  if (tapped !== true && bowed !== true) return null;
  if (tapped === null || bowed === null) return "unclear";
  return tapped ? "tapped" : "bowed";
}

/** Against the line through the neighbours, so that a slope (a soft push, a string that falls off quickly) is no peak and hides none. */
function peakAt(
  levels: readonly (number | null)[],
  band: number,
  interval: readonly [number, number] | null,
): Peak {
  const level = levels[band] ?? null;
  const steps = Array.from({ length: FURTHEST_NEIGHBOUR }, (_, step) => step + 1);
  const below = steps.find((step) => (levels[band - step] ?? null) !== null);
  const above = steps.find((step) => (levels[band + step] ?? null) !== null);
  if (level === null || below === undefined || above === undefined) return null;
  const [low, high] = [levels[band - below]!, levels[band + above]!];
  if (level >= low + ((high - low) * below) / (below + above) + LEAST_PEAK_DB) return true;
  return interval !== null && interval[1] - interval[0] > 2 * WIDEST_DB ? null : false;
}
