import type { LoggedTake } from "../../src/history/logLineSchema.js";
import { shiftByCents } from "../../src/units/cents.js";

/** What a take of the tests is made from; cents are from each string's target. */
export interface InventedTake {
  readonly takenAt: string;
  readonly cents: Readonly<Record<string, number | null>>;
  readonly halfCents?: number | null;
  readonly more?: Partial<LoggedTake>;
}

/** Equal temperament from A4 = 440 Hz, by arithmetic. */
const TARGETS: Readonly<Record<string, number>> = {
  C2: 65.40639,
  G2: 97.99886,
  C3: 130.81278,
  G3: 195.99772,
  D4: 293.66477,
  G4: 391.99544,
};

/** A take of an invented instrument as the log holds it. A string without cents was not heard. */
export function loggedTake({ takenAt, cents, halfCents = 0.3, more = {} }: InventedTake): LoggedTake {
  return {
    schemaVersion: 1,
    tool: "gurdybench",
    kind: "take",
    toolVersion: "0.0.0-test",
    instrument: "Low Meadow",
    file: `${takenAt}.wav`,
    takenAt,
    takenAtBasis: "given",
    temperatureC: null,
    humidityPercent: null,
    work: null,
    settings: { a4Hz: 440, tonic: null, temperament: "equal", tuning: null, capo: {}, lowEdgeHz: 177.8279 },
    strings: Object.entries(cents).map(([name, off]) => ({
      name,
      role: "drone" as const,
      targetHz: TARGETS[name]!,
      status: off === null ? ("not-heard" as const) : ("measured" as const),
      frequencyHz: off === null ? null : shiftByCents(TARGETS[name]!, off),
      deviationCents: off,
      interval95Cents: off === null || halfCents === null ? null : [off - halfCents, off + halfCents],
      levelDb: off === null ? null : -20,
    })),
    lowRegisterDb: -5,
    findings: [],
    ...more,
  };
}

/** A log of such takes, one line each. */
export function logOf(takes: readonly LoggedTake[]): string {
  return takes.map((take) => `${JSON.stringify(take)}\n`).join("");
}
