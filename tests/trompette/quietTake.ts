import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { bodyAmplitudes } from "../../src/synthesis/bodyAmplitudes.js";
import { bowedString } from "../../src/synthesis/bowedString.js";
import { addAt } from "../reading/bowedTake.js";
import { randomPlan } from "./randomTake.js";
import { type TrompettePlan, type TrompetteTake, trompetteTake } from "./trompetteTake.js";

/** What may be taken for a buzz and is none. */
export const quietKinds = [
  "plain",
  "harsh",
  "drones",
  "melody",
  "plucks",
  "knocks",
  "coughs",
  "stops",
] as const;
export type QuietKind = (typeof quietKinds)[number];

type Add = NonNullable<TrompettePlan["others"]>;

/** A take in which the trompette does not buzz, but something else may happen. */
export function quietTake(kind: QuietKind, seed: number): { take: TrompetteTake; plan: TrompettePlan } {
  const random = new SeededRandom(seed * 31 + 7);
  const drawn = randomPlan(random, seed, { drones: kind === "drones" });
  const plan: TrompettePlan = {
    ...drawn,
    strokes: [],
    levelSwingDb: random.uniform(0.5, 3),
    swingCents: random.uniform(0.5, 3),
    ...(kind === "harsh" && { harshDb: random.uniform(-28, -14), harshMoveDb: random.uniform(2, 4) }),
    others: othersOf(kind, drawn),
  };
  return { take: trompetteTake(plan), plan };
}

function othersOf(kind: QuietKind, plan: TrompettePlan): Add {
  const first = (plan.startSeconds ?? 1) + 0.6;
  const last = (plan.startSeconds ?? 1) + plan.bowedSeconds - 0.5;
  return (samples, rateHz, power, random) => {
    const at = (seconds: number) => Math.round(seconds * rateHz);
    const size = Math.sqrt(power);
    if (kind === "melody") {
      const even = random.uniform() < 0.5 ? random.uniform(0.15, 0.5) : 0;
      const scale = [1, 9 / 8, 5 / 4, 4 / 3, 3 / 2, 5 / 3, 2];
      for (let t = first; t < last - 0.5; ) {
        const seconds = even > 0 ? even : random.uniform(0.15, 0.6);
        const hz = plan.frequencyHz * 1.5 * scale[Math.floor(random.uniform(0, scale.length))];
        const note = bowedString({
          frequencyHz: hz,
          durationSeconds: seconds,
          sampleRateHz: rateHz,
          seed: Math.floor(random.uniform(0, 1e9)),
          partialAmplitudes: bodyAmplitudes(
            hz,
            Math.floor((0.45 * rateHz) / hz),
            size * random.uniform(0.5, 2),
          ),
          attackSeconds: random.uniform(0.008, 0.04),
          releaseSeconds: 0.03,
        });
        addAt(samples, note.samples, at(t));
        // The tangent knocks on the string.
        ring(samples, at(t), rateHz, size * random.uniform(0, 0.5), 0.004, random);
        t += seconds + (even > 0 ? random.uniform(0, 0.01) : random.uniform(0, 0.1));
      }
    }
    if (kind === "plucks") {
      const even = random.uniform() < 0.5 ? random.uniform(0.2, 0.6) : 0;
      for (let t = first; t < last; t += even > 0 ? even : random.uniform(0.2, 1)) {
        const hz = plan.frequencyHz * random.uniform(1, 3);
        const decay = random.uniform(0.15, 0.6);
        const amount = size * random.uniform(0.3, 1.5);
        for (let i = 0; i < 1.2 * rateHz && at(t) + i < samples.length; i++) {
          let sum = 0;
          for (let n = 1; n * hz < Math.min(8000, 0.45 * rateHz); n++) {
            sum +=
              (Math.sin((2 * Math.PI * n * hz * i) / rateHz) / n) *
              Math.exp((-i * n ** 0.7) / (decay * rateHz));
          }
          samples[at(t) + i] += amount * sum;
        }
      }
    }
    if (kind === "knocks") {
      const even = random.uniform() < 0.5 ? random.uniform(0.25, 0.8) : 0;
      for (let t = first; t < last; t += even > 0 ? even : random.uniform(0.2, 1.2)) {
        ring(samples, at(t), rateHz, size * random.uniform(0.5, 4), random.uniform(0.001, 0.006), random);
      }
    }
    if (kind === "coughs") {
      for (let t = first; t < last; t += random.uniform(0.35, 1.5)) {
        burst(samples, at(t), rateHz, size * random.uniform(0.2, 1.5), random.uniform(0.08, 0.3), random);
      }
    }
    if (kind === "stops") {
      // The wheel stops and starts again.
      for (let t = first + random.uniform(0.3, 0.8); t < last - 0.6; t += random.uniform(0.9, 1.6)) {
        const gap = random.uniform(0.05, 0.4);
        const edge = random.uniform(0.02, 0.1);
        for (let i = at(t - edge); i < at(t + gap + edge); i++) {
          const seconds = i / rateHz;
          const away = Math.max(t - seconds, seconds - t - gap, 0);
          samples[i] *= 0.5 - 0.5 * Math.cos((Math.PI * Math.min(edge, away)) / edge);
        }
        burst(
          samples,
          at(t + gap),
          rateHz,
          size * random.uniform(0, 0.15),
          random.uniform(0.03, 0.1),
          random,
        );
      }
    }
  };
}

/** A knock: a few damped modes. */
function ring(
  samples: Float32Array,
  start: number,
  rateHz: number,
  amount: number,
  decay: number,
  random: SeededRandom,
): void {
  const modes = Array.from({ length: 8 }, () => ({
    hz: Math.min(0.45 * rateHz, 200 * 40 ** random.uniform()),
    amount: random.normal(amount),
  }));
  for (let i = 0; i < 10 * decay * rateHz && start + i < samples.length; i++) {
    for (const mode of modes) {
      samples[start + i] +=
        mode.amount * Math.sin((2 * Math.PI * mode.hz * i) / rateHz) * Math.exp(-i / (decay * rateHz));
    }
  }
}

/** A burst of noise with a soft begin and a longer end, of a colour of its own. */
function burst(
  samples: Float32Array,
  start: number,
  rateHz: number,
  amount: number,
  seconds: number,
  random: SeededRandom,
): void {
  const rise = random.uniform(0.01, 0.04);
  const hz = 400 * 6 ** random.uniform();
  const width = random.uniform(0.5, 1.5) * hz;
  const keep = Math.exp((-Math.PI * width) / rateHz);
  const turn = 2 * keep * Math.cos((2 * Math.PI * hz) / rateHz);
  let [a, b] = [0, 0];
  for (let i = 0; i < (seconds + 0.2) * rateHz && start + i < samples.length; i++) {
    const t = i / rateHz;
    const shape = Math.min(1, t / rise) * (t < seconds ? 1 : Math.exp(-(t - seconds) / 0.03));
    const next = random.normal(Math.sqrt(1 - keep)) + turn * a - keep * keep * b;
    [b, a] = [a, next];
    samples[start + i] += amount * shape * (0.7 * next + random.normal(0.15));
  }
}
