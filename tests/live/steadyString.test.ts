import { describe, expect, it } from "vitest";
import { measureTake } from "../../src/reading/measureTake.js";
import { cents } from "../../src/units/cents.js";
import { bowedTake, NOTE_HZ, recordingOf, stringNamed } from "../reading/bowedTake.js";
import { movedHz } from "../strings/handMadePassage.js";
import { between, firstSounding, hear, named, RATE, soprano } from "./hearing.js";

/** What was promised of the page that shows it. */
const WITHIN_CENTS = 2;
const LATE_SECONDS = 0.5;
/** A string that begins is read at most this long after it begins. */
const SETTLED_SECONDS = 1;

// Truth from the synthesis: the pitch that an endless take would have. 3 cents of swing is the most a sound wheel has
// (common practice, no source).
const cases = [
  { name: "G2", off: 4, swingCents: 1.2, swingRateHz: 1.4 },
  { name: "C3", off: -31, swingCents: 0, swingRateHz: 1 },
  { name: "D4", off: 17, swingCents: 3, swingRateHz: 0.9 },
  { name: "G4", off: -48, swingCents: 3, swingRateHz: 1.9 },
] as const;

describe.each(cases)(
  "a steady $name, $off cents off, that swings by $swingCents cents",
  ({ name, off, ...swing }) => {
    const frequencyHz = movedHz(NOTE_HZ[name], off);
    const note = { frequencyHz, durationSeconds: 6, ...swing };
    const take = bowedTake([note], { sampleRateHz: RATE, seed: 8101 + off, noiseDb: -70 });
    const readings = hear([take.samples]);
    const [{ startSeconds }] = take.placed;
    const sounding = between(readings, startSeconds, startSeconds + 6).filter(
      (reading) => named(reading, name).status === "sounding",
    );

    it("is shown at most half a second after it begins, and then every half second", () => {
      const first = firstSounding(readings, name);
      expect((first?.seconds ?? Number.NaN) - startSeconds).toBeLessThanOrEqual(LATE_SECONDS);
      const moments = sounding.map(({ seconds }) => seconds);
      // The last of them comes within one reading of the end.
      const gaps = [...moments, startSeconds + 6].map((at, i) => at - (moments[i - 1] ?? startSeconds));
      expect(Math.max(...gaps)).toBeLessThanOrEqual(LATE_SECONDS + 1e-9);
    });

    it("is within 2 cents of the truth from one second on", () => {
      const settled = sounding.filter(({ seconds }) => seconds >= startSeconds + SETTLED_SECONDS);
      expect(settled.length).toBeGreaterThanOrEqual(9);
      for (const reading of settled) {
        expect(Math.abs(cents(named(reading, name).frequencyHz ?? 0, frequencyHz))).toBeLessThan(
          WITHIN_CENTS,
        );
        expect(reading.sound).toBe("one");
      }
    });

    it("is within 2 cents of what the whole take says in the end, and keeps that", () => {
      const final = stringNamed(measureTake(recordingOf(take), { targets: soprano, a4Hz: 440 }), name);
      for (const reading of readings.filter(({ seconds }) => seconds >= startSeconds + SETTLED_SECONDS)) {
        const away =
          (named(reading, name).deviationCents ?? Number.NaN) - (final.deviationCents ?? Number.NaN);
        expect(Math.abs(away)).toBeLessThan(WITHIN_CENTS);
      }
      // The level of the partials is a mean over another window: a swing of 0.5 dB and the fade at the ends move it.
      const last = named(readings[readings.length - 1], name);
      expect(Math.abs((last.levelDb ?? Number.NaN) - (final.levelDb ?? Number.NaN))).toBeLessThan(0.5);
    });

    it("is shown as heard at most half a second after it ends, and how long ago that was", () => {
      const after = readings.filter(({ seconds }) => seconds >= startSeconds + 6 + LATE_SECONDS);
      expect(after.length).toBeGreaterThan(0);
      for (const reading of after) {
        const string = named(reading, name);
        expect(string.status).toBe("heard");
        expect(reading.sound).toBe("nothing");
        // Frames of 0.13 s and a fade of 0.1 s blur when it ended.
        expect(
          Math.abs((string.secondsAgo ?? Number.NaN) - (reading.seconds - startSeconds - 6)),
        ).toBeLessThan(0.15);
      }
    });

    it("leaves the other strings as not heard", () => {
      const { strings } = readings[readings.length - 1];
      for (const string of strings.filter((one) => one.name !== name)) {
        expect(string).toMatchObject({ status: "not-heard", frequencyHz: null, lack: "not-heard" });
      }
    });
  },
);
