import type { BandCourse } from "./BandCourse.js";
import { bandBaseline } from "./bandBaseline.js";
import { chanceSize } from "./chanceSize.js";
import { riseCourse } from "./riseCourse.js";

/** How the upper bands of a take move against what they have without buzz. */
export interface UpperBands {
  readonly course: BandCourse;
  /** Indexed [band][frame]. */
  readonly levelDb: readonly Float64Array[];
  readonly baselineDb: readonly Float64Array[];
  /** By how much each band rises at each frame (see `riseCourse`). */
  readonly riseDb: readonly Float64Array[];
  /** Size of a rise that comes about by chance (a standard deviation), band by band. */
  readonly chanceDb: readonly number[];
  /** Frames to go by: those without buzz or, as long as nothing is known of that, all in which a string sounds. */
  readonly isKnown: Uint8Array;
  readonly areQuiet: boolean;
}

const LEAST_POWER = 1e-16;

/** @param isQuiet - frames known to be without buzz; null where nothing is known yet */
export function upperBands(course: BandCourse, isQuiet: Uint8Array | null): UpperBands {
  const levelDb = course.bands.map(({ power }) => power.map((value) => 10 * Math.log10(value + LEAST_POWER)));
  const { isHeard } = course;
  const isKnown = isQuiet === null ? isHeard : isQuiet.map((quiet, m) => quiet & isHeard[m]);
  const riseDb = levelDb.map((level) => riseCourse(level, course.hopSeconds, isHeard));
  return {
    course,
    levelDb,
    riseDb,
    baselineDb: levelDb.map((level) => bandBaseline(level, course.hopSeconds, isKnown, isQuiet !== null)),
    chanceDb: riseDb.map((rise) => chanceSize(rise, isKnown, isQuiet !== null)),
    isKnown,
    areQuiet: isQuiet !== null,
  };
}
