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
  /** Which of the two has a peak here; null where neither does. */
  readonly peak: "both" | "tapped" | "bowed" | null;
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
    const [isTapped, isBowed] = [isPeak(tapped, b), isPeak(bowed, b)];
    return {
      frequencyHz: midbandHz,
      tappedDb: tapped[b] ?? null,
      tappedInterval95Db: response[b]?.interval95Db ?? null,
      bowedDb: bowed[b] ?? null,
      bowedInterval95Db: curve.points[b]?.interval95Db ?? null,
      peak: peakOf(isTapped, isBowed),
      modesHz: modes
        .map(({ frequencyHz }) => frequencyHz.value)
        .filter((hz) => hz >= lowerHz && hz < upperHz),
    };
  });
  return { bands, lacking: null };
}

function peakOf(isTapped: boolean, isBowed: boolean): TapAndBowBand["peak"] {
  if (isTapped && isBowed) return "both";
  if (isTapped) return "tapped";
  return isBowed ? "bowed" : null;
}

/** Against the line through the neighbours, so that a slope (a soft push, a string that falls off quickly) is no peak and hides none. */
function isPeak(levels: readonly (number | null)[], band: number): boolean {
  const level = levels[band] ?? null;
  const steps = Array.from({ length: FURTHEST_NEIGHBOUR }, (_, step) => step + 1);
  const below = steps.find((step) => (levels[band - step] ?? null) !== null);
  const above = steps.find((step) => (levels[band + step] ?? null) !== null);
  if (level === null || below === undefined || above === undefined) return false;
  const [low, high] = [levels[band - below]!, levels[band + above]!];
  return level >= low + ((high - low) * below) / (below + above) + LEAST_PEAK_DB;
}
