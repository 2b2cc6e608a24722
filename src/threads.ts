/** The door for who shares the reading of one take between two threads. */
export { HeldBand } from "./audio/HeldBand.js";
export type { TrackPart } from "./pitch/TrackPart.js";
export {
  type JobCall,
  type JobKind,
  type JobResult,
  type ReadingContext,
  readingJobs,
} from "./reading/readingJobs.js";
export type { SecondReader } from "./reading/SecondReader.js";
export type { BandAhead } from "./strings/BandAhead.js";
export { type BandToFill, bandToFill } from "./strings/bandToFill.js";
export { trackRestOf } from "./strings/trackRestOf.js";
