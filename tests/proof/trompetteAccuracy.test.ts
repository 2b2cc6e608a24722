import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { readTrompette } from "../../src/trompette/readTrompette.js";
import { cents } from "../../src/units/cents.js";
import { matchStrokes } from "../trompette/matchStrokes.js";
import { randomPlan } from "../trompette/randomTake.js";
import { trompetteTake } from "../trompette/trompetteTake.js";

/** Seeds of trials lie below 100, from 5000 to 8000, from 40,000 to 61,000, from 310,000 to 341,000 and from 610,000 to 616,000. */
const FIRST_SEED = 20_000;

interface Row {
  readonly isEasy: boolean;
  readonly errorMs: number;
  readonly withinMs: number;
}

/**
 * The bar, for every kind of buzz: what is said to be known to 10 ms is. On other takes that no trial used 0 of 8,413 were not alone, and 2
 * of 6,074 over drones: of the 1,500 and the 800 here one may be, two would come by chance once in 30 runs. One in twelve is said not to be
 * known so well on those takes, whole takes that are faint among them.
 */
function expectTold(rows: readonly Row[]): void {
  const told = rows.filter(({ withinMs }) => withinMs <= 10);
  expect(told.filter(({ errorMs }) => errorMs > 10).length).toBeLessThanOrEqual(1);
  expect(told.length / rows.length).toBeGreaterThan(0.85);
}

function measure(takes: number, drones: boolean, firstSeed: number) {
  const rows: Row[] = [];
  const counts = { strokes: 0, missed: 0, added: 0, unclaimed: 0, drops: 0, dropsHeld: 0 };
  const [drop, silent, strength, wheelMs]: number[][] = [[], [], [], []];
  for (let t = 0; t < takes; t++) {
    const seed = firstSeed + t;
    const plan = randomPlan(new SeededRandom(seed), seed, { drones });
    const truth = trompetteTake(plan);
    const reading = readTrompette(memoryRecording([truth.samples], truth.sampleRateHz), {
      string: { name: "T", frequencyHz: plan.frequencyHz * 1.003 },
      others: (plan.drones ?? []).map(({ frequencyHz }, d) => ({ name: `D${d}`, frequencyHz })),
    });
    const { errors, missed, added } = matchStrokes(truth.onsetSeconds, reading.strokes);
    counts.added += added;
    if (reading.state === "strokes") {
      counts.strokes += truth.onsetSeconds.length;
      counts.missed += missed.length;
    } else counts.unclaimed++;
    for (const { seconds, stroke, index } of errors) {
      rows.push({
        isEasy: plan.kind !== "irregular" && truth.strengthDb[index] > -10,
        errorMs: 1000 * Math.abs(seconds),
        withinMs: 1000 * stroke.withinSeconds,
      });
      if (!drones && stroke.strengthDb !== null) strength.push(stroke.strengthDb - truth.strengthDb[index]);
    }
    const wheel = reading.strokes.map((one) => ({ ...one, onsetSeconds: one.strokeSeconds }));
    wheelMs.push(
      ...matchStrokes(truth.strokeSeconds, wheel).errors.map(({ seconds }) => 1000 * Math.abs(seconds)),
    );
    if (reading.silentPitch !== null) {
      silent.push(Math.abs(cents(reading.silentPitch.frequencyHz, truth.silentHz)));
    }
    const { differenceCents } = reading;
    if (differenceCents?.interval95) {
      counts.drops++;
      drop.push(Math.abs(differenceCents.mean - truth.dropCents));
      const [low, high] = differenceCents.interval95;
      if (low <= truth.dropCents && truth.dropCents <= high) counts.dropsHeld++;
    }
  }
  return { rows, counts, drop, silent, strength, wheelMs };
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(share * (sorted.length - 1))];
}

