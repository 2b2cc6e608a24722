import type { PitchTrack } from "./PitchTrack.js";

const LEAST_CLARITY = 0.5;
/** A string sounds where it stands this far above the quietest part of the take ... */
const ABOVE_FLOOR_DB = 10;
/** ... and no further than this below the loudest; a take without pauses has no floor to go by. */
const BELOW_TOP_DB = 45;
const NO_PAUSE_RANGE_DB = 20;

/** From which level on a string may be sounding, and whether the take has quiet parts at all. */
export function soundingThreshold(track: PitchTrack): { thresholdDb: number; hasPauses: boolean } {
  const sorted = Float32Array.from(track.levelDb).sort();
  const floorDb = sorted[Math.floor(0.05 * (sorted.length - 1))];
  const topDb = sorted[Math.floor(0.95 * (sorted.length - 1))];
  return {
    thresholdDb: Math.min(
      topDb - NO_PAUSE_RANGE_DB,
      Math.max(floorDb + ABOVE_FLOOR_DB, topDb - BELOW_TOP_DB),
    ),
    hasPauses: topDb - floorDb > NO_PAUSE_RANGE_DB,
  };
}

/** 1 for each frame in which something with a pitch sounds, else 0. */
export function voicedFrames(track: PitchTrack): Uint8Array {
  const { thresholdDb } = soundingThreshold(track);
  return Uint8Array.from(track.levelDb, (levelDb, i) =>
    levelDb >= thresholdDb && track.clarity[i] >= LEAST_CLARITY && track.frequencyHz[i] > 0 ? 1 : 0,
  );
}
