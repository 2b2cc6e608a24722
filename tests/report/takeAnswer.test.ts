import { describe, expect, it } from "vitest";
import { demoMeasured } from "../../fixtures/demoMeasured.js";
import { measureText } from "../../src/report/measureText.js";
import { takeAnswer } from "../../src/report/takeAnswer.js";
import { handMadeDocument, handMadeString, handMadeTake } from "./handMade.js";

/** A sheet as one line, as far as breaks and spaces go. */
const flat = (text: string) => text.replaceAll(/[\s\u00a0]+/g, " ");

describe("takeAnswer", () => {
  const { document } = demoMeasured("0.0.0-test");
  const take = document.takes[0]!;
  const answer = takeAnswer(take, document);

  it("holds the sentences of the sheet, each under what it is about", () => {
    const sheet = flat(measureText(document, { colour: false }));
    for (const lines of [answer.inShort, answer.steps, answer.reference, answer.lowRegister, answer.wheel]) {
      expect(lines.length).toBeGreaterThan(0);
      for (const line of lines) expect(sheet).toContain(line);
    }
    expect(answer.inShort.join(" ")).not.toMatch(/\s{2}|\u00a0/);
  });

  it("has a word on every string, in the order of the take", () => {
    expect(answer.strings.map(({ name }) => name)).toEqual(take.strings.map(({ name }) => name));
    // The demo's fifth drone is the one that was put far off (src/synthesis/demoTake.ts).
    const verdicts = new Map(answer.strings.map(({ name, verdict }) => [name, verdict]));
    expect(verdicts.get("fifth drone")).toBe("bad");
    expect(verdicts.get("bass drone")).toBe("good");
  });

  it("has nothing to say where nothing was heard", () => {
    const silent = handMadeString({
      status: "not-heard",
      frequencyHz: null,
      deviationCents: null,
      perPassage: [],
    });
    const made = handMadeDocument([
      handMadeTake({ strings: [silent], pairs: [], lowRegister: null, referencePitch: null }),
    ]);
    const { steps, lowRegister, strings } = takeAnswer(made.takes[0]!, made);
    expect({ steps, lowRegister }).toEqual({ steps: [], lowRegister: [] });
    expect(strings).toEqual([
      expect.objectContaining({ verdict: "doubtful", text: expect.stringMatching(/^not heard/) }),
    ]);
  });
});
