import type { TapOwnFinding, TapReading } from "./TapReading.js";

/** Fewer taps than this give no spread worth the name. */
const ENOUGH_TAPS = 3;
/** What the room adds, less far down than this: Q is uncertain by a tenth and more. */
const STRONG_ROOM_DB = -20;
const NOISY_DB = 30;
/** So many modes in a row that overlap: above the first of them single modes can't be told. */
const CROWDED = 3;

/** What is to be told about a take of taps. */
export function tapFindings(
  { taps, modes, leftOut, roomDb, peakToNoiseDb }: Omit<TapReading, "findings">,
  isOfTaps: boolean,
): TapOwnFinding[] {
  const used = taps.filter((tap) => tap.leftOut === null);
  const lost = (reason: string) => taps.filter((tap) => tap.leftOut === reason);
  const findings: TapOwnFinding[] = [];
  const add = (
    code: TapOwnFinding["code"],
    severity: TapOwnFinding["severity"],
    values: TapOwnFinding["values"] = {},
  ) => findings.push({ code, severity, values });
  if (used.length === 0) add("no-tap", "problem", { heard: taps.length });
  else if (!isOfTaps || modes.length === 0) add("not-taps", "problem", { count: used.length });
  else if (used.length < ENOUGH_TAPS) add("few-taps", "warning", { count: used.length });
  for (const [reason, code] of [
    ["clipped", "tap-clipped"],
    ["disturbed", "tap-disturbed"],
    ["too-close", "taps-too-close"],
  ] as const) {
    const some = lost(reason);
    if (some.length > 0) {
      const moments = some.map(({ atSeconds }) => atSeconds.toFixed(1)).join(", ");
      add(code, "warning", { count: some.length, moments });
    }
  }
  const beyond = lost("beyond-limit").length;
  if (beyond > 0) add("taps-left-out", "info", { count: beyond, used: used.length });
  if (!isOfTaps) return findings;
  for (const [reason, code, severity] of [
    ["string", "string-rings", "warning"],
    ["steady", "steady-line", "info"],
    ["unclear", "modes-unclear", "info"],
  ] as const) {
    const some = leftOut.filter((one) => one.reason === reason);
    if (some.length > 0) {
      const frequencies = some.map(({ frequencyHz }) => frequencyHz.toFixed(0)).join(", ");
      add(code, severity, { count: some.length, frequencies });
    }
  }
  const crowdedAt = modes.findIndex((_, k) => {
    const row = modes.slice(k, k + CROWDED);
    return row.length === CROWDED && row.every(({ isOverlapping }) => isOverlapping);
  });
  if (crowdedAt >= 0) add("modes-crowded", "info", { fromHz: modes[crowdedAt]!.frequencyHz.value });
  if (roomDb !== null && roomDb > STRONG_ROOM_DB) add("room-strong", "warning", { roomDb });
  if (peakToNoiseDb !== null && peakToNoiseDb < NOISY_DB) add("taps-noisy", "warning", { peakToNoiseDb });
  return findings;
}
