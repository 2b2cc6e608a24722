import { describe, expect, it } from "vitest";
import { hearingLimitCents } from "../../src/report/hearingLimitCents.js";
import { stringAdvice } from "../../src/report/stringAdvice.js";
import { stringErrors } from "../../src/report/stringErrors.js";
import { tuningPlan } from "../../src/report/tuningPlan.js";
import type { StringReading } from "../../src/strings/StringReading.js";
import { handMadeDocument, handMadeString, handMadeTake } from "./handMade.js";

/** What is said of the first string of a take of one, with what the plan of that take holds for it. */
function advised(given: Partial<StringReading>, anchor: string | null = null) {
  const referencePitch =
    anchor === null ? null : { a4Hz: 440, offsetCents: 0, interval95Cents: null, anchor };
  const take = handMadeDocument([
    handMadeTake({ strings: [handMadeString(given)], pairs: [], referencePitch }),
  ]).takes[0]!;
  const [error] = stringErrors(take);
  const [step] = tuningPlan(take).steps;
  return stringAdvice(take.strings[0]!, { anchor, error: error ?? null, step: step ?? null });
}

const advice = (given: Partial<StringReading>) => advised(given);

function off(deviationCents: number, targetHz = 391.9954) {
  return advice({
    targetHz,
    frequencyHz: targetHz * 2 ** (deviationCents / 1200),
    deviationCents,
    interval95Cents: [deviationCents - 0.5, deviationCents + 0.5],
  });
}

describe("hearingLimitCents", () => {
  it("follows Wier, Jesteadt & Green 1977 (from memory)", () => {
    // Worked from the printed formula apart from this program, printed to 0.1 cent: hence 0.05, and a little for 65 Hz.
    const expected: readonly [number, number][] = [
      [65.4064, 12.5],
      [97.9989, 9.3],
      [195.9977, 6.0],
      [391.9954, 4.2],
      [800, 3.5],
    ];
    for (const [frequencyHz, cents] of expected) {
      expect(Math.abs(hearingLimitCents(frequencyHz) - cents)).toBeLessThan(0.06);
    }
  });
});

describe("stringAdvice", () => {
  it("sends a sharp string down and a flat one up", () => {
    expect(off(8).text).toMatch(/^8\.0 cents sharp .*Tune it down by about 8 cents\.$/);
    expect(off(-8).text).toMatch(/^8\.0 cents flat .*Tune it up by about 8 cents\.$/);
    expect(off(30).text).toContain("Tune it down by about 30 cents.");
    expect(off(-30).text).toContain("Tune it up by about 30 cents.");
  });

  it("gives the interval with its signs", () => {
    expect(off(-8).text).toContain("-8.5 to -7.5");
    expect(off(8).text).toContain("+7.5 to +8.5");
  });

  it("leaves alone what can't be told from zero, even where the number is large", () => {
    const unsure = advice({ deviationCents: 15, interval95Cents: [-2, 32] });
    expect(unsure.verdict).toBe("good");
    expect(unsure.text).toContain("15.0 cents sharp (95 %: -2.0 to +32.0). Leave it.");
    expect(unsure.text).not.toContain("Tune");
  });

  it("says who would hear it, by the pitch of the string", () => {
    expect(off(2.5, 65.4064).text).toContain("Leave it.");
    expect(off(2.5).text).toContain("Few hear this");
    expect(off(8).text).toContain("Players hear this.");
    expect(off(20).text).toContain("Anyone hears this.");
  });

  it("cautions before a string is brought up far, and only then", () => {
    for (const text of [off(-61).text, off(-110).text]) {
      expect(text).toContain("small steps");
      expect(text).toContain("snaps");
      expect(text).toContain("Protect your eyes");
      expect(text).toContain("maker's limits first");
    }
    expect(off(61).text).not.toContain("snaps");
    expect(off(-59).text).not.toContain("snaps");
  });

  it("says why there is no interval", () => {
    const text = advice({ deviationCents: 20, interval95Cents: null }).text;
    expect(text).toContain("too short a time");
    expect(text).toContain("20.0 cents sharp");
  });

  it("says what to do where there is no reading", () => {
    const none = { frequencyHz: null, deviationCents: null, interval95Cents: null };
    expect(advice({ ...none, status: "not-heard" }).text).toContain("not heard");
    expect(advice({ ...none, status: "unresolved" }).text).toContain("longer take");
    // One that was named and not found may not sound at all; one beside a foreign sound is not helped by a longer take.
    const because = (code: "unison-locked" | "other-sound") =>
      advice({ ...none, status: "unresolved", findings: [{ code, severity: "warning", values: {} }] }).text;
    expect(because("unison-locked")).toContain("not read");
    expect(because("unison-locked")).not.toContain("longer take");
    expect(because("other-sound")).toContain("none of the strings");
    // A number that could not be told apart from a neighbour's is no reason to turn a peg.
    expect(advice({ status: "unresolved", deviationCents: 50 }).text).not.toContain("Tune");
  });
});

describe("stringAdvice with an anchor", () => {
  const counted = (given: Partial<StringReading>) =>
    advised({ targetHz: 392, frequencyHz: 392, ...given }, "tromp");

  it("never moves the anchor, however far off it is", () => {
    const { verdict, text } = counted({ name: "tromp", deviationCents: -70, ownErrorCents: 0 });
    expect(verdict).toBe("good");
    expect(text).toMatch(/^the anchor; leave it\. It is 70\.0 cents flat/);
    expect(text).not.toMatch(/[Tt]une|raise/);
  });

  it("goes by the error from the anchor and its interval, not by the target", () => {
    const on = counted({ deviationCents: 20, ownErrorCents: 0.3, ownErrorInterval95Cents: [-0.2, 0.8] });
    expect(on.text).toBe("0.3 cents sharp of the anchor (95 %: -0.2 to +0.8). Leave it.");
    const flat = counted({ deviationCents: 0.1, ownErrorCents: -8, ownErrorInterval95Cents: [-8.5, -7.5] });
    expect(flat.text).toMatch(
      /^8\.0 cents flat of the anchor \(95 %: -8\.5 to -7\.5\).*Tune it up by about 8 cents\.$/,
    );
    expect(flat.verdict).toBe("bad");
    const far = counted({ deviationCents: -10, ownErrorCents: -80, ownErrorInterval95Cents: [-81, -79] });
    expect(far.text).toContain("snaps");
  });
});
