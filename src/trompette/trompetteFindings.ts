import type { TrompetteFinding, TrompetteOptions, TrompetteReading } from "./TrompetteReading.js";

/** Less silence than this, and what the drone has without buzz is not sure. */
const LITTLE_SILENCE_SECONDS = 1;
/** A recording that ends below this shows little of a buzz. */
const LEAST_TOP_HZ = 5000;
/** An onset is unsure beyond this, and with more than so large a share of such ones the take is. */
const UNSURE_SECONDS = 0.01;
const UNSURE_SHARE = 0.25;
/** Timing is uneven where it scatters by more than this share of the time from stroke to stroke. */
const UNEVEN_SHARE = 0.08;

/** What is to be told about a take besides its numbers. */
export function trompetteFindings(
  reading: Omit<TrompetteReading, "findings">,
  { string, others = [] }: TrompetteOptions,
): TrompetteFinding[] {
  const findings: TrompetteFinding[] = [];
  const add = (
    code: TrompetteFinding["code"],
    severity: TrompetteFinding["severity"],
    values: TrompetteFinding["values"] = {},
  ) => findings.push({ code, severity, values } as TrompetteFinding);
  const { strokes, state, soundingSeconds, silentSeconds, band } = reading;
  if (soundingSeconds === 0) {
    add("no-string", "problem");
    return findings;
  }
  if (band === null || band[1] < LEAST_TOP_HZ) {
    add("upper-band-missing", band === null ? "problem" : "warning", { topHz: band?.[1] ?? 0 });
  }
  if (state === "none") {
    const alone = reading.otherSounds.filter(({ reason }) => reason === "alone").length;
    add("no-buzz", "info", { soundingSeconds, ...(alone > 0 && { reason: "alone", alone }) });
  }
  if (state === "unclear") {
    add("unclear-sounds", "warning", {
      reason: reading.doubt ?? "few",
      count: reading.possibleSeconds.length,
      seconds: reading.possibleSeconds.map((one) => one.toFixed(2)).join(", "),
    });
  }
  if (state === "continuous") add("continuous-buzz", "warning", { upperShareDb: reading.upperShareDb ?? 0 });
  if (state === "strokes" && silentSeconds < LITTLE_SILENCE_SECONDS) {
    add("little-silence", "warning", { silentSeconds });
  }
  if (reading.missedSeconds.length > 0) {
    const seconds = reading.missedSeconds.map((one) => one.toFixed(2)).join(", ");
    add("missed-strokes", "info", { count: reading.missedSeconds.length, seconds });
  }
  const weak = strokes.filter(({ isWeak }) => isWeak);
  if (weak.length > 0) {
    const seconds = weak.map(({ onsetSeconds }) => onsetSeconds.toFixed(2)).join(", ");
    add("weak-strokes", "info", { count: weak.length, seconds });
  }
  const timing = reading.timingSpreadSeconds;
  if (timing !== null && reading.strokesPerSecond !== null) {
    const share = timing.interval95[0] * reading.strokesPerSecond;
    if (share > UNEVEN_SHARE) {
      add("uneven-strokes", "info", { spreadMilliseconds: 1000 * timing.standardDeviation });
    }
  }
  const unsure = strokes.filter(({ withinSeconds }) => withinSeconds > UNSURE_SECONDS);
  if (unsure.length > 0) {
    const rough = unsure.filter(({ isRough }) => isRough).length;
    add("unsure-onsets", unsure.length > UNSURE_SHARE * strokes.length ? "warning" : "info", {
      count: unsure.length,
      rough,
      faint: unsure.length - rough,
      widestMilliseconds: Math.ceil(1000 * Math.max(...unsure.map(({ withinSeconds }) => withinSeconds))),
    });
  }
  if (reading.otherSounds.length > 0) {
    const of = (wanted: string) => reading.otherSounds.filter(({ reason }) => reason === wanted).length;
    const [notes, knocks, unlike, alone] = [of("note"), of("knock"), of("unlike"), of("alone")];
    add("other-sounds", "info", { count: reading.otherSounds.length, notes, knocks, unlike, alone });
  }
  if (reading.sounding.length > 0) {
    add("strings-along", "warning", { strings: reading.sounding.join(", ") });
  }
  if (reading.pitchRefusal !== null) {
    add("pitch-not-read", "warning", { reason: reading.pitchRefusal, strings: reading.sounding.join(", ") });
  }
  if (reading.turnsPerSecond === null && state === "strokes") {
    add("turns-unknown", "info", { reason: reading.turnRefusal ?? "no-swing" });
  }
  if (string === null || others.length === 0) add("no-target", "info");
  return findings;
}
