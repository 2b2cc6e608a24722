import type { StringTarget } from "../instrument/Instrument.js";
import { cents, shiftByCents } from "../units/cents.js";
import { dbToPower, powerToDb } from "../units/decibels.js";
import type { Pluck } from "./Pluck.js";
import type { SympatheticOwnFinding, SympatheticString } from "./SympatheticReading.js";
import { type Measured, stringPitch, type variationBetween } from "./stringPitch.js";

/** Further than this from its target, a string may not be the one it is taken for. */
const NEAR_CENTS = 60;
/** Plucks of one string that differ by more are told, and so is a pitch less sure than this. */
const DIFFER_CENTS = 2;
const UNSURE_CENTS = 1;
/** A glide that is heard at the beginning. */
const GLIDE_CENTS = 4;
/** Beats of a string with itself that a listener follows. */
const BEAT_HZ = 0.3;
const NO_VARIATION = { variance: 0, degreesOfFreedom: 0 };

/** Joins the plucks of one string. */
export function readPluckedString(
  { name, role, note, targetHz }: StringTarget,
  isNamed: boolean,
  plucks: readonly Pluck[],
  between: ReturnType<typeof variationBetween>,
): SympatheticString {
  const head = { name, role: isNamed ? role : null, note, targetHz };
  if (plucks.length === 0) {
    return {
      ...head,
      status: "not-heard",
      frequencyHz: null,
      deviationCents: null,
      interval95Cents: null,
      inharmonicity: null,
      inharmonicityInterval95: null,
      octaveStretchCents: null,
      decaySeconds: null,
      decayInterval95Seconds: null,
      answerCents: null,
      levelDb: null,
      spreadCents: null,
      plucks: [],
      findings: [],
    };
  }
  const values = plucks.map(({ frequencyHz, deviationCents }) => ({
    value: cents(frequencyHz, targetHz),
    deviation: deviationCents,
  }));
  const pitch = stringPitch(values, between);
  const frequencyHz = shiftByCents(targetHz, pitch.mean);
  const stiff = plucks.flatMap(({ inharmonicity, inharmonicityDeviation }): Measured[] =>
    inharmonicity === null || inharmonicityDeviation === null
      ? []
      : [{ value: inharmonicity, deviation: inharmonicityDeviation }],
  );
  const stiffness = stiff.length === 0 ? null : ownMean(stiff);
  const decay = ownMean(
    plucks.map((one) => ({ value: one.decaySeconds, deviation: one.decayDeviationSeconds })),
  );
  const widthHz = Math.log(1000) / (2 * Math.PI * decay.mean);
  const spreadCents = plucks.length < 2 ? null : deviationOf(values.map(({ value }) => value));
  const reading = {
    ...head,
    status: "measured" as const,
    frequencyHz,
    deviationCents: pitch.mean,
    interval95Cents: pitch.interval95,
    inharmonicity: stiffness?.mean ?? null,
    inharmonicityInterval95: stiffness?.interval95 ?? null,
    octaveStretchCents:
      stiffness === null ? null : 600 * Math.log2((1 + 4 * stiffness.mean) / (1 + stiffness.mean)),
    decaySeconds: decay.mean,
    decayInterval95Seconds: decay.interval95,
    answerCents: cents(frequencyHz + widthHz, frequencyHz),
    levelDb: powerToDb(plucks.reduce((sum, { levelDb }) => sum + dbToPower(levelDb) / plucks.length, 0)),
    spreadCents,
    plucks: plucks.map(({ modes: _, holdShare: __, ...one }) => one),
  };
  return { ...reading, findings: findingsOf(reading) };
}

function findingsOf(string: Omit<SympatheticString, "findings">): SympatheticOwnFinding[] {
  const { name, deviationCents, interval95Cents, spreadCents, plucks } = string;
  const findings: SympatheticOwnFinding[] = [];
  if (deviationCents === null || interval95Cents === null) return findings;
  const add = (
    code: SympatheticOwnFinding["code"],
    severity: SympatheticOwnFinding["severity"],
    values: SympatheticOwnFinding["values"],
  ) => findings.push({ code, severity, values: { string: name, ...values } });
  if (Math.abs(deviationCents) > NEAR_CENTS) add("pluck-far-off", "warning", { deviationCents });
  if (spreadCents !== null && spreadCents > DIFFER_CENTS) add("plucks-differ", "warning", { spreadCents });
  const halfWidthCents = (interval95Cents[1] - interval95Cents[0]) / 2;
  if (halfWidthCents > UNSURE_CENTS) add("pluck-unsure", "warning", { halfWidthCents });
  const glideCents = Math.max(...plucks.map((one) => one.glideCents));
  if (glideCents > GLIDE_CENTS) add("pluck-glides", "info", { glideCents });
  const beats = plucks.flatMap(({ splitHz }) => (splitHz !== null && splitHz > BEAT_HZ ? [splitHz] : []));
  if (beats.length > 0 && 2 * beats.length > plucks.length) {
    add("string-beats", "info", { beatsPerSecond: beats.reduce((sum, hz) => sum + hz / beats.length, 0) });
  }
  return findings;
}

/** Mean with what single values are uncertain by and what they differ by. */
function ownMean(values: readonly Measured[]) {
  const between = values.length > 1 ? spreadOf(values) : NO_VARIATION;
  // The least deviation of pitches, in cents, has no place here.
  const scale = Math.max(...values.map(({ value }) => Math.abs(value)), 1e-9);
  const { mean, interval95 } = stringPitch(
    values.map(({ value, deviation }) => ({ value: value / scale, deviation: deviation / scale })),
    { ...between, variance: between.variance / scale ** 2 },
  );
  return { mean: mean * scale, interval95: [interval95[0] * scale, interval95[1] * scale] as const };
}

function spreadOf(values: readonly Measured[]) {
  const expected = values.reduce((sum, { deviation }) => sum + deviation ** 2 / values.length, 0);
  const variance = deviationOf(values.map(({ value }) => value)) ** 2 - expected;
  return { variance: Math.max(0, variance), degreesOfFreedom: values.length - 1 };
}

function deviationOf(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value / values.length, 0);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
}