describe("strokes of the trompette against known onsets", () => {
  it("alone: 90 takes of four kinds of buzz, -15 to +6 dB, 1 to 10 strokes a second, rooms to 0.5 s", () => {
    const takes = 90;
    const { rows, counts, drop, silent, strength, wheelMs } = measure(takes, false, FIRST_SEED);
    const easy = rows.filter(({ isEasy }) => isEasy).map(({ errorMs }) => errorMs);
    const all = rows.map(({ errorMs }) => errorMs);
    const within = rows.filter(({ errorMs, withinMs }) => errorMs <= withinMs).length;
    console.log(
      `trompette alone: ${counts.unclaimed} of ${takes} takes not claimed; in the others ${counts.strokes} strokes, ${counts.missed} missed, ${counts.added} added; onset error, ms: ` +
        `median ${quantile(all, 0.5).toFixed(1)}, 95 % ${quantile(all, 0.95).toFixed(1)}, worst ${quantile(all, 1).toFixed(1)}; ` +
        `knocks and noise above -10 dB (${easy.length}): 95 % ${quantile(easy, 0.95).toFixed(1)}, worst ${quantile(easy, 1).toFixed(1)}; ` +
        `stated as known to 10 ms ${rows.filter(({ withinMs }) => withinMs <= 10).length}, of these off by more ${rows.filter(({ errorMs, withinMs }) => withinMs <= 10 && errorMs > 10).length}; the wheel's strokes: 95 % ${quantile(wheelMs, 0.95).toFixed(1)}, worst ${quantile(wheelMs, 1).toFixed(1)}; within what is stated ${((100 * within) / rows.length).toFixed(1)} %; pitch without buzz, cents: median ` +
        `${quantile(silent, 0.5).toFixed(2)}, 95 % ${quantile(silent, 0.95).toFixed(2)}; difference, cents: median ` +
        `${quantile(drop, 0.5).toFixed(2)}, 95 % ${quantile(drop, 0.95).toFixed(2)}, held ${counts.dropsHeld} of ${counts.drops}; ` +
        `strength, dB: median ${quantile(strength, 0.5).toFixed(1)}, ${quantile(strength, 0.025).toFixed(1)} to ${quantile(strength, 0.975).toFixed(1)}`,
    );
    expectTold(rows);
    // As loud as a player would call a buzz, and not irregular: the bar for each, also for those told as about.
    expect(quantile(easy, 1)).toBeLessThan(10);
    expect(quantile(all, 0.5)).toBeLessThan(2.5);
    expect(quantile(all, 0.95)).toBeLessThan(10);
    // What is stated holds in 95 of 100; that of 2,000 strokes in takes of some 20 alike is known to about 2.
    expect(within / rows.length).toBeGreaterThan(0.93);
    // The wheel's own stroke, hidden where a bridge knocks seldom: 4 ms for 95 % in trials.
    expect(quantile(wheelMs, 0.95)).toBeLessThan(6);
    // In trials 3 % of the strokes (ghosts 6 dB down among them) were missed, 1 in 1,000 added, and 7 of 100 takes were not claimed (too
    // few strokes, or an irregular buzz that seems to begin several times within one).
    expect(counts.missed / counts.strokes).toBeLessThan(0.06);
    expect(counts.unclaimed / takes).toBeLessThan(0.14);
    expect(counts.added / counts.strokes).toBeLessThan(0.005);
    expect(quantile(silent, 0.5)).toBeLessThan(0.3);
    expect(quantile(drop, 0.5)).toBeLessThan(1.5);
    // 90 of 100 in trials: the room's part is known roughly only.
    expect(counts.dropsHeld / counts.drops).toBeGreaterThan(0.8);
  });

  it("alone and dry: 60 takes of knocks each period, every second, and noise", () => {
    const kinds = ["each-period", "second-period", "noise"] as const;
    const rows = Array.from({ length: 60 }, (_, t) => FIRST_SEED + 2000 + t).flatMap((seed) => {
      const kind = kinds[seed % kinds.length];
      const { reverberationSeconds, roomDb, ...plan } = randomPlan(new SeededRandom(seed), seed, { kind });
      const truth = trompetteTake(plan);
      const reading = readTrompette(memoryRecording([truth.samples], truth.sampleRateHz), {
        string: { name: "T", frequencyHz: plan.frequencyHz * 1.003 },
        others: [],
      });
      return matchStrokes(truth.onsetSeconds, reading.strokes).errors.map(({ seconds, stroke, index }) => ({
        isStrong: truth.strengthDb[index] > -10,
        errorMs: 1000 * Math.abs(seconds),
        withinMs: 1000 * stroke.withinSeconds,
      }));
    });
    const strong = rows.filter(({ isStrong }) => isStrong).map(({ errorMs }) => errorMs);
    const told = rows.filter(({ withinMs }) => withinMs <= 10).map(({ errorMs }) => errorMs);
    console.log(
      `trompette alone and dry: above -10 dB ${strong.length} onsets, worst ${quantile(strong, 1).toFixed(1)} ms; told as known to 10 ms ${told.length} of ${rows.length}, worst ${quantile(told, 1).toFixed(1)} ms`,
    );
    // The bar without an exception: of 10,673 and 14,190 on other takes that no trial used none was off by more.
    expect(strong.length).toBeGreaterThan(400);
    expect(quantile(strong, 1)).toBeLessThan(10);
    expect(quantile(told, 1)).toBeLessThan(10);
  });

  it("over one drone or two: 60 takes", () => {
    const takes = 60;
    const { rows, counts } = measure(takes, true, FIRST_SEED + 1000);
    const easy = rows.filter(({ isEasy }) => isEasy).map(({ errorMs }) => errorMs);
    console.log(
      `trompette over drones: ${counts.unclaimed} of ${takes} takes not claimed; in the others ${counts.strokes} strokes, ${counts.missed} missed, ${counts.added} added; ` +
        `onset error, ms, knocks and noise above -10 dB (${easy.length}): 95 % ${quantile(easy, 0.95).toFixed(1)}, worst ${quantile(easy, 1).toFixed(1)}`,
    );
    expect(quantile(easy, 0.95)).toBeLessThan(6);
    expect(quantile(easy, 1)).toBeLessThan(10);
    expectTold(rows);
    expect(rows.filter(({ errorMs, withinMs }) => errorMs <= withinMs).length / rows.length).toBeGreaterThan(
      0.9,
    );
    // A drone's own bright part covers the weak ones: 8 to 15 % in trials, and 1 in 10 takes as a whole.
    expect(counts.missed / counts.strokes).toBeLessThan(0.2);
    expect(counts.unclaimed / takes).toBeLessThan(0.2);
    expect(counts.added / counts.strokes).toBeLessThan(0.005);
  });
});
