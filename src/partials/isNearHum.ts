/** A hum line this close to a partial pulls its phase as it beats with it over a passage of a few seconds. */
const NEAR_HZ = 3;

/** True where a frequency lies beside a line of mains hum. */
export function isNearHum(frequencyHz: number, humFrequenciesHz: readonly number[]): boolean {
  return humFrequenciesHz.some((humHz) => Math.abs(frequencyHz - humHz) < NEAR_HZ);
}
